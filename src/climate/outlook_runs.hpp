#pragma once
/// Inner loop of outlook and hindcast: one seedling under one stretch of rain.
#include <span>
#include <vector>

#include "climate/pit_balance.hpp"
#include "climate/planting_window.hpp"

namespace wildling::climate::detail {

/// What a log becomes for many runs: no NaN, evaporation at the cautious end, counts of missing
/// days.
struct RunLog {
  Date first;
  std::vector<double> rain_mm, et0_mm;
  std::vector<int> missing_before;  ///< [i] = missing days before day i
  PitSettings pit;
  WindowRules rules;
  double killing_below_mm = 0;
};

RunLog run_log(const WeatherBook& book, const Parameters& parameters);

/// Water at the end of each day, from full stores on the first.
std::vector<PitDay> states_of(const RunLog& log);

/// Good for planting 0 ... delays.back() days after the first day of `rain_mm`: no killing run
/// within the look-ahead.
/// @param delays  ascending; @param rain_mm, et0_mm  at least delays.back() + look_ahead_days long
std::vector<char> good_after(PitDay start, std::span<const double> rain_mm,
                             std::span<const double> et0_mm, std::span<const int> delays,
                             const RunLog& log);

/// Same calendar day in another year (29 February becomes the 28th), as an index; nothing outside
/// the log.
std::optional<std::size_t> same_day(const RunLog& log, Date day, int year);

/// Missing days allowed in so long a stretch, in proportion to climate.window.missing_days_most.
int missing_allowed(const RunLog& log, int days);

}  // namespace wildling::climate::detail
