#include "layout/neighbours.hpp"

#include <algorithm>

namespace wildling::layout {

Reach reach(const Places& places, std::int32_t lattice_row, Neighbours neighbours) {
  if (places.grid.pattern == Pattern::triangular) {
    return (lattice_row & 1) != 0 ? Reach{.first = 0, .last = 1} : Reach{.first = -1, .last = 0};
  }
  return neighbours == Neighbours::sides ? Reach{.first = 0, .last = 0}
                                         : Reach{.first = -1, .last = 1};
}

Near neighbours_of(const Places& places, std::size_t place, Neighbours neighbours) {
  Near near;
  const std::int32_t k = places.rows[address_of(places, place).row - 1].lattice;
  const std::int32_t j = column_of(places, place);
  const Reach across = reach(places, k, neighbours);
  for (std::int32_t dk = -1; dk <= 1; ++dk) {
    const int first = dk == 0 ? -1 : across.first;
    const int last = dk == 0 ? 1 : across.last;
    for (std::int32_t dj = first; dj <= last; ++dj) {
      if (dk == 0 && dj == 0) continue;
      const auto other = place_at_lattice(places, k + dk, j + dj);
      if (other) near.place[near.count++] = *other;
    }
  }
  return near;
}

}  // namespace wildling::layout
