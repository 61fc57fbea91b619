#include <algorithm>
#include <cmath>

#include "base/exact_math.hpp"
#include "climate/generator.hpp"

namespace wildling::climate {
namespace {

constexpr int kHarmonics = 2;
constexpr std::size_t kTerms = 1 + 2 * kHarmonics;

// Least squares of y on the harmonics of its day, with a small ridge off the constant.
std::vector<double> harmonic_fit(const std::vector<int>& days, const std::vector<double>& y) {
  std::vector<double> a(kTerms * kTerms, 0.0), b(kTerms, 0.0), x(kTerms, 0.0);
  for (std::size_t i = 0; i < y.size(); ++i) {
    const auto terms = detail::harmonic_terms(days[i], kHarmonics);
    for (std::size_t r = 0; r < kTerms; ++r) {
      b[r] += terms[r] * y[i];
      for (std::size_t c = 0; c < kTerms; ++c) a[r * kTerms + c] += terms[r] * terms[c];
    }
  }
  for (std::size_t r = 0; r < kTerms; ++r) a[r * kTerms + r] += r == 0 ? 1e-9 : 1.0;
  detail::solve_symmetric(a, b, x);
  return x;
}

double at(const std::vector<double>& coefficients, int day) {
  const auto terms = detail::harmonic_terms(day, kHarmonics);
  double sum = 0;
  for (std::size_t i = 0; i < kTerms; ++i) sum += coefficients[i] * terms[i];
  return sum;
}

// Gamma with log link: Newton's steps are least squares of y/mu - 1; shape from the mean of
// ln(mu/y) (Thom 1958).
void fit_amounts(WeatherModel& model, const DailyWeather& daily) {
  std::vector<int> days;
  std::vector<double> rain;
  for (std::size_t i = 0; i < daily.days(); ++i) {
    if (!(daily.rain_mm[i] >= model.wet_day_mm)) continue;
    days.push_back(day_of_year(daily.day(i)));
    rain.push_back(daily.rain_mm[i] - model.wet_day_mm + 0.05);
  }
  double mean = 0;
  for (const double r : rain) mean += r / static_cast<double>(rain.size());
  model.log_mean_amount.assign(kTerms, 0.0);
  model.log_mean_amount[0] = exact_log(mean);
  for (int step = 0; step < 25; ++step) {
    std::vector<double> working;
    for (std::size_t i = 0; i < rain.size(); ++i) {
      working.push_back(rain[i] / exact_exp(at(model.log_mean_amount, days[i])) - 1);
    }
    const auto move = harmonic_fit(days, working);
    for (std::size_t k = 0; k < kTerms; ++k)
      model.log_mean_amount[k] += std::clamp(move[k], -0.5, 0.5);
  }
  double d = 0;
  for (std::size_t i = 0; i < rain.size(); ++i)
    d += at(model.log_mean_amount, days[i]) - exact_log(rain[i]);
  d = std::max(1e-6, d / static_cast<double>(rain.size()));
  model.log_ratio = d;
  model.amount_shape = (1 + std::sqrt(1 + 4 * d / 3)) / (4 * d);
}

const std::vector<double>& column(const DailyWeather& daily, int which) {
  return which == 0 ? daily.tmax_c : (which == 1 ? daily.tmin_c : daily.rh_mean_pct);
}

// Means and spreads by wet and dry; returns the standardised residuals, NaN where unknown.
std::vector<double> fit_column(WeatherModel& model, const DailyWeather& daily,
                               const std::vector<char>& wet, int which) {
  const auto& values = column(daily, which);
  SeasonalMean mean;
  std::vector<double> residuals(daily.days(), std::nan(""));
  for (std::size_t state = 0; state < 2; ++state) {
    std::vector<int> days;
    std::vector<double> y;
    for (std::size_t i = 0; i < values.size(); ++i) {
      if (wet[i] != static_cast<char>(state) || std::isnan(values[i])) continue;
      days.push_back(day_of_year(daily.day(i)));
      y.push_back(values[i]);
    }
    mean.mean[state] = harmonic_fit(days, y);
    double square = 0;
    for (std::size_t i = 0; i < y.size(); ++i) {
      const double off = y[i] - at(mean.mean[state], days[i]);
      square += off * off;
    }
    mean.sd[state] =
        std::max(1e-6, std::sqrt(square / std::max<double>(1, static_cast<double>(y.size()))));
    for (std::size_t i = 0; i < values.size(); ++i) {
      if (wet[i] != static_cast<char>(state) || std::isnan(values[i])) continue;
      residuals[i] = (values[i] - at(mean.mean[state], day_of_year(daily.day(i)))) / mean.sd[state];
    }
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
  fit_amounts(model, daily);
  std::vector<std::vector<double>> residuals;
  for (int which = 0; which < 3; ++which) {
    if (!enough(column(daily, which), parameters.value("climate.chain.days_least"))) continue;
    model.columns.push_back(which);
    residuals.push_back(fit_column(model, daily, wet, which));
  }
  fit_residuals(model, residuals);
  return {model, {}};
}

}  // namespace wildling::climate
