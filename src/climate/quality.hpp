#pragma once
/// Readings worth a second look. Flags never delete or change a value: the keeper of the book
/// decides.
///
/// Checks and limits after the daily quality control of GHCN-Daily (Durre, Menne, Gleason, Houston
/// & Vose 2010, J. Appl. Meteor. Climatol. 49:1615-1633); each check sees only values that passed
/// the ones before it. Steps and months of zeros are our own checks, against the log's own habit.
#include <array>
#include <string_view>
#include <vector>

#include "base/message.hpp"
#include "base/parameters.hpp"
#include "climate/weather.hpp"

namespace wildling::climate {

enum class Column { rain, tmax, tmin, rh_max, rh_min, rh_mean, wind, sun };
std::string_view column_name(Column column);  ///< "rain" ...
const std::vector<double>& column_of(const DailyWeather& daily, Column column);

enum class Check {
  bounds,     ///< outside what the world has seen
  internal,   ///< Tmin above Tmax, RHmin above RHmax
  repeated,   ///< the same value many days on end (rain: without zeros)
  same_year,  ///< a year that repeats another
  gap,        ///< far from every other value of the calendar month
  outlier,    ///< far from the values of this time of year
  spike,      ///< far from the day before and the day after
  step,       ///< a leap from the day before such as this log does not know
  dry_month   ///< a month of zeros where this month never failed to bring rain
};

struct Flag {
  Check check;
  Column column;
  std::size_t first = 0, last = 0;  ///< indices into the log, both inside
  double value = 0;                 ///< NaN for runs of days
  Message message;
};

/// In the order of the checks, then of the columns, then of the days.
std::vector<Flag> quality_flags(const DailyWeather& daily, const Parameters& parameters);

std::string_view check_name(Check check);  ///< "bounds" ...

/// Do people skip a day of the week? Counts of measured days, blank days and wet days per weekday
/// (0 = Sunday).
struct WeekdayBias {
  std::array<int, 7> measured{}, blank{}, wet{};
  double wet_p =
      1;  ///< chi-square test that wet days are as frequent on every weekday (6 degrees of freedom)
  double blank_p = 1;   ///< the same for blanks
  bool biased = false;  ///< either p below climate.quality.weekday_p
};

WeekdayBias weekday_bias(const DailyWeather& daily, const Parameters& parameters);

namespace detail {
/// p of hits on seven weekdays against their trials (6 degrees of freedom).
double chi_square_6(const std::array<int, 7>& hits, const std::array<int, 7>& trials);
using Passed = std::vector<char>;  ///< 1 = not flagged yet
void flag_same_years(const DailyWeather& daily, Column column, const Parameters& parameters,
                     Passed& passed, std::vector<Flag>& flags);
void flag_gaps(const DailyWeather& daily, Column column, const Parameters& parameters,
               Passed& passed, std::vector<Flag>& flags);
void flag_outliers(const DailyWeather& daily, Column column, const Parameters& parameters,
                   Passed& passed, std::vector<Flag>& flags);
void flag_dry_months(const DailyWeather& daily, const Parameters& parameters,
                     std::vector<Flag>& flags);
Flag day_flag(const DailyWeather& daily, Check check, Column column, std::size_t i);
Flag run_flag(const DailyWeather& daily, Check check, Column column, std::size_t first,
              std::size_t last);
}  // namespace detail

}  // namespace wildling::climate
