#include "layout/code.hpp"

#include <array>
#include <bit>

#include "base/error.hpp"

namespace wildling::layout {
namespace {

constexpr std::string_view kMagic = "WLAY";
constexpr std::uint8_t kVersion = 1;
constexpr std::size_t kHeader = 4 + 4 + 8 * 8 + 8 + 8;

void put(std::string& out, std::uint64_t value, int bytes) {
  for (int i = 0; i < bytes; ++i) out += static_cast<char>((value >> (8 * i)) & 0xffU);
}

std::uint64_t get(std::string_view bytes, std::size_t at, int count) {
  std::uint64_t value = 0;
  for (int i = 0; i < count; ++i) {
    value |= std::uint64_t{static_cast<std::uint8_t>(bytes[at + static_cast<std::size_t>(i)])}
             << (8 * i);
  }
  return value;
}

[[noreturn]] void refuse() {
  throw Error(ErrorKind::input, "layout", say("layout.stored_layout_faulty"));
}

Grid read_grid(std::string_view bytes) {
  std::array<double, 8> number{};
  for (std::size_t i = 0; i < number.size(); ++i)
    number[i] = std::bit_cast<double>(get(bytes, 8 + 8 * i, 8));
  const std::uint64_t pattern = get(bytes, 5, 1);
  if (pattern > 1 || get(bytes, 6, 2) != 0 || number[7] != 0) refuse();
  return {.pattern = pattern == 0 ? Pattern::square : Pattern::triangular,
          .spacing_m = number[0],
          .row_spacing_m = number[1],
          .row_bearing_deg = number[2],
          .setback_edge_m = number[3],
          .setback_water_m = number[4],
          .anchor = {.x_m = number[5], .y_m = number[6]}};
}

}  // namespace

std::uint64_t fingerprint(const Places& places) {
  std::uint64_t hash = 14695981039346656037U;
  const auto add = [&hash](std::int32_t value) {
    hash = (hash ^ static_cast<std::uint32_t>(value)) * 1099511628211U;
  };
  for (std::size_t i = 0; i < places.size(); ++i) {
    add(places.x_mm[i]);
    add(places.y_mm[i]);
  }
  return hash;
}

std::string encode(const Places& places, std::span<const std::uint8_t> species) {
  if (species.size() != places.size()) {
    throw Error(ErrorKind::internal, "layout", say("layout.stored_layout_faulty"));
  }
  const Grid& g = places.grid;
  std::string out(kMagic);
  out.reserve(kHeader + species.size());
  put(out, kVersion, 1);
  put(out, g.pattern == Pattern::triangular ? 1 : 0, 1);
  put(out, 0, 2);
  for (const double value : {g.spacing_m, g.row_spacing_m, g.row_bearing_deg, g.setback_edge_m,
                             g.setback_water_m, g.anchor.x_m, g.anchor.y_m, 0.0}) {
    put(out, std::bit_cast<std::uint64_t>(value), 8);
  }
  put(out, fingerprint(places), 8);
  put(out, places.size(), 8);
  for (const std::uint8_t s : species) out += static_cast<char>(s);
  return out;
}

StoredLayout decode(std::string_view bytes) {
  if (bytes.size() < kHeader || bytes.substr(0, 4) != kMagic || get(bytes, 4, 1) != kVersion)
    refuse();
  StoredLayout out;
  out.grid = read_grid(bytes);
  try {
    check_grid(out.grid);
  } catch (const Error&) {
    refuse();
  }
  out.fingerprint = get(bytes, 72, 8);
  if (get(bytes, 80, 8) != bytes.size() - kHeader) refuse();
  for (const char c : bytes.substr(kHeader)) out.species.push_back(static_cast<std::uint8_t>(c));
  return out;
}

Places recompute(const StoredLayout& stored, const ground::XyShape& block,
                 std::span<const std::vector<ground::Xy>> water) {
  Places out = places(block, water, stored.grid);
  if (out.size() != stored.species.size() || fingerprint(out) != stored.fingerprint) {
    throw Error(ErrorKind::input, "layout", say("layout.block_changed_since"));
  }
  return out;
}

}  // namespace wildling::layout
