#include <algorithm>
#include <array>
#include <cmath>

#include "base/exact_math.hpp"
#include "climate/generator.hpp"

namespace wildling::climate {
namespace {

constexpr int kHarmonics = 2;
constexpr std::size_t kTerms = 1 + 2 * kHarmonics;

constexpr std::size_t kDays = 366;

/// Days and their sum of one quantity by day of the year: least squares on waves needs no more.
struct DaySums {
  std::array<double, kDays> n{}, sum{};

  void add(int day_of_year, double value) {
    n[static_cast<std::size_t>(day_of_year - 1)] += 1;
    sum[static_cast<std::size_t>(day_of_year - 1)] += value;
  }
};

// Least squares on the harmonics of the day, with a small ridge off the constant.
std::vector<double> harmonic_fit(const DaySums& days) {
  std::array<double, kTerms * kTerms> a{};
  std::vector<double> b(kTerms, 0.0);
  for (std::size_t d = 0; d < kDays; ++d) {
    if (days.n[d] <= 0) continue;
    const double* terms = detail::year_terms(static_cast<int>(d) + 1);
    for (std::size_t r = 0; r < kTerms; ++r) {
      b[r] += terms[r] * days.sum[d];
      for (std::size_t c = 0; c <= r; ++c) a[r * kTerms + c] += days.n[d] * terms[r] * terms[c];
    }
  }
  for (std::size_t r = 0; r < kTerms; ++r) a[r * kTerms + r] += r == 0 ? 1e-9 : 1.0;
  if (!detail::solve_in_place(a.data(), b.data(), kTerms)) return std::vector<double>(kTerms, 0.0);
  return b;
}

// The harmonics' value on every day of the year.
std::array<double, kDays> whole_year(const std::vector<double>& coefficients) {
  std::array<double, kDays> values{};
  for (std::size_t d = 0; d < kDays; ++d) {
    const double* terms = detail::year_terms(static_cast<int>(d) + 1);
    for (std::size_t i = 0; i < kTerms; ++i) values[d] += coefficients[i] * terms[i];
  }
  return values;
}

// Gamma with log link: Newton's steps are least squares of y/mu - 1; shape from the mean of
// ln(mu/y) (Thom 1958).
void fit_amounts(WeatherModel& model, const DailyWeather& daily, const std::vector<int>& days) {
  DaySums rain;
  double logs = 0, total = 0, n = 0;
  for (std::size_t i = 0; i < daily.days(); ++i) {
    if (!(daily.rain_mm[i] >= model.wet_day_mm)) continue;
    const double amount = daily.rain_mm[i] - model.wet_day_mm + 0.05;
    rain.add(days[i], amount);
    logs += exact_log(amount);
    total += amount;
    n += 1;
  }
  model.log_mean_amount.assign(kTerms, 0.0);
  model.log_mean_amount[0] = exact_log(total / n);
  for (int step = 0; step < 25; ++step) {
    const auto log_mean = whole_year(model.log_mean_amount);
    DaySums working;
    working.n = rain.n;
    for (std::size_t d = 0; d < kDays; ++d)
      working.sum[d] = rain.sum[d] / exact_exp(log_mean[d]) - rain.n[d];
    const auto move = harmonic_fit(working);
    double largest = 0;
    for (std::size_t k = 0; k < kTerms; ++k) {
      model.log_mean_amount[k] += std::clamp(move[k], -0.5, 0.5);
      largest = std::max(largest, std::abs(move[k]));
    }
    if (largest < 1e-12) break;
  }
  const auto log_mean = whole_year(model.log_mean_amount);
  double means = 0;
  for (std::size_t d = 0; d < kDays; ++d) means += rain.n[d] * log_mean[d];
  const double d = std::max(1e-6, (means - logs) / n);
  model.log_ratio = d;
  model.amount_shape = (1 + std::sqrt(1 + 4 * d / 3)) / (4 * d);
}

const std::vector<double>& column(const DailyWeather& daily, int which) {
  return which == 0 ? daily.tmax_c : (which == 1 ? daily.tmin_c : daily.rh_mean_pct);
}

// Means and spreads by wet and dry; returns the standardised residuals, NaN where unknown.
std::vector<double> fit_column(WeatherModel& model, const DailyWeather& daily,
                               const std::vector<char>& wet, const std::vector<int>& day_of_year,
                               int which) {
  const auto& values = column(daily, which);
  SeasonalMean mean;
  std::vector<double> residuals(daily.days(), std::nan(""));
  std::array<DaySums, 2> sums;
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (wet[i] >= 0 && !std::isnan(values[i]))
      sums[static_cast<std::size_t>(wet[i])].add(day_of_year[i], values[i]);
  }
  std::array<std::array<double, kDays>, 2> expected{};
  std::array<double, 2> square{}, n{};
  for (std::size_t state = 0; state < 2; ++state) {
    mean.mean[state] = harmonic_fit(sums[state]);
    expected[state] = whole_year(mean.mean[state]);
  }
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (wet[i] < 0 || std::isnan(values[i])) continue;
    const auto state = static_cast<std::size_t>(wet[i]);
    residuals[i] = values[i] - expected[state][static_cast<std::size_t>(day_of_year[i] - 1)];
    square[state] += residuals[i] * residuals[i];
    n[state] += 1;
  }
  for (std::size_t state = 0; state < 2; ++state)
    mean.sd[state] = std::max(1e-6, std::sqrt(square[state] / std::max(1.0, n[state])));
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (wet[i] >= 0) residuals[i] /= mean.sd[static_cast<std::size_t>(wet[i])];
  }
  model.means.push_back(std::move(mean));
  return residuals;
}

double product_mean(const std::vector<double>& x, const std::vector<double>& y, std::size_t lag) {
  double sum = 0, n = 0;
  for (std::size_t i = lag; i < x.size(); ++i) {
    const double v = x[i] * y[i - lag];
    if (!std::isnan(v)) sum += v, n += 1;
  }
  return n > 0 ? sum / n : 0;
}

// A = M1 M0^-1, B B' = M0 - A M1' (Richardson 1981); a small diagonal keeps B real.
void fit_residuals(WeatherModel& model, const std::vector<std::vector<double>>& r) {
  const std::size_t n = r.size();
  std::vector<double> m0(n * n), m1(n * n);
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = 0; j < n; ++j) {
      m0[i * n + j] = product_mean(r[i], r[j], 0) + (i == j ? 1e-6 : 0);
      m1[i * n + j] = product_mean(r[i], r[j], 1);
    }
  }
  model.a.assign(n * n, 0.0);
  model.b.assign(n * n, 0.0);
  for (std::size_t i = 0; i < n; ++i) {
    std::vector<double> row;
    const auto first = m1.begin() + static_cast<std::ptrdiff_t>(i * n);
    if (!detail::solve_symmetric(m0, {first, first + static_cast<std::ptrdiff_t>(n)}, row))
      continue;
    std::copy(row.begin(), row.end(), model.a.begin() + static_cast<std::ptrdiff_t>(i * n));
  }
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = 0; j <= i; ++j) {
      double sum = m0[i * n + j];
      for (std::size_t k = 0; k < n; ++k) sum -= model.a[i * n + k] * m1[j * n + k];
      for (std::size_t k = 0; k < j; ++k) sum -= model.b[i * n + k] * model.b[j * n + k];
      model.b[i * n + j] = i == j ? std::sqrt(std::max(1e-6, sum)) : sum / model.b[j * n + j];
    }
  }
}

bool enough(const std::vector<double>& values, double least) {
  return static_cast<double>(std::count_if(values.begin(), values.end(),
                                           [](double v) { return !std::isnan(v); })) >= least;
}

}  // namespace

ModelFit fit_weather(const DailyWeather& daily, const Parameters& parameters) {
  const ChainChoice choice = choose_chain(daily, parameters);
  if (choice.refused) return {{}, choice.refused};
  WeatherModel model;
  model.chain = choice.best;
  model.wet_day_mm = parameters.value("climate.rain.wet_day_mm");
  const auto wet = detail::wet_days(daily, model.wet_day_mm);
  if (std::count(wet.begin(), wet.end(), char{1}) < 30) return {{}, say("climate.chain_no_rain")};
  const std::vector<int> days = detail::days_of_year(daily);
  fit_amounts(model, daily, days);
  std::vector<std::vector<double>> residuals;
  for (int which = 0; which < 3; ++which) {
    if (!enough(column(daily, which), parameters.value("climate.chain.days_least"))) continue;
    model.columns.push_back(which);
    residuals.push_back(fit_column(model, daily, wet, days, which));
  }
  fit_residuals(model, residuals);
  return {model, {}};
}

}  // namespace wildling::climate
