// Checks of a value against the station's own other years.
#include <algorithm>
#include <cmath>

#include "climate/quality.hpp"

namespace wildling::climate::detail {
namespace {

struct Pair {
  int compared = 0, equal = 0;
};

// Days of two years that are measured and passed in both (rain: at least one of the two wet).
Pair compare_years(const DailyWeather& daily, Column column, const Passed& passed, int a, int b) {
  const std::vector<double>& v = column_of(daily, column);
  Pair pair;
  for (unsigned m = 1; m <= 12; ++m) {
    for (unsigned d = 1; d <= (m == 2 ? 28U : days_in_month(a, m)); ++d) {
      const auto i = daily.index(make_date(a, m, d)), j = daily.index(make_date(b, m, d));
      if (!i || !j || passed[*i] == 0 || passed[*j] == 0) continue;
      if (std::isnan(v[*i]) || std::isnan(v[*j])) continue;
      if (column == Column::rain && v[*i] == 0 && v[*j] == 0) continue;
      ++pair.compared;
      if (v[*i] == v[*j]) ++pair.equal;
    }
  }
  return pair;
}

double percentile(std::vector<double>& values, double share) {
  const auto k = static_cast<std::size_t>(share * static_cast<double>(values.size() - 1));
  std::nth_element(values.begin(), values.begin() + static_cast<std::ptrdiff_t>(k), values.end());
  return values[k];
}

// Values within `half` days of day-of-year `j` (1 to 366), any year.
std::vector<double> of_season(const std::vector<std::vector<double>>& by_day, int j, int half) {
  std::vector<double> values;
  for (int k = -half; k <= half; ++k) {
    const auto& day = by_day[static_cast<std::size_t>((j - 1 + k + 366) % 366)];
    values.insert(values.end(), day.begin(), day.end());
  }
  return values;
}

std::vector<std::vector<double>> by_day_of_year(const DailyWeather& daily, Column column,
                                                const Passed& passed) {
  std::vector<std::vector<double>> by_day(366);
  const std::vector<double>& v = column_of(daily, column);
  for (std::size_t i = 0; i < v.size(); ++i) {
    if (passed[i] == 0 || std::isnan(v[i]) || (column == Column::rain && v[i] == 0)) continue;
    by_day[static_cast<std::size_t>(day_of_year(daily.day(i)) - 1)].push_back(v[i]);
  }
  return by_day;
}

struct Limits {
  double low, high;
};

// Rain: 9 times the 95th percentile of wet days; temperature: 6 standard deviations from the mean.
Limits season_limits(std::vector<double> values, Column column, const Parameters& p) {
  constexpr double kNone = 1e300;
  if (static_cast<double>(values.size()) < p.value("climate.quality.outlier_values_least"))
    return {-kNone, kNone};
  if (column == Column::rain) {
    return {-kNone, p.value("climate.quality.rain_outlier_factor") * percentile(values, 0.95)};
  }
  double mean = 0, square = 0;
  for (const double v : values) mean += v;
  mean /= static_cast<double>(values.size());
  for (const double v : values) square += (v - mean) * (v - mean);
  const double sd = std::sqrt(square / static_cast<double>(values.size() - 1));
  const double reach = p.value("climate.quality.temperature_outlier_sd") * sd;
  return sd > 0 ? Limits{mean - reach, mean + reach} : Limits{-kNone, kNone};
}

}  // namespace

void flag_same_years(const DailyWeather& daily, Column column, const Parameters& parameters,
                     Passed& passed, std::vector<Flag>& flags) {
  const double share = parameters.value("climate.quality.same_year_share");
  const double least = parameters.value("climate.quality.same_year_days_least");
  const int first = year_of(daily.first), last = year_of(daily.last());
  for (int b = first + 1; b <= last; ++b) {
    for (int a = first; a < b; ++a) {
      const Pair pair = compare_years(daily, column, passed, a, b);
      if (pair.compared < least || pair.equal < share * pair.compared) continue;
      const auto begin = daily.index(make_date(b, 1, 1)).value_or(0);
      const auto end = daily.index(make_date(b, 12, 31)).value_or(daily.days() - 1);
      Flag flag = run_flag(daily, Check::same_year, column, begin, end);
      flag.message.arguments.insert({{"year", std::int64_t{b}},
                                     {"other", std::int64_t{a}},
                                     {"days", std::int64_t{pair.equal}}});
      flags.push_back(std::move(flag));
      for (std::size_t i = begin; i <= end; ++i) passed[i] = 0;
      break;
    }
  }
}

void flag_gaps(const DailyWeather& daily, Column column, const Parameters& parameters,
               Passed& passed, std::vector<Flag>& flags) {
  const std::vector<double>& v = column_of(daily, column);
  const double limit = parameters.value(
      column == Column::rain ? "climate.quality.rain_gap_mm" : "climate.quality.temperature_gap_c");
  std::array<std::vector<std::size_t>, 12> months;
  for (std::size_t i = 0; i < v.size(); ++i) {
    if (passed[i] != 0 && !std::isnan(v[i])) months[month_of(daily.day(i)) - 1].push_back(i);
  }
  std::vector<std::size_t> bad;
  for (auto& month : months) {
    if (month.size() < 3) continue;
    std::sort(month.begin(), month.end(),
              [&](std::size_t a, std::size_t b) { return v[a] < v[b]; });
    const std::size_t middle = month.size() / 2;
    std::size_t top = middle, bottom = middle;
    while (top + 1 < month.size() && v[month[top + 1]] - v[month[top]] < limit) ++top;
    while (bottom > 0 && v[month[bottom]] - v[month[bottom - 1]] < limit) --bottom;
    for (std::size_t k = top + 1; k < month.size(); ++k) bad.push_back(month[k]);
    for (std::size_t k = 0; k < bottom; ++k) bad.push_back(month[k]);
  }
  std::sort(bad.begin(), bad.end());
  for (const std::size_t i : bad) {
    flags.push_back(day_flag(daily, Check::gap, column, i));
    passed[i] = 0;
  }
}

void flag_outliers(const DailyWeather& daily, Column column, const Parameters& parameters,
                   Passed& passed, std::vector<Flag>& flags) {
  const std::vector<double>& v = column_of(daily, column);
  const auto by_day = by_day_of_year(daily, column, passed);
  const int half = column == Column::rain ? 14 : 7;
  std::vector<Limits> limits;
  for (int j = 1; j <= 366; ++j)
    limits.push_back(season_limits(of_season(by_day, j, half), column, parameters));
  for (std::size_t i = 0; i < v.size(); ++i) {
    const Limits& l = limits[static_cast<std::size_t>(day_of_year(daily.day(i)) - 1)];
    if (passed[i] == 0 || !(v[i] < l.low || v[i] > l.high)) continue;
    flags.push_back(day_flag(daily, Check::outlier, column, i));
    passed[i] = 0;
  }
}

}  // namespace wildling::climate::detail
