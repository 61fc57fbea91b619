#pragma once
#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/date.hpp"
#include "base/error.hpp"
#include "climate/weather.hpp"

namespace wildling::intake {

/// What the user says about a weather log that does not say it itself.
struct WeatherOptions {
  /// Our field -> header of the file. Fields: date (or year, month, day), rain, tmax, tmin, rh_max,
  /// rh_min, rh_mean, wind, sun, station, days (number of days a catch covers), remark.
  std::map<std::string, std::string> columns = {};
  std::vector<double> missing_codes = {};      ///< besides -9999, -999, 8888 and 9999
  std::optional<double> trace_code = {};       ///< besides T, tr, trace
  std::optional<char> decimal = {};            ///< ',' or '.'
  std::optional<std::string> date_order = {};  ///< "dmy", "mdy", "ymd"
  std::optional<Date> today = {};              ///< later days are set aside
  bool read_next_morning = false;              ///< rain belongs to the day before its row
  std::optional<std::string> station = {};     ///< which one, when the file holds several
  /// Reading -> unit, over what the file says: "rain" -> "inch" (unit_named in
  /// weather_columns.hpp).
  std::map<std::string, std::string> units = {};
  std::optional<int> year = {};  ///< of a month matrix that does not name its year
};

struct WeatherFile {
  climate::DailyWeather daily = {};  ///< every day from the first to the last row; NaN = missing
  Findings findings = {};
  std::size_t rows_read = 0;  ///< behind the header
  std::size_t kept = 0;       ///< rows of which something is used, or that say nothing was measured
  std::size_t set_aside = 0;  ///< the others; kept + set_aside = rows_read
  std::size_t trace_days = 0;
  std::string sha256 = {};
  std::size_t bytes = 0;
  std::map<std::string, std::string> columns_used = {};  ///< our field -> header
  std::string station = {};                              ///< as the file names it; may be empty
  std::vector<std::string> places = {};        ///< one per day: where it stands; empty: nowhere
  std::vector<std::string> total_places = {};  ///< one per total of `daily`
};

/// Reads the log of a rain gauge or weather station: CSV in any usual encoding with comma,
/// semicolon, tab or bar, or an XLSX workbook. A row per day (of a workbook the first fitting
/// sheet), or month matrices as in paper books (months across and days down, or the other way
/// round; one or many years, on all sheets; see weather_matrix.hpp).
///
/// Rain in mm, temperature in C, humidity in %, wind in m/s at 2 m as given, sunshine in h.
/// An empty cell is missing, never 0. The order of dates and the decimal sign come from evidence in
/// the whole column or from the options, never from a guess. Equal twins of a row are dropped;
/// readings of one day that differ are set aside, neither averaged nor summed. A trace of rain is
/// 0 mm. Catches of several days ("3 days: 41", "41 (3 hari)", a bracket or joined cells over days,
/// a remark that says accumulated, a column of days) are kept as totals. Bounds of what is
/// believed: parameters intake.weather.*.
/// @throws Error{input} when the file is empty, no table, has no column of dates or readings,
///         several stations, an order of dates, a decimal sign or the year of a matrix that cannot
///         be told, or no day
/// @throws Error{usage} for an option that is senseless
WeatherFile read_weather(const std::string& path, const WeatherOptions& options = {});

/// The same from bytes; `name` serves the findings.
WeatherFile read_weather_bytes(std::string_view bytes, const std::string& name,
                               const WeatherOptions& options = {});

}  // namespace wildling::intake
