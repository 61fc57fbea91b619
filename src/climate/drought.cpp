#include "climate/drought.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>

#include "base/error.hpp"
#include "base/exact_math.hpp"
#include "base/exact_trig.hpp"
#include "climate/et0_series.hpp"
#include "climate/normals.hpp"
#include "climate/radiation.hpp"
#include "stat/normal.hpp"

namespace wildling::climate {
namespace {

constexpr double kMissing = std::numeric_limits<double>::quiet_NaN();
constexpr std::array<int, 12> kDays = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
constexpr std::array<int, 12> kMiddle = {15, 46, 74, 105, 135, 166, 196, 227, 258, 288, 319, 349};

std::vector<std::size_t> of_month(std::span<const double> sums, unsigned first_month,
                                  unsigned month) {
  std::vector<std::size_t> places;
  for (std::size_t i = (month + 12 - first_month) % 12; i < sums.size(); i += 12) {
    if (!std::isnan(sums[i])) places.push_back(i);
  }
  return places;
}

void fit_spi(std::span<const double> sums, const std::vector<std::size_t>& places, ZeroRule rule,
             std::vector<double>& result) {
  std::vector<double> wet;
  for (const std::size_t i : places) {
    if (sums[i] > 0) wet.push_back(sums[i]);
  }
  if (wet.size() < 4) return;
  const stat::GammaFit fit = stat::fit_gamma(stat::l_moments(wet));
  if (fit.shape <= 0) return;
  const auto n = static_cast<double>(places.size());
  const double m = n - static_cast<double>(wet.size());
  for (const std::size_t i : places)
    result[i] = index_of_probability(rain_probability(sums[i], fit, n, m, rule));
}

}  // namespace

double index_of_probability(double probability) {
  return stat::normal_quantile(std::clamp(probability, 1e-9, 1 - 1e-9));
}

double rain_probability(double sum_mm, const stat::GammaFit& fit, double n, double m,
                        ZeroRule rule) {
  const bool centre = rule == ZeroRule::centre_of_mass;
  const double q = centre ? m / (n + 1) : m / n;
  if (sum_mm > 0) return q + (1 - q) * fit.cdf(sum_mm);
  return centre ? (m + 1) / (2 * (n + 1)) : q;
}

std::optional<std::size_t> newest_month(std::span<const double> index) {
  for (std::size_t i = index.size(); i-- > 0;) {
    if (!std::isnan(index[i])) return i;
  }
  return {};
}

Date month_start(const MonthSeries& months, std::size_t i) {
  return add_months(make_date(months.first_year, months.first_month, 1), static_cast<int>(i));
}

std::vector<double> rolling_sums(std::span<const double> monthly, int scale) {
  if (scale < 1 || scale > 24) {
    throw Error(ErrorKind::usage, "",
                say("climate.scale_impossible", {{"scale", std::int64_t{scale}}}));
  }
  const auto k = static_cast<std::size_t>(scale);
  std::vector<double> sums(monthly.size(), kMissing);
  for (std::size_t i = k - 1; i < monthly.size(); ++i) {
    double sum = 0;
    for (std::size_t j = i + 1 - k; j <= i; ++j) sum += monthly[j];
    sums[i] = sum;
  }
  return sums;
}

std::vector<double> spi(std::span<const double> monthly, unsigned first_month, int scale,
                        ZeroRule rule) {
  const std::vector<double> sums = rolling_sums(monthly, scale);
  std::vector<double> result(sums.size(), kMissing);
  for (unsigned m = 1; m <= 12; ++m) fit_spi(sums, of_month(sums, first_month, m), rule, result);
  return result;
}

std::vector<double> spei(std::span<const double> balance, unsigned first_month, int scale) {
  const std::vector<double> sums = rolling_sums(balance, scale);
  std::vector<double> result(sums.size(), kMissing);
  for (unsigned m = 1; m <= 12; ++m) {
    const std::vector<std::size_t> places = of_month(sums, first_month, m);
    std::vector<double> values;
    for (const std::size_t i : places) values.push_back(sums[i]);
    const stat::LMoments moments = stat::l_moments(values);
    if (values.size() < 4 || !(moments.l2 > 0)) continue;
    const stat::LogisticFit fit = stat::fit_logistic(moments);
    for (const std::size_t i : places) result[i] = index_of_probability(fit.cdf(sums[i]));
  }
  return result;
}

std::string_view spi_class_key(double index) {
  if (index >= 2) return "climate.spi_extremely_wet";
  if (index >= 1.5) return "climate.spi_severely_wet";
  if (index >= 1) return "climate.spi_moderately_wet";
  if (index > -1) return "climate.spi_near_normal";
  if (index > -1.5) return "climate.spi_moderately_dry";
  return index > -2 ? "climate.spi_severely_dry" : "climate.spi_extremely_dry";
}

std::vector<double> thornthwaite_mm(std::span<const double> mean_c, unsigned first_month,
                                    double latitude_deg) {
  double heat = 0;
  for (unsigned m = 1; m <= 12; ++m) {
    double sum = 0;
    const auto places = of_month(mean_c, first_month, m);
    for (const std::size_t i : places) sum += mean_c[i];
    const double mean = places.empty() ? 0 : sum / static_cast<double>(places.size());
    if (mean > 0) heat += exact_pow(mean / 5, 1.514);
  }
  const double a = 6.75e-7 * heat * heat * heat - 7.71e-5 * heat * heat + 1.792e-2 * heat + 0.49239;
  std::vector<double> result;
  for (std::size_t i = 0; i < mean_c.size(); ++i) {
    const std::size_t m = (first_month - 1 + i) % 12;
    const double delta = 0.4093 * exact_sin(2 * std::numbers::pi * kMiddle[m] / 365 - 1.405);
    const double ws =
        exact_acos(std::clamp(-exact_tan(radians(latitude_deg)) * exact_tan(delta), -1.0, 1.0));
    const double length = 24 / std::numbers::pi * ws / 12 * kDays[m] / 30;
    const double power = mean_c[i] > 0 ? exact_pow(10 * mean_c[i] / heat, a) : 0 * mean_c[i];
    result.push_back(16 * length * power);
  }
  return result;
}

double hargreaves_month_mm(double tmax_c, double tmin_c, unsigned month, double latitude_deg) {
  const int j = kMiddle[month - 1];
  const double phi = radians(latitude_deg), delta = 0.409 * exact_sin(0.0172 * j - 1.39);
  const double ws = exact_acos(std::clamp(-exact_tan(phi) * exact_tan(delta), -1.0, 1.0));
  const double ra =
      37.6 * (1 + 0.033 * exact_cos(0.0172 * j)) *
      (ws * exact_sin(phi) * exact_sin(delta) + exact_cos(phi) * exact_cos(delta) * exact_sin(ws));
  return 0.0023 * 0.408 * ra * ((tmax_c + tmin_c) / 2 + 17.8) * std::sqrt(tmax_c - tmin_c) *
         kDays[month - 1];
}

std::vector<double> monthly_rain_mm(const DailyWeather& daily, const Parameters& p) {
  const double wet = p.value("climate.rain.wet_day_mm");
  const double most = p.value("climate.month.missing_days_most");
  std::vector<double> months;
  Date begin = make_date(year_of(daily.first), month_of(daily.first), 1);
  for (; begin <= daily.last(); begin = add_months(begin, 1)) {
    const MonthRain rain = month_rain(daily, year_of(begin), month_of(begin), wet);
    months.push_back(rain.days_missing <= most ? rain.rain_mm : kMissing);
  }
  return months;
}

MonthSeries month_series(const WeatherBook& book, const Parameters& p) {
  const DailyWeather& daily = book.daily;
  const Et0Series et0 = et0_series(book, p, {});
  MonthSeries series{year_of(daily.first), month_of(daily.first), monthly_rain_mm(daily, p), {}};
  for (std::size_t m = 0; m < series.rain_mm.size(); ++m) {
    const Date begin = month_start(series, m);
    const auto first = daily.index(begin), next = daily.index(add_months(begin, 1));
    const std::size_t end = next.value_or(daily.days());
    const bool whole =
        first && (next || daily.last() == add_months(begin, 1) - std::chrono::days(1));
    double evaporation = whole && !et0.assumed ? 0 : kMissing;
    for (std::size_t d = first.value_or(end); d < end; ++d) evaporation += et0.high_mm[d];
    series.balance_mm.push_back(series.rain_mm[m] - evaporation);
  }
  return series;
}

namespace {

DroughtResult drought_of(MonthSeries months, int scale, const Parameters& p) {
  DroughtResult result;
  result.scale = scale;
  result.months = std::move(months);
  const auto known = std::count_if(result.months.rain_mm.begin(), result.months.rain_mm.end(),
                                   [](double v) { return !std::isnan(v); });
  result.years = static_cast<int>(known / 12);
  const double needed = p.value("climate.index.years_for_spi");
  if (result.years < needed) {
    result.refused =
        say("climate.spi_refused", {{"years", std::int64_t{result.years}}, {"needed", needed}});
    return result;
  }
  result.judged = true;
  result.spi =
      spi(result.months.rain_mm, result.months.first_month, scale, ZeroRule::centre_of_mass);
  const auto& balance = result.months.balance_mm;
  if (std::any_of(balance.begin(), balance.end(), [](double v) { return !std::isnan(v); })) {
    result.spei = spei(balance, result.months.first_month, scale);
  }
  return result;
}

}  // namespace

DroughtResult drought(const WeatherBook& book, int scale, const Parameters& p) {
  check(book);
  return drought_of(month_series(book, p), scale, p);
}

std::vector<DroughtResult> droughts(const WeatherBook& book, std::span<const int> scales,
                                    const Parameters& p) {
  check(book);
  const MonthSeries months = month_series(book, p);
  std::vector<DroughtResult> results;
  for (const int scale : scales) results.push_back(drought_of(months, scale, p));
  return results;
}

}  // namespace wildling::climate
