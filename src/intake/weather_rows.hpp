#pragma once
#include <array>
#include <cmath>
#include <limits>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/date.hpp"
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
  bool used = true;  ///< something of it is used, or it says nothing was measured
  int days = 1;      ///< the days its rain covers
};

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
};

/// The day of each row; empty: no date (told), or a repeated heading.
/// @throws Error{input} when the order of dates cannot be told
std::vector<std::optional<Date>> days_of_rows(const WeatherPass& pass);

/// Values of the rows that have a day. @throws Error{input} when the decimal sign cannot be told
RowsByDay readings_of_rows(const WeatherPass& pass, const std::vector<std::optional<Date>>& days);

}  // namespace wildling::intake
