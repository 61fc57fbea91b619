#include "layout/bound.hpp"

#include <algorithm>

namespace wildling::layout {
namespace {

std::int64_t floor_half(std::int64_t value) {
  return value >= 0 ? value / 2 : -((1 - value) / 2);
}

/// Number of tiles with at least one planted place; `tile_of(k, j)` gives a tile's two whole-number
/// coordinates.
template <class TileOf>
std::int64_t tiles(const Places& places, std::span<const std::uint8_t> species,
                   const TileOf& tile_of) {
  std::vector<std::uint64_t> seen;
  seen.reserve(places.size());
  for (const Row& row : places.rows) {
    for (std::uint32_t i = row.first_run; i < row.first_run + row.runs; ++i) {
      const Run& run = places.runs[i];
      for (std::uint32_t c = 0; c < run.count; ++c) {
        if (species[run.first + c] == kEmptyPlace) continue;
        const std::uint64_t tile = tile_of(std::int64_t{row.lattice}, std::int64_t{run.column} + c);
        if (seen.empty() || seen.back() != tile) seen.push_back(tile);
      }
    }
  }
  std::sort(seen.begin(), seen.end());
  return std::unique(seen.begin(), seen.end()) - seen.begin();
}

std::uint64_t pack(std::int64_t a, std::int64_t b) {
  return (static_cast<std::uint64_t>(a) << 32U) | static_cast<std::uint32_t>(b);
}

std::int64_t floor_mod3(std::int64_t value) {
  return ((value % 3) + 3) % 3;
}

}  // namespace

std::int64_t most_without_pairs(const Places& places, std::span<const std::uint8_t> species,
                                Neighbours neighbours) {
  std::int64_t best = static_cast<std::int64_t>(places.size());
  if (places.grid.pattern == Pattern::triangular) {
    for (std::int64_t o = 0; o < 3; ++o) {
      // Slanted columns q = j - floor(k / 2) make the six neighbours (q, k) +- (1,0), (0,1),
      // (1,-1); the triangle (q, k), (q + 1, k), (q, k + 1) is named by its first corner, for which
      // q - k = o modulo 3.
      best = std::min(best, tiles(places, species, [o](std::int64_t k, std::int64_t j) {
                        const std::int64_t q = j - floor_half(k);
                        const std::int64_t class3 = floor_mod3(q - k - o);
                        return pack(class3 == 2 ? k - 1 : k, class3 == 1 ? q - 1 : q);
                      }));
    }
    return best;
  }
  const bool corners = neighbours == Neighbours::sides_and_corners;
  for (std::int64_t o = 0; o < (corners ? 4 : 2); ++o) {
    best = std::min(best, tiles(places, species, [o, corners](std::int64_t k, std::int64_t j) {
                      return pack(corners ? floor_half(k + o / 2) : k, floor_half(j + o % 2));
                    }));
  }
  return best;
}

}  // namespace wildling::layout
