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
  std::optional<std::size_t> remark = {};   ///< what the keeper wrote beside the readings
  std::vector<std::string> not_found = {};  ///< headers the user named that are not there

  [[nodiscard]] bool dated() const { return date || (year && month && day); }

  [[nodiscard]] std::size_t count() const;
};

/// Columns by their names, English or Indonesian, in any case, with the unit behind (inches, cm,
/// Fahrenheit, km/h are converted); the first that fits wins. Names the user gives come first.
WeatherColumns weather_columns(const std::vector<std::string>& header,
                               const std::map<std::string, std::string>& chosen);

/// Which reading a title speaks of ("Suhu maksimum tahun 2019"); the longest name wins.
std::optional<Reading> reading_in_title(std::string_view title);

/// A unit in words, as in "rain=inch": mm, cm, inch, tenth_mm, hundredth_inch; c, f, tenth_c; m_s,
/// km_h, knot, mile_h; pct; h, minute. Empty when the reading cannot have it.
std::optional<ReadingColumn> unit_named(Reading reading, std::string_view unit);

/// The reading of a name such as "rain", "tmax" or "rh_mean".
std::optional<Reading> parse_reading(std::string_view name);

/// Lays the user's units over those of the headers. @throws Error{usage} for a field or unit that
/// is not known
void apply_units(const std::map<std::string, std::string>& units, WeatherColumns& columns);

}  // namespace wildling::intake
