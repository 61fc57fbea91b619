#pragma once
/// Values for days that nobody measured, for calculations that cannot go on without them. The log
/// itself is never changed; what was filled is marked and its share is always told.
#include <optional>
#include <string_view>
#include <vector>

#include "base/message.hpp"
#include "base/parameters.hpp"
#include "climate/quality.hpp"
#include "climate/weather.hpp"

namespace wildling::climate {

/// How one day was filled.
enum class FillMethod : unsigned char {
  none,         ///< measured, or still missing
  between,      ///< temperature, humidity: straight between the readings on both sides
  neighbour,    ///< rain: normal ratio, Paulhus & Kohler (1952), Mon. Weather Rev. 80:129-133;
                ///< others: the neighbour's reading plus the mean difference of the calendar month
  total_shared  ///< rain of a catch of several days in the neighbour's proportions
};

struct FilledColumn {
  Column column = Column::rain;
  std::vector<double> values = {};                          ///< NaN = could not be filled
  std::vector<FillMethod> method = {};                      ///< one per day
  std::size_t days = 0, filled_days = 0, missing_days = 0;  ///< missing: still so
  double share = 0;                                         ///< filled of all days
  Message first_line = {};
};

struct FilledLog {
  std::vector<FilledColumn> columns = {};  ///< those of the log that were read, rain first
};

/// Rain is filled only from a neighbour (never between two days), and only where both stations have
/// climate.fill.common_days_least common days in that calendar month; a catch of several days that
/// cannot be shared out stays missing here. Other columns: gaps of at most
/// climate.fill.between_days_most days between readings, then the neighbour.
/// @param neighbour  another station's log; empty: none
FilledLog fill_gaps(const DailyWeather& daily, const DailyWeather* neighbour,
                    const Parameters& parameters);

}  // namespace wildling::climate
