#pragma once
#include <array>
#include <cmath>
#include <limits>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/date.hpp"
#include "base/parameters.hpp"
#include "intake/alike.hpp"
#include "intake/table_file.hpp"
#include "intake/weather_columns.hpp"
#include "intake/weather_log.hpp"

namespace wildling::intake {

/// One row of a log with a date.
struct WeatherRow {
  std::size_t line = 0;
  std::array<double, kReadings> value = {};  ///< NaN = missing or set aside
  bool trace = false;
  bool used = true;          ///< something of it is used, or it says nothing was measured
  int days = 1;              ///< the days its rain covers
  bool bracket = false;      ///< joined to its neighbours by a bracket
  bool accumulated = false;  ///< covers the days since the last reading
};

/// The shipped parameters, read once.
const Parameters& shipped_parameters();

using RowsByDay = std::map<Date, std::vector<WeatherRow>>;

/// What one pass over a table needs.
struct WeatherPass {
  const TableFile& table;
  const WeatherColumns& columns;
  const WeatherOptions& options;
  const std::string& name;
  AlikeFindings& findings;

  /// "rain.csv:12, column rain"
  [[nodiscard]] std::string where(std::size_t line, std::optional<std::size_t> column = {}) const;
  /// The line of the file; of a book page, that of the cell.
  [[nodiscard]] std::int64_t line_of(std::size_t line) const;
};

/// The day of each row; empty: no date (told), or a repeated heading.
/// @throws Error{input} when the order of dates cannot be told
std::vector<std::optional<Date>> days_of_rows(const WeatherPass& pass);

/// Values of the rows that have a day. @throws Error{input} when the decimal sign cannot be told
RowsByDay readings_of_rows(const WeatherPass& pass, const std::vector<std::optional<Date>>& days);

/// The rows as days in file.daily, one row per day: twins dropped, conflicts set aside, catches of
/// several days as totals. Counts kept and set aside.
void fill_days(const WeatherPass& pass, RowsByDay& rows, WeatherFile& file);

/// One day and what its row says.
struct DayRow {
  Date day = {};
  WeatherRow row = {};
  bool refused = false;  ///< its rain could not be used
};

/// Brackets and accumulations become days of one row; what cannot be told is set aside. The rain
/// of days that belong to a later catch becomes missing. @param rows  in the order of days
void join_catches(const WeatherPass& pass, std::vector<DayRow>& rows);

}  // namespace wildling::intake
