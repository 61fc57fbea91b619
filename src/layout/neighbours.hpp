#pragma once
#include <array>
#include <cstddef>

#include "layout/assign.hpp"

namespace wildling::layout {

/// Up to eight neighbours of a place.
struct Near {
  std::array<std::size_t, 8> place{};
  std::size_t count = 0;

  [[nodiscard]] const std::size_t* begin() const { return place.data(); }

  [[nodiscard]] const std::size_t* end() const { return place.data() + count; }
};

Near neighbours_of(const Places& places, std::size_t place, Neighbours neighbours);

/// Columns of the row before (or after) that touch column j of row k: j + first ... j + last.
struct Reach {
  int first = 0;
  int last = 0;
};

Reach reach(const Places& places, std::int32_t lattice_row, Neighbours neighbours);

}  // namespace wildling::layout
