#pragma once
/// In which weeks of the year did a seedling planted then meet no killing dry spell?
///
/// A killing dry spell is `killing_days` days in a row on which the water that plants can use in
/// the root ball stays below `killing_share` of what it can hold (both assumed, shown with every
/// result). For each ten-day period of each year of the log a seedling planted on any day of that
/// period is followed for `look_ahead_days`, starting from the state of ball and hole that the
/// balance gives for that day (climate/pit_balance.hpp). Counts of years, never percentages.
#include <array>
#include <optional>
#include <vector>

#include "base/message.hpp"
#include "base/parameters.hpp"
#include "climate/weather.hpp"

namespace wildling::climate {

struct WindowRules {
  int look_ahead_days = 60;
  int spin_up_days =
      30;  ///< days of log needed before a planting day, so that the hole's state is known
  int missing_days_most =
      6;  ///< more missing rain days in spin-up and look-ahead: the year is not judged
  double killing_share = 0.2;      ///< of the water the root ball can hold
  int killing_days = 7;            ///< in a row
  double least_share = 0.7;        ///< of the years judged; below it a period does not pass
  int years_least = 2;             ///< fewer judged years: nothing is recommended
  int years_for_plain_words = 10;  ///< fewer: "k of n" carries its interval
  int longest_periods = 12;        ///< a recommended window is cut to its best part of this length
  int shortest_periods = 3;        ///< the best record must hold for so many periods on end
  double near_best = 0.1;  ///< neighbours whose share falls short by no more join the window
};

/// From the parameters climate.window.* and climate.killing.*.
WindowRules window_rules(const Parameters& parameters);

/// One ten-day period of the year over all years of the log, at the cautious (higher) evaporation.
struct PeriodRecord {
  int period = 0;  ///< 0 = 1-10 January ... 35 = 21-31 December
  int years_judged = 0;
  int years_without_killing_spell = 0;
  std::vector<int> years_met;     ///< a killing spell came
  std::vector<int> years_failed;  ///< the log has too many gaps to judge (not counted in
                                  ///< years_judged); years cut by an end of the log are in no list
  std::vector<int> years_good;    ///< no killing spell
  int years_without_killing_spell_low = 0;  ///< the same count at the lower evaporation
  double lowest_water_mm = 0;  ///< mean over judged years of the lowest ball water met; NaN if none
};

/// The weeks recommended. Periods are 0 to 35; last < first means that the window crosses New Year.
struct PlantingWindow {
  bool enough_data = false;  ///< false: nothing is recommended and `refused` says why
  bool found = false;  ///< false with enough_data: no period passes; `refused` says so and names
                       ///< the safe act
  bool whole_year_passes = false;
  int first_period = -1, last_period = -1;
  int good_years = 0, of_years = 0;      ///< of the weakest period inside the window
  double share_low = 0, share_high = 0;  ///< Wilson 95 % limits of good_years / of_years
  Message first_line;                    ///< the answer in one sentence
  std::vector<Message> refused;
  std::vector<Message>
      caveats;  ///< "rain at the office, 14 km away", assumed evaporation, few years
};

struct WindowResult {
  WindowRules rules;
  double et0_low_mm_d = 0, et0_high_mm_d = 0;  ///< means over the log
  bool et0_assumed = false;                    ///< rain only: the assumed range was used
  double ball_holds_mm = 0, killing_below_mm = 0;
  int first_year = 0, last_year = 0;
  std::vector<PeriodRecord> periods;  ///< 36
  PlantingWindow window;
};

/// Years that pass for each period, from the days on which a killing spell would catch a seedling.
/// @param ball_mm  one value per day of the log (pit_balance);  @param missing  1 where rain is
/// missing
struct PeriodCounts {
  std::vector<int> judged, good, failed;  ///< years
  double lowest_water_mm = 0;
};

/// @return  36 entries
std::vector<PeriodCounts> count_periods(Date first, const std::vector<double>& ball_mm,
                                        const std::vector<char>& missing, double killing_below_mm,
                                        const WindowRules& rules);

/// Picks the window from 36 records (climate/planting_window.cpp says how); messages without
/// caveats.
PlantingWindow choose_window(const std::vector<PeriodRecord>& periods, const WindowRules& rules);

/// The period with the largest share of good years, the first of equals; 0 when none was judged.
int best_period(const std::vector<PeriodRecord>& periods);

/// First and last day of a period in a year without 29 February, for words.
Date period_first_day(int period);
Date period_last_day(int period);

/// @param et0_override  mm/day, used on every day instead of measured or assumed evaporation
/// @throws Error{input} when the log cannot be used (see check)
WindowResult planting_windows(const WeatherBook& book, const Parameters& parameters,
                              std::optional<double> et0_override = {});

}  // namespace wildling::climate
