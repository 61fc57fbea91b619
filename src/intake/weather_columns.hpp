#pragma once
#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace wildling::intake {

/// A reading of a weather log.
enum class Reading { rain, tmax, tmin, rh_max, rh_min, rh_mean, wind, sun };
inline constexpr std::size_t kReadings = 8;

/// "rain", "tmax" ... as in WeatherOptions::columns.
std::string_view reading_name(Reading reading);

/// A column of readings: value in our unit = (value - zero) * factor.
struct ReadingColumn {
  std::size_t at = 0;
  double factor = 1;
  double zero = 0;
};

struct WeatherColumns {
  std::optional<std::size_t> date = {}, year = {}, month = {}, day = {}, station = {}, days = {};
  std::map<Reading, ReadingColumn> readings = {};
  std::vector<std::string> not_found = {};  ///< headers the user named that are not there

  [[nodiscard]] bool dated() const { return date || (year && month && day); }

  [[nodiscard]] std::size_t count() const;
};

/// Columns by their names, English or Indonesian, in any case, with the unit behind (inches, cm,
/// Fahrenheit, km/h are converted); the first that fits wins. Names the user gives come first.
WeatherColumns weather_columns(const std::vector<std::string>& header,
                               const std::map<std::string, std::string>& chosen);

}  // namespace wildling::intake
