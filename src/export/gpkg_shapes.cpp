#include "export/gpkg_shapes.hpp"

#include <algorithm>
#include <bit>
#include <cstdint>

namespace wildling::exports {
namespace {

class Bytes {
 public:
  explicit Bytes(std::size_t reserve) { out_.reserve(reserve); }

  void put8(std::uint8_t value) { out_ += static_cast<char>(value); }

  void put32(std::uint32_t value) {
    for (int i = 0; i < 4; ++i) put8(static_cast<std::uint8_t>(value >> (8 * i)));
  }

  void put_double(double value) {
    const auto bits = std::bit_cast<std::uint64_t>(value);
    put32(static_cast<std::uint32_t>(bits));
    put32(static_cast<std::uint32_t>(bits >> 32U));
  }

  void head(std::uint8_t flags) {
    put8('G');
    put8('P');
    put8(0);
    put8(flags);
    put32(4326);
  }

  void head_with(const Box& box) {
    head(0x03);  // little-endian, envelope [west, east, south, north]
    put_double(box.west);
    put_double(box.east);
    put_double(box.south);
    put_double(box.north);
  }

  void wkb(std::uint32_t type) {
    put8(1);
    put32(type);
  }

  void put(ground::LonLat at) {
    put_double(at.lon_deg);
    put_double(at.lat_deg);
  }

  void ring(const ground::Ring& points) {
    put32(static_cast<std::uint32_t>(points.size() + 1));
    for (const ground::LonLat& at : points) put(at);
    if (!points.empty()) put(points.front());
  }

  std::string take() { return std::move(out_); }

 private:
  std::string out_;
};

}  // namespace

void Box::add(ground::LonLat at) {
  west = std::min(west, at.lon_deg);
  east = std::max(east, at.lon_deg);
  south = std::min(south, at.lat_deg);
  north = std::max(north, at.lat_deg);
}

std::string gpkg_point(ground::LonLat at) {
  Bytes out(29);
  out.head(0x01);
  out.wkb(1);
  out.put(at);
  return out.take();
}

std::string gpkg_line(const std::vector<ground::LonLat>& points) {
  Box box;
  for (const ground::LonLat& at : points) box.add(at);
  Bytes out(64 + 16 * points.size());
  out.head_with(box);
  out.wkb(2);
  out.put32(static_cast<std::uint32_t>(points.size()));
  for (const ground::LonLat& at : points) out.put(at);
  return out.take();
}

std::string gpkg_multipolygon(const ground::Shape& shape) {
  Box box;
  for (const auto& part : shape.parts) {
    for (const ground::LonLat& at : part.outer) box.add(at);
  }
  Bytes out(1024);
  out.head_with(box);
  out.wkb(6);
  out.put32(static_cast<std::uint32_t>(shape.parts.size()));
  for (const auto& part : shape.parts) {
    out.wkb(3);
    out.put32(static_cast<std::uint32_t>(1 + part.holes.size()));
    out.ring(part.outer);
    for (const auto& hole : part.holes) out.ring(hole);
  }
  return out.take();
}

}  // namespace wildling::exports
