#pragma once
/// Workings of the numbers of quality control, under "climate/quality/...".
#include <string>
#include <vector>

#include "base/workings.hpp"
#include "climate/breaks.hpp"
#include "climate/fill.hpp"
#include "climate/quality.hpp"

namespace wildling::climate {

/// Flags counted by check ("climate/quality/flags/gap"); the weekday tests from their counts
/// ("climate/quality/weekday/wet_p", ".../blank_p"); each break's test value, limits, Pettitt's K
/// and p and its size from the yearly values ("climate/quality/break/tmax/t", "/limit", "/k", "/p",
/// "/size"). A refused break has no nodes.
void add_quality_workings(Workings& workings, const Station& station,
                          const std::vector<Flag>& flags, const WeekdayBias& bias,
                          const std::vector<BreakResult>& breaks);

/// The share filled of each column, "climate/fill/rain/share".
void add_fill_workings(Workings& workings, const Station& station, const FilledLog& filled);

namespace detail {
void add_quality_formulas(Formulas& formulas);
}  // namespace detail

}  // namespace wildling::climate
