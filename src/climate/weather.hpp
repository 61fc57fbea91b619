#pragma once
/// climate: what the station's own log says about planting days, water at the root ball,
/// evaporation and dry spells. Inputs: one WeatherBook per station (daily rain; temperature,
/// humidity, wind, sunshine when they were measured). Sources: Allen, Pereira, Raes & Smith (1998),
/// FAO Irrigation and Drainage Paper 56, for evaporation and soil water; the other headers name
/// theirs. All functions are pure.
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/date.hpp"
#include "base/workings.hpp"

namespace wildling::climate {

/// Where the readings come from. Unknown is empty, never 0.
struct Station {
  std::string uid, name;
  std::optional<double> lon_deg = {}, lat_deg = {};  ///< WGS 84, east and north positive
  std::optional<double> elevation_m = {};
  std::optional<double> distance_km = {};  ///< from the site; 0 or empty = the gauge stands on site
  bool rain_read_next_morning =
      false;  ///< the book carries the day of reading; intake has moved rain a day back
  Origin origin = Origin::measured;  ///< told = a neighbour's log or elders' memory
  std::string source = {};
};

/// One catch for several days. Kept whole, never divided.
struct RainTotal {
  Date first;  ///< first day it covers
  Date last;   ///< last day it covers, the day it is booked on
  double total_mm = 0;
};

/// One entry per day from `first` without holes; NaN = missing. Columns that were never measured
/// may be empty, all others have the length of rain_mm.
struct DailyWeather {
  Date first = {};
  std::vector<double> rain_mm = {}, tmax_c = {}, tmin_c = {};
  std::vector<double> rh_max_pct = {}, rh_min_pct = {}, rh_mean_pct = {};
  std::vector<double> wind_m_s = {};   ///< at 2 m
  std::vector<double> sun_h = {};      ///< hours of bright sunshine
  std::vector<RainTotal> totals = {};  ///< days they cover are NaN in rain_mm

  [[nodiscard]] std::size_t days() const { return rain_mm.size(); }

  [[nodiscard]] Date day(std::size_t i) const {
    return first + std::chrono::days(static_cast<int>(i));
  }

  [[nodiscard]] Date last() const { return day(days()) - std::chrono::days(1); }

  /// Index of a day; empty outside the log.
  [[nodiscard]] std::optional<std::size_t> index(Date day) const;
};

struct WeatherBook {
  Station station;
  DailyWeather daily;
};

/// @throws Error{input} when a column has another length than rain_mm, the log is empty, rain is
/// negative or
///         infinite, or a total lies outside the log
void check(const WeatherBook& book);

/// Value of a column that may be empty; NaN when missing.
double at_or_missing(const std::vector<double>& column, std::size_t i);

namespace detail {
/// Day of the year (1 to 366) and month (1 to 12) of every day of the log.
std::vector<int> days_of_year(const DailyWeather& daily);
std::vector<char> months_of(const DailyWeather& daily);
}  // namespace detail

}  // namespace wildling::climate
