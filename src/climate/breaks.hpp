#pragma once
/// Does a station's log stand on two levels: a new gauge, a moved screen, another reader? A shift
/// of temperature or humidity, a scale break of the rain read on wet days (a new gauge multiplies),
/// a shift in the share of wet days (small rain no longer written). Nothing is corrected.
///
/// Months are taken as differences from the mean of their calendar month over all years; years as
/// the mean of their months. The years are tested by the standard normal homogeneity test
/// (Alexandersson 1986, limits of Khaliq & Ouarda 2007) and beside it by Pettitt (1979); the month
/// is the one within a year of the year's end that parts the months best. One break, the largest.
#include <string_view>
#include <vector>

#include "base/message.hpp"
#include "base/parameters.hpp"
#include "climate/quality.hpp"
#include "climate/weather.hpp"
#include "stat/homogeneity.hpp"
#include "stat/trend.hpp"

namespace wildling::climate {

enum class BreakKind {
  rain_amount,  ///< natural logarithm of the rain of a wet day; size = ratio after to before
  rain_days,    ///< share of wet days; size = difference
  level         ///< mean of a column; size = difference in its unit
};

enum class BreakVerdict {
  yes,         ///< beyond the 1 % limit, and Pettitt's p below climate.index.p
  no,          ///< neither test beyond 5 %
  cannot_tell  ///< too few years, or the tests do not agree
};

struct BreakResult {
  Column column = Column::rain;
  BreakKind kind = BreakKind::level;
  BreakVerdict verdict = BreakVerdict::cannot_tell;
  std::vector<int> years = {};
  std::vector<double> values = {};  ///< one per year
  stat::Homogeneity test = {};
  double limit_five_pct = 0, limit_one_pct = 0;
  stat::Pettitt pettitt = {};
  Date from = {};            ///< first day of the new level, the first of a month
  double size = 0;           ///< see BreakKind
  double low = 0, high = 0;  ///< 95 % by Student with pooled variance, as if the year were known
  Message first_line = {};
};

/// "rain_amount", "rain_days", or the column's name.
std::string_view break_name(const BreakResult& result);

/// For rain two results, for every other column that was read one.
std::vector<BreakResult> breaks(const DailyWeather& daily, const Parameters& parameters);

}  // namespace wildling::climate
