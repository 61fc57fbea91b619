#include "climate/normals.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "climate/et0_series.hpp"

namespace wildling::climate {
namespace {

constexpr double kMissing = std::numeric_limits<double>::quiet_NaN();

double mean(const std::vector<double>& values) {
  if (values.empty()) return kMissing;
  double sum = 0;
  for (const double v : values) sum += v;
  return sum / static_cast<double>(values.size());
}

double median(std::vector<double> values) {
  if (values.empty()) return kMissing;
  std::sort(values.begin(), values.end());
  const std::size_t n = values.size();
  return n % 2 == 1 ? values[n / 2] : 0.5 * (values[n / 2 - 1] + values[n / 2]);
}

bool month_inside(const DailyWeather& daily, int year, unsigned month) {
  return daily.index(make_date(year, month, 1)) &&
         daily.index(make_date(year, month, days_in_month(year, month)));
}

MonthNormal normal_of(const DailyWeather& daily, unsigned month, const Parameters& parameters) {
  MonthNormal normal;
  normal.month = static_cast<int>(month);
  std::vector<double> rain, rain_days;
  for (int year = year_of(daily.first); year <= year_of(daily.last()); ++year) {
    if (!month_inside(daily, year, month)) continue;
    const MonthRain one =
        month_rain(daily, year, month, parameters.value("climate.rain.wet_day_mm"));
    if (one.days_missing > parameters.value("climate.month.missing_days_most")) {
      ++normal.years_left_out;
      continue;
    }
    rain.push_back(one.rain_mm);
    rain_days.push_back(one.rain_days);
    if (one.rain_mm < parameters.value("climate.month.dry_mm")) ++normal.years_dry;
  }
  normal.years = static_cast<int>(rain.size());
  normal.rain_mean_mm = mean(rain);
  normal.rain_median_mm = median(rain);
  normal.rain_least_mm = rain.empty() ? kMissing : *std::min_element(rain.begin(), rain.end());
  normal.rain_most_mm = rain.empty() ? kMissing : *std::max_element(rain.begin(), rain.end());
  normal.rain_days_mean = mean(rain_days);
  return normal;
}

void add_et0(std::array<MonthNormal, 12>& normals, const WeatherBook& book,
             const Parameters& parameters) {
  std::array<double, 12> sum{}, count{};
  const Et0Series series = et0_series(book, parameters, {});
  if (!series.assumed) {
    const std::vector<char> months = detail::months_of(book.daily);
    for (std::size_t i = 0; i < series.high_mm.size(); ++i) {
      sum[static_cast<std::size_t>(months[i] - 1)] += series.high_mm[i];
      count[static_cast<std::size_t>(months[i] - 1)] += 1;
    }
  }
  for (std::size_t m = 0; m < 12; ++m) {
    normals[m].et0_mean_mm_d = count[m] > 0 ? sum[m] / count[m] : kMissing;
  }
}

}  // namespace

MonthRain month_rain(const DailyWeather& daily, int year, unsigned month, double wet_day_mm) {
  MonthRain result;
  const Date begin = make_date(year, month, 1);
  const int days = static_cast<int>(days_in_month(year, month));
  std::array<bool, 31> covered{};
  for (const RainTotal& total : daily.totals) {
    if (total.first < begin || total.last >= begin + std::chrono::days(days)) continue;
    result.rain_mm += total.total_mm;
    for (Date d = total.first; d <= total.last; d += std::chrono::days(1))
      covered[static_cast<std::size_t>((d - begin).count())] = true;
  }
  const auto offset = (begin - daily.first).count();
  const auto n = static_cast<std::int64_t>(daily.days());
  for (int d = 0; d < days; ++d) {
    const std::int64_t i = offset + d;
    const double rain = i >= 0 && i < n ? daily.rain_mm[static_cast<std::size_t>(i)] : kMissing;
    if (std::isnan(rain)) {
      ++(covered[static_cast<std::size_t>(d)] ? result.days_measured : result.days_missing);
      continue;
    }
    ++result.days_measured;
    result.rain_mm += rain;
    if (rain >= wet_day_mm) ++result.rain_days;
  }
  return result;
}

std::array<MonthNormal, 12> rain_normals(const DailyWeather& daily, const Parameters& parameters) {
  std::array<MonthNormal, 12> normals;
  for (unsigned m = 1; m <= 12; ++m) {
    normals[m - 1] = normal_of(daily, m, parameters);
    normals[m - 1].et0_mean_mm_d = kMissing;
  }
  return normals;
}

std::array<MonthNormal, 12> month_normals(const WeatherBook& book, const Parameters& parameters) {
  check(book);
  std::array<MonthNormal, 12> normals = rain_normals(book.daily, parameters);
  add_et0(normals, book, parameters);
  return normals;
}

double sure_rain_mm(const DailyWeather& daily, std::size_t i) {
  if (!std::isnan(daily.rain_mm[i])) return daily.rain_mm[i];
  for (const RainTotal& total : daily.totals) {
    if (total.first == daily.day(i))
      return total.total_mm / static_cast<double>((total.last - total.first).count() + 1);
  }
  return 0;
}

SinceRain days_since_rain(const DailyWeather& daily, Date day, double useful_mm) {
  SinceRain result;
  const auto at = daily.index(day);
  if (!at) return result;
  for (std::size_t back = 0; back <= *at; ++back) {
    if (std::isnan(daily.rain_mm[*at - back])) result.gap_met = true;
    if (sure_rain_mm(daily, *at - back) >= useful_mm) {
      result.days = static_cast<int>(back);
      return result;
    }
  }
  return result;
}

std::vector<Spell> dry_spells(const DailyWeather& daily, double wet_day_mm, int least_days) {
  std::vector<Spell> spells;
  const std::size_t n = daily.days();
  std::size_t begin = 0;
  while (begin < n) {
    std::size_t end = begin;
    while (end < n && daily.rain_mm[end] < wet_day_mm) ++end;
    const int days = static_cast<int>(end - begin);
    if (days >= least_days && days > 0) {
      const bool cut = begin == 0 || end == n || std::isnan(daily.rain_mm[begin - 1]) ||
                       std::isnan(daily.rain_mm[end]);
      spells.push_back({daily.day(begin), daily.day(end - 1), days, cut});
    }
    begin = end + 1;
  }
  return spells;
}

std::vector<int> dry_season_months(const std::array<MonthNormal, 12>& normals, double dry_mm) {
  std::array<bool, 12> dry{};
  for (std::size_t m = 0; m < 12; ++m) dry[m] = normals[m].rain_mean_mm < dry_mm;
  std::size_t best_first = 0, best_length = 0;
  for (std::size_t first = 0; first < 12; ++first) {
    std::size_t length = 0;
    while (length < 12 && dry[(first + length) % 12]) ++length;
    if (length > best_length) {
      best_first = first;
      best_length = length;
    }
  }
  std::vector<int> months;
  for (std::size_t i = 0; i < best_length; ++i) {
    months.push_back(static_cast<int>((best_first + i) % 12) + 1);
  }
  return months;
}

}  // namespace wildling::climate
