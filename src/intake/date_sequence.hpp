#pragma once
#include <cstddef>
#include <optional>
#include <vector>

#include "base/date.hpp"

namespace wildling::intake {

/// A row whose date does not fit between the rows around it.
struct OutOfPlace {
  std::size_t row = 0;
  Date before = {};  ///< of the nearest row above that is in place
  Date after = {};   ///< of the nearest row below that is in place

  bool operator==(const OutOfPlace&) const = default;
};

/// Rows that were surely given a wrong date: a year off after New Year, a slip of the finger. In
/// place are the rows of a longest sequence that runs forward (or backward, if that is longer) in
/// time; a row outside it is reported when at most two of its neighbours share its fault, the rows
/// in place above and below are at most 40 days apart, and its own date lies more than 40 days
/// outside them. Whole blocks that stand elsewhere, repeated days and swapped rows are left alone.
/// @param days  one per row; empty where there is no date
std::vector<OutOfPlace> dates_out_of_place(const std::vector<std::optional<Date>>& days);

}  // namespace wildling::intake
