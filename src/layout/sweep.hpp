#pragma once
#include <algorithm>
#include <cstdint>
#include <vector>

#include "layout/neighbours.hpp"

namespace wildling::layout {

/// Walks all places in order and knows which species the neighbours already passed hold: the
/// species of this row and the one before lie in arrays indexed by lattice column, so that a look
/// costs a byte read.
class Sweep {
 public:
  Sweep(const Places& places, Neighbours neighbours) : places_(places), neighbours_(neighbours) {
    if (places.runs.empty()) return;
    std::int32_t low = places.runs.front().column;
    std::int32_t high = low;
    for (const Run& run : places.runs) {
      low = std::min(low, run.column);
      high = std::max(high, run.column + static_cast<std::int32_t>(run.count));
    }
    low_ = low - 2;
    const auto width = static_cast<std::size_t>(high - low) + 4;
    here_.assign(width, kEmptyPlace);
    before_.assign(width, kEmptyPlace);
  }

  /// Calls lay(place, left, across, n): the species to the left and the n species in the row before
  /// that touch this place (kEmptyPlace = nobody); lay returns the species that stands here.
  template <class Lay>
  void run(const Lay& lay) {
    for (std::size_t r = 0; r < places_.rows.size(); ++r) {
      const Row& row = places_.rows[r];
      std::swap(here_, before_);
      std::fill(here_.begin(), here_.end(), kEmptyPlace);
      if (r == 0 || places_.rows[r - 1].lattice + 1 != row.lattice) {
        std::fill(before_.begin(), before_.end(), kEmptyPlace);
      }
      one_row(row, lay);
    }
  }

 private:
  template <class Lay>
  void one_row(const Row& row, const Lay& lay) {
    const Reach across = reach(places_, row.lattice, neighbours_);
    const int n = across.last - across.first + 1;
    for (std::uint32_t i = row.first_run; i < row.first_run + row.runs; ++i) {
      const Run& run = places_.runs[i];
      std::uint8_t* here = here_.data() + (run.column - low_);
      const std::uint8_t* before = before_.data() + (run.column - low_) + across.first;
      for (std::uint32_t c = 0; c < run.count; ++c)
        here[c] = lay(run.first + c, *(here + c - 1), before + c, n);
    }
  }

  const Places& places_;
  Neighbours neighbours_;
  std::int32_t low_ = 0;
  std::vector<std::uint8_t> here_;
  std::vector<std::uint8_t> before_;
};

}  // namespace wildling::layout
