#include "layout/bound.hpp"

#include <algorithm>
#include <array>
#include <limits>

namespace wildling::layout {
namespace {

std::int64_t floor_half(std::int64_t value) {
  return value >= 0 ? value / 2 : -((1 - value) / 2);
}

struct Tile {
  std::int64_t row = 0;
  std::int64_t column = 0;
};

/// Number of tiles with at least one planted place. A place of row k belongs to a tile of row k, k
/// - 1 or a function of k that never falls; so two lines of marks, one for even and one for odd
/// tile rows, are enough.
template <class TileOf>
std::int64_t tiles(const Places& places, std::span<const std::uint8_t> species,
                   const TileOf& tile_of) {
  std::int64_t low = 0;
  std::int64_t high = 0;
  for (const Row& row : places.rows) {
    for (std::uint32_t i = row.first_run; i < row.first_run + row.runs; ++i) {
      const Run& run = places.runs[i];
      low = std::min(low, tile_of(row.lattice, run.column).column - 2);
      high = std::max(high, tile_of(row.lattice, std::int64_t{run.column} + run.count).column + 2);
    }
  }
  constexpr std::int64_t kNever = std::numeric_limits<std::int64_t>::min();
  std::array<std::vector<std::int64_t>, 2> marks;
  for (auto& line : marks) line.assign(static_cast<std::size_t>(high - low + 1), kNever);
  std::int64_t count = 0;
  for (const Row& row : places.rows) {
    for (std::uint32_t i = row.first_run; i < row.first_run + row.runs; ++i) {
      const Run& run = places.runs[i];
      for (std::uint32_t c = 0; c < run.count; ++c) {
        if (species[run.first + c] == kEmptyPlace) continue;
        const Tile tile = tile_of(row.lattice, std::int64_t{run.column} + c);
        std::int64_t& mark =
            marks[(tile.row & 1) != 0 ? 1 : 0][static_cast<std::size_t>(tile.column - low)];
        count += mark != tile.row ? 1 : 0;
        mark = tile.row;
      }
    }
  }
  return count;
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
      best =
          std::min(best, tiles(places, species, [o](std::int64_t k, std::int64_t j) {
                     const std::int64_t q = j - floor_half(k);
                     const std::int64_t class3 = floor_mod3(q - k - o);
                     return Tile{.row = class3 == 2 ? k - 1 : k, .column = class3 == 1 ? q - 1 : q};
                   }));
    }
    return best;
  }
  const bool corners = neighbours == Neighbours::sides_and_corners;
  for (std::int64_t o = 0; o < (corners ? 4 : 2); ++o) {
    best = std::min(best, tiles(places, species, [o, corners](std::int64_t k, std::int64_t j) {
                      return Tile{.row = corners ? floor_half(k + o / 2) : k,
                                  .column = floor_half(j + o % 2)};
                    }));
  }
  return best;
}

}  // namespace wildling::layout
