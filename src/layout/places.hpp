#pragma once
#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "layout/grid.hpp"

namespace wildling::layout {

/// Places of one row that follow each other without a gap on the lattice.
struct Run {
  std::uint32_t first = 0;  ///< index of its first place
  std::uint32_t count = 0;
  std::int32_t column = 0;  ///< lattice column of its first place
};

struct Row {
  std::int32_t lattice = 0;  ///< lattice row; grows to the right of the row direction
  std::uint32_t first = 0;   ///< index of its first place
  std::uint32_t count = 0;
  std::uint32_t first_run = 0;
  std::uint32_t runs = 0;
};

/// All intended positions of a block. Places are in order of row (row 1 leftmost when looking along
/// the row direction) and, within a row, in the row direction: number 1 first. Rows without a place
/// are not listed.
struct Places {
  Grid grid;
  std::vector<std::int32_t> x_mm;  ///< east of the frame's origin
  std::vector<std::int32_t> y_mm;  ///< north
  std::vector<Row> rows;
  std::vector<Run> runs;
  double block_area_m2 = 0;
  double lost_at_edge_m2 = 0;
  double lost_at_water_m2 = 0;
  double usable_area_m2 = 0;

  [[nodiscard]] std::size_t size() const { return x_mm.size(); }

  [[nodiscard]] ground::Xy at(std::size_t place) const {
    return {x_mm[place] / 1000.0, y_mm[place] / 1000.0};
  }
};

/// Draws the places: setbacks by GEOS, then each row line is cut by the edges it meets (no test per
/// place), so the cost follows rows x edges + places. Holes and several parts are read by the
/// even-odd rule; a place on a border that two blocks share belongs to one of them. Positions are
/// rounded to the millimetre and depend on nothing but the arguments.
/// @param water  water lines in the same frame; see usable_region for ponds
/// @throws Error{usage} for a grid out of range, or one with more than 50 million places;
///         Error{input} for a shape that cannot be used
Places places(const ground::XyShape& block, std::span<const std::vector<ground::Xy>> water,
              const Grid& grid);

/// Where a place stands within its block.
struct Address {
  std::uint32_t row = 0;     ///< 1 = first
  std::uint32_t number = 0;  ///< within the row, 1 = first in the row direction

  bool operator==(const Address&) const = default;
};

Address address_of(const Places& places, std::size_t place);
std::optional<std::size_t> place_at(const Places& places,
                                    Address address);  ///< empty when there is none
std::optional<std::size_t> place_at_lattice(const Places& places, std::int32_t row,
                                            std::int32_t column);
std::int32_t column_of(const Places& places, std::size_t place);

/// 1-based turn of a place when a crew walks row 1 outward, row 2 back, row 3 outward ...
std::uint32_t walking_turn(const Places& places, std::size_t place);

/// "B3-r012-007"; at least three digits each.
std::string seedling_id(std::string_view block_code, Address address);

struct SeedlingId {
  std::string block_code;
  Address address;
};

/// The reverse; empty when the text is not such an id. The block code may itself hold hyphens.
std::optional<SeedlingId> parse_seedling_id(std::string_view text);

}  // namespace wildling::layout
