// Notation: OGC 12-128r18 (GeoPackage 1.3) clause 2.1.3 and OGC 06-103r4 clause 8 (WKB).
// Header: 'G' 'P', version 0, flags (bit 0 little endian, bits 1-3 envelope code, bit 4 empty,
// bit 5 extended type), srs_id, envelope; then WKB.
#include "store/geometry.hpp"

#include <algorithm>
#include <cmath>
#include <cstring>
#include <limits>

#include "base/error.hpp"

namespace wildling::store {
namespace {

constexpr std::int32_t kWgs84 = 4326;
constexpr std::uint32_t kPoint = 1;
constexpr std::uint32_t kLine = 2;
constexpr std::uint32_t kPolygon = 3;
constexpr std::uint32_t kMultiPolygon = 6;

[[noreturn]] void refuse(const char* what) {
  throw Error(ErrorKind::input, "", say("store.geometry_faulty", {{"what", std::string(what)}}));
}

bool on_earth(Position p) {
  return std::abs(p.lon_deg) <= 180 && std::abs(p.lat_deg) <= 90;
}  // false for NaN

// ---- writing

template <typename T>
void put(Blob& out, T value) {
  const std::size_t at = out.size();
  out.resize(at + sizeof(T));
  std::memcpy(out.data() + at, &value, sizeof(T));
}

void put_position(Blob& out, Position p) {
  if (!on_earth(p)) refuse("position");
  put(out, p.lon_deg);
  put(out, p.lat_deg);
}

void put_wkb_head(Blob& out, std::uint32_t type) {
  out.push_back(1);
  put(out, type);
}

void put_ring(Blob& out, const Ring& ring) {
  if (ring.size() < 3) refuse("ring");
  put(out, static_cast<std::uint32_t>(ring.size() + 1));
  for (const Position& p : ring) put_position(out, p);
  put_position(out, ring.front());
}

void put_wkb(Blob& out, const LineString& line) {
  if (line.points.size() == 1) refuse("line");
  put_wkb_head(out, kLine);
  put(out, static_cast<std::uint32_t>(line.points.size()));
  for (const Position& p : line.points) put_position(out, p);
}

void put_wkb(Blob& out, const MultiPolygon& shape) {
  put_wkb_head(out, kMultiPolygon);
  put(out, static_cast<std::uint32_t>(shape.parts.size()));
  for (const PolygonPart& part : shape.parts) {
    if (part.rings.empty()) refuse("ring");
    put_wkb_head(out, kPolygon);
    put(out, static_cast<std::uint32_t>(part.rings.size()));
    for (const Ring& ring : part.rings) put_ring(out, ring);
  }
}

// ---- envelopes

class Extent {
 public:
  void take(Position p) {
    box_.min_lon_deg = std::min(box_.min_lon_deg, p.lon_deg);
    box_.max_lon_deg = std::max(box_.max_lon_deg, p.lon_deg);
    box_.min_lat_deg = std::min(box_.min_lat_deg, p.lat_deg);
    box_.max_lat_deg = std::max(box_.max_lat_deg, p.lat_deg);
  }

  void take(const LineString& line) {
    for (const Position& p : line.points) take(p);
  }

  void take(const MultiPolygon& shape) {
    for (const PolygonPart& part : shape.parts) {
      for (const Ring& ring : part.rings) {
        for (const Position& p : ring) take(p);
      }
    }
  }

  [[nodiscard]] std::optional<Envelope> box() const {
    return box_.min_lon_deg <= box_.max_lon_deg ? std::optional<Envelope>(box_) : std::nullopt;
  }

 private:
  static constexpr double kFar = std::numeric_limits<double>::infinity();
  Envelope box_{kFar, -kFar, kFar, -kFar};
};

template <typename Shape>
Blob encode_shape(const Shape& shape) {
  Extent extent;
  extent.take(shape);
  const auto box = extent.box();
  Blob out = {'G', 'P', 0, static_cast<std::uint8_t>(box ? 0x03 : 0x11)};
  put(out, kWgs84);
  if (box) {
    for (const double side :
         {box->min_lon_deg, box->max_lon_deg, box->min_lat_deg, box->max_lat_deg})
      put(out, side);
  }
  put_wkb(out, shape);
  return out;
}

// ---- reading

class Bytes {
 public:
  explicit Bytes(std::span<const std::uint8_t> bytes) : rest_(bytes) {}

  std::uint8_t byte() { return take(1)[0]; }

  template <typename T>
  T number(bool little) {
    std::array<std::uint8_t, sizeof(T)> bytes{};
    const auto taken = take(sizeof(T));
    std::copy(taken.begin(), taken.end(), bytes.begin());
    if (!little) std::reverse(bytes.begin(), bytes.end());  // our machines are little endian
    T value{};
    std::memcpy(&value, bytes.data(), sizeof(T));
    return value;
  }

  void skip(std::size_t n) { take(n); }

  [[nodiscard]] std::size_t left() const { return rest_.size(); }

 private:
  std::span<const std::uint8_t> take(std::size_t n) {
    if (n > rest_.size()) refuse("short");
    const auto taken = rest_.first(n);
    rest_ = rest_.subspan(n);
    return taken;
  }

  std::span<const std::uint8_t> rest_;
};

struct Header {
  bool empty = false;
  std::optional<Envelope> envelope;
};

Header read_header(Bytes& in) {
  if (in.byte() != 'G' || in.byte() != 'P' || in.byte() != 0) refuse("header");
  const std::uint8_t flags = in.byte();
  const bool little = (flags & 1U) != 0;
  const unsigned code = (flags >> 1U) & 7U;
  if ((flags & 0x20U) != 0 || code > 4) refuse("header");
  if (in.number<std::int32_t>(little) != kWgs84) refuse("system");
  Header header{(flags & 0x10U) != 0, std::nullopt};
  if (code == 0) return header;
  std::array<double, 4> side{};
  for (double& value : side) value = in.number<double>(little);
  constexpr std::array<std::size_t, 5> kBytes = {0, 32, 48, 48, 64};
  in.skip(kBytes[code] - 32);
  if (side[0] <= side[1] && side[2] <= side[3])
    header.envelope = Envelope{side[0], side[1], side[2], side[3]};
  return header;
}

/// The head of one WKB geometry: its byte order, its type without Z and M, and how many doubles a
/// position has.
struct WkbHead {
  bool little = true;
  std::uint32_t type = 0;
  std::size_t dimensions = 2;
};

WkbHead read_wkb_head(Bytes& in) {
  const std::uint8_t order = in.byte();
  if (order > 1) refuse("header");
  WkbHead head{order == 1, 0, 2};
  const auto code = in.number<std::uint32_t>(head.little);
  if (code / 1000 > 3) refuse("kind");
  head.type = code % 1000;
  head.dimensions = code / 1000 == 0 ? 2 : code / 1000 == 3 ? 4 : 3;
  return head;
}

Position read_position(Bytes& in, const WkbHead& head) {
  Position p;
  p.lon_deg = in.number<double>(head.little);
  p.lat_deg = in.number<double>(head.little);
  in.skip(8 * (head.dimensions - 2));
  if (!on_earth(p)) refuse("position");
  return p;
}

std::vector<Position> read_positions(Bytes& in, const WkbHead& head) {
  const auto count = in.number<std::uint32_t>(head.little);
  if (count > in.left() / (8 * head.dimensions)) refuse("short");
  std::vector<Position> points;
  points.reserve(count);
  for (std::uint32_t i = 0; i < count; ++i) points.push_back(read_position(in, head));
  return points;
}

PolygonPart read_polygon(Bytes& in, const WkbHead& head) {
  const auto count = in.number<std::uint32_t>(head.little);
  if (count == 0 || count > in.left() / 4) refuse("ring");
  PolygonPart part;
  for (std::uint32_t i = 0; i < count; ++i) {
    Ring ring = read_positions(in, head);
    if (ring.size() < 4 || !(ring.front() == ring.back())) refuse("ring");
    ring.pop_back();
    part.rings.push_back(std::move(ring));
  }
  return part;
}

MultiPolygon read_multi_polygon(Bytes& in, const WkbHead& head) {
  const auto count = in.number<std::uint32_t>(head.little);
  if (count > in.left() / 9) refuse("short");
  MultiPolygon shape;
  for (std::uint32_t i = 0; i < count; ++i) {
    const WkbHead inner = read_wkb_head(in);
    if (inner.type != kPolygon) refuse("kind");
    shape.parts.push_back(read_polygon(in, inner));
  }
  return shape;
}

LineString read_line(Bytes& in, const WkbHead& head) {
  LineString line{read_positions(in, head)};
  if (line.points.size() == 1) refuse("line");
  return line;
}

Geometry read_wkb(Bytes& in, bool empty) {
  const WkbHead head = read_wkb_head(in);
  if (empty) {
    if (head.type == kLine) return LineString{};
    if (head.type == kPolygon || head.type == kMultiPolygon) return MultiPolygon{};
    refuse("kind");
  }
  switch (head.type) {
    case kPoint:
      return read_position(in, head);
    case kLine:
      return read_line(in, head);
    case kPolygon:
      return MultiPolygon{{read_polygon(in, head)}};
    case kMultiPolygon:
      return read_multi_polygon(in, head);
    default:
      refuse("kind");
  }
}

}  // namespace

void encode_point(Position at, Blob& into) {
  into.clear();
  constexpr std::array<std::uint8_t, 4> kNoEnvelope = {'G', 'P', 0, 1};
  for (const std::uint8_t byte : kNoEnvelope) into.push_back(byte);
  put(into, kWgs84);
  put_wkb_head(into, kPoint);
  put_position(into, at);
}

Blob encode(const Geometry& geometry) {
  if (const auto* line = std::get_if<LineString>(&geometry)) return encode_shape(*line);
  if (const auto* shape = std::get_if<MultiPolygon>(&geometry)) return encode_shape(*shape);
  Blob out;
  encode_point(std::get<Position>(geometry), out);
  return out;
}

Geometry decode(std::span<const std::uint8_t> blob) {
  Bytes in(blob);
  const Header header = read_header(in);
  return read_wkb(in, header.empty);
}

std::optional<Envelope> envelope_of(std::span<const std::uint8_t> blob) noexcept {
  try {
    Bytes in(blob);
    const Header header = read_header(in);
    if (header.empty) return std::nullopt;
    if (header.envelope) return header.envelope;
    Extent extent;
    const Geometry geometry = read_wkb(in, false);
    std::visit([&](const auto& shape) { extent.take(shape); }, geometry);
    return extent.box();
  } catch (...) {
    return std::nullopt;
  }
}

}  // namespace wildling::store
