#pragma once
/// Real open logs for tests; sources in tests/reference/bci and tests/reference/seattle.
#include <limits>
#include <sstream>

#include "climate/weather.hpp"
#include "table.hpp"

namespace wildling::climate {

/// Barro Colorado Island, the years [from, to]; a day that stands twice has its first value.
inline DailyWeather barro_colorado(int from, int to) {
  DailyWeather daily;
  daily.first = make_date(from, 1, 1);
  const auto days = (make_date(to + 1, 1, 1) - daily.first).count();
  daily.rain_mm.assign(static_cast<std::size_t>(days), std::numeric_limits<double>::quiet_NaN());
  for (const CsvRow& row : reference_table("bci/months.csv").rows) {
    const int year = static_cast<int>(*parse_number(row.cells[0]));
    if (year < from || year > to) continue;
    const auto month = static_cast<unsigned>(*parse_number(row.cells[1]));
    auto day = static_cast<unsigned>(*parse_number(row.cells[4]));
    std::stringstream cells(row.cells[5]);
    for (std::string cell; std::getline(cells, cell, ';'); ++day) {
      const std::size_t colon = cell.find(':');
      if (colon != std::string::npos)
        day = static_cast<unsigned>(*parse_number(cell.substr(0, colon)));
      const double mm = *parse_number(colon == std::string::npos ? cell : cell.substr(colon + 1));
      double& place = daily.rain_mm[*daily.index(make_date(year, month, day))];
      if (place != place) place = mm;
    }
  }
  return daily;
}

inline DailyWeather seattle() {
  DailyWeather daily;
  daily.first = make_date(2012, 1, 1);
  for (const CsvRow& row : reference_table("seattle/daily.csv").rows) {
    daily.rain_mm.push_back(*parse_number(row.cells[1]));
    daily.tmax_c.push_back(*parse_number(row.cells[2]));
    daily.tmin_c.push_back(*parse_number(row.cells[3]));
  }
  return daily;
}

}  // namespace wildling::climate
