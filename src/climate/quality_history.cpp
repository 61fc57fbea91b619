// Checks of a value against the station's own other years.
#include <algorithm>
#include <cmath>
#include <limits>
#include <span>

#include "climate/quality.hpp"

namespace wildling::climate::detail {
namespace {

constexpr std::size_t kYearDays = 365;  // 29 February is left out

struct Pair {
  int compared = 0, equal = 0;
};

// One row of 365 days per calendar year; NaN = not measured, flagged already or outside the log.
class YearRows {
 public:
  YearRows(const DailyWeather& daily, const std::vector<double>& values, const Passed& passed)
      : first_(year_of(daily.first)) {
    const auto years = static_cast<std::size_t>(year_of(daily.last()) - first_ + 1);
    cells_.assign(years * kYearDays, std::numeric_limits<double>::quiet_NaN());
    for (std::size_t y = 0; y < years; ++y) fill_year(daily, values, passed, y);
  }

  [[nodiscard]] std::span<const double> row(int year) const {
    return {cells_.data() + static_cast<std::size_t>(year - first_) * kYearDays, kYearDays};
  }

  void forget(int year) {
    const auto begin = cells_.begin() + (year - first_) * static_cast<std::ptrdiff_t>(kYearDays);
    std::fill(begin, begin + static_cast<std::ptrdiff_t>(kYearDays),
              std::numeric_limits<double>::quiet_NaN());
  }

 private:
  int first_;
  std::vector<double> cells_ = {};

  void fill_year(const DailyWeather& daily, const std::vector<double>& values, const Passed& passed,
                 std::size_t y) {
    const int year = first_ + static_cast<int>(y);
    const bool leap = days_in_month(year, 2) == 29;
    const auto start = (make_date(year, 1, 1) - daily.first).count();
    for (std::size_t d = 0; d < kYearDays; ++d) {
      const auto i = start + static_cast<std::ptrdiff_t>(d) + (leap && d >= 59 ? 1 : 0);
      if (i < 0 || i >= static_cast<std::ptrdiff_t>(values.size())) continue;
      const auto k = static_cast<std::size_t>(i);
      if (passed[k] != 0) cells_[y * kYearDays + d] = values[k];
    }
  }
};

// Days measured and passed in both years (rain: at least one of the two wet).
Pair compare_years(std::span<const double> a, std::span<const double> b, bool rain) {
  Pair pair;
  for (std::size_t d = 0; d < kYearDays; ++d) {
    if (std::isnan(a[d]) || std::isnan(b[d]) || (rain && a[d] == 0 && b[d] == 0)) continue;
    ++pair.compared;
    if (a[d] == b[d]) ++pair.equal;
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
  YearRows rows(daily, column_of(daily, column), passed);
  for (int b = first + 1; b <= last; ++b) {
    for (int a = first; a < b; ++a) {
      const Pair pair = compare_years(rows.row(a), rows.row(b), column == Column::rain);
      if (pair.compared < least || pair.equal < share * pair.compared) continue;
      const auto begin = daily.index(make_date(b, 1, 1)).value_or(0);
      const auto end = daily.index(make_date(b, 12, 31)).value_or(daily.days() - 1);
      Flag flag = run_flag(daily, Check::same_year, column, begin, end);
      flag.message.arguments.insert({{"year", std::int64_t{b}},
                                     {"other", std::int64_t{a}},
                                     {"days", std::int64_t{pair.equal}}});
      flags.push_back(std::move(flag));
      for (std::size_t i = begin; i <= end; ++i) passed[i] = 0;
      rows.forget(b);
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

void flag_dry_months(const DailyWeather& daily, const Parameters& parameters,
                     std::vector<Flag>& flags) {
  const double wet_mm = parameters.value("climate.rain.wet_day_mm");
  const auto years_least =
      static_cast<std::size_t>(parameters.value("climate.quality.dry_month_years_least"));
  const int wet_least = static_cast<int>(parameters.value("climate.quality.dry_month_wet_days"));
  for (unsigned month = 1; month <= 12; ++month) {
    std::vector<std::size_t> zero;  // first days of months without rain
    std::vector<int> wet_days;      // of the others
    for (int year = year_of(daily.first); year <= year_of(daily.last()); ++year) {
      const auto begin = daily.index(make_date(year, month, 1));
      const std::size_t days = days_in_month(year, month);
      if (!begin || *begin + days > daily.days()) continue;
      int wet = 0, missing = 0;
      double sum = 0;
      for (std::size_t i = *begin; i < *begin + days; ++i) {
        missing += std::isnan(daily.rain_mm[i]) ? 1 : 0;
        wet += daily.rain_mm[i] >= wet_mm ? 1 : 0;
        sum += std::isnan(daily.rain_mm[i]) ? 0 : daily.rain_mm[i];
      }
      if (missing > parameters.value("climate.month.missing_days_most")) continue;
      if (sum == 0) {
        zero.push_back(*begin);
      } else {
        wet_days.push_back(wet);
      }
    }
    if (wet_days.size() < years_least) continue;
    const int driest = *std::min_element(wet_days.begin(), wet_days.end());
    if (driest < wet_least) continue;
    for (const std::size_t begin : zero) {
      const auto last = begin + days_in_month(year_of(daily.day(begin)), month) - 1;
      Flag flag = run_flag(daily, Check::dry_month, Column::rain, begin, last);
      flag.message.arguments.insert(
          {{"wet", std::int64_t{driest}}, {"years", static_cast<std::int64_t>(wet_days.size())}});
      flags.push_back(std::move(flag));
    }
  }
}

}  // namespace wildling::climate::detail
