#pragma once
/// Reference evapotranspiration for every day of a log, with the gaps filled for calculations that
/// need every day.
#include <optional>
#include <vector>

#include "base/message.hpp"
#include "base/parameters.hpp"
#include "climate/evaporation.hpp"
#include "climate/weather.hpp"

namespace wildling::climate {

struct Et0Series {
  std::vector<double> low_mm, high_mm;  ///< one per day of the log, never NaN; equal unless assumed
  bool assumed = false;     ///< no usable temperatures: the range climate.et0.assumed_low/high_mm_d
  bool overridden = false;  ///< the caller gave one value for all days
  int days_computed = 0;    ///< FAO-56 Penman-Monteith from that day's temperatures
  int days_filled = 0;      ///< mean of the computed days of that calendar month (or of the log)
  int days_with_humidity = 0, days_with_wind = 0, days_with_sun = 0;
  std::vector<Message> notes;
};

/// Needs Tmax and Tmin on at least climate.et0.days_least days and the station's latitude;
/// otherwise the assumed range. Elevation missing counts as 0 m. Days with Tmin > Tmax are filled.
Et0Series et0_series(const WeatherBook& book, const Parameters& parameters,
                     std::optional<double> override_mm_d);

/// The input of one day as the log has it. Latitude missing counts as 0.
Et0Input et0_input(const WeatherBook& book, std::size_t i);

}  // namespace wildling::climate
