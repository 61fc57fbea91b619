#pragma once
/// Monthly figures of the station's own log, and the small questions that tending and fire ask of
/// the rain.
#include <array>
#include <optional>
#include <vector>

#include "base/parameters.hpp"
#include "climate/weather.hpp"

namespace wildling::climate {

/// One calendar month over the years in which it is complete enough. NaN where there is no such
/// year.
struct MonthNormal {
  int month = 0;  ///< 1 to 12
  int years = 0;  ///< years whose month misses at most climate.month.missing_days_most days
  int years_left_out = 0;
  double rain_mean_mm = 0, rain_median_mm = 0, rain_least_mm = 0, rain_most_mm = 0;
  double rain_days_mean = 0;  ///< days with at least climate.rain.wet_day_mm
  int years_dry = 0;          ///< months below climate.month.dry_mm
  double et0_mean_mm_d = 0;   ///< NaN without temperatures
};

/// Sums are of what was measured; nothing is filled in. Totals over several days count when they
/// lie in one month.
std::array<MonthNormal, 12> month_normals(const WeatherBook& book,
                                          const Parameters& parameters = Parameters::shipped());

/// The same without evaporation (et0_mean_mm_d is NaN): for those who ask for rain alone.
std::array<MonthNormal, 12> rain_normals(const DailyWeather& daily, const Parameters& parameters);

/// Rain of one month of one year: what was measured and how many days are missing.
struct MonthRain {
  double rain_mm = 0;
  int days_measured = 0, days_missing = 0, rain_days = 0;
};

MonthRain month_rain(const DailyWeather& daily, int year, unsigned month, double wet_day_mm);

/// Rain that surely fell on or after day i of a reading over several days, booked on its first day:
/// its mean per day, for one day must have had as much. The reading itself where there is one; 0
/// for a missing day.
double sure_rain_mm(const DailyWeather& daily, std::size_t i);

/// Days since the last day with at least `useful_mm`, counted on `day` itself (0 = it rained that
/// day).
struct SinceRain {
  std::optional<int> days;  ///< empty: no such rain in the log, or the day lies outside it
  bool gap_met = false;     ///< a missing day lies between: the true number may be smaller
};

SinceRain days_since_rain(const DailyWeather& daily, Date day, double useful_mm);

/// A run of days, both ends inside.
struct Spell {
  Date first, last;
  int days = 0;
  bool cut = false;  ///< touches a missing day or an end of the log: the true spell may be longer
};

/// Runs of at least `least_days` days below `wet_day_mm`. A missing day ends a run.
std::vector<Spell> dry_spells(const DailyWeather& daily, double wet_day_mm, int least_days);

/// Runs of calendar months whose mean rain is below `dry_mm`, as month numbers in order ("7 8 9";
/// may cross New Year). Empty: no dry month, or no month is known.
std::vector<int> dry_season_months(const std::array<MonthNormal, 12>& normals, double dry_mm);

}  // namespace wildling::climate
