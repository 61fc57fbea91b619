#include "climate/generator.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "base/exact_math.hpp"

namespace wildling::climate {
namespace {

constexpr Purpose kPurpose{"climate.generator"};

double value_of(const std::vector<double>& coefficients, const double* terms) {
  double sum = 0;
  for (std::size_t i = 0; i < coefficients.size(); ++i) sum += coefficients[i] * terms[i];
  return sum;
}

std::vector<double>& column(DailyWeather& daily, int which) {
  return which == 0 ? daily.tmax_c : (which == 1 ? daily.tmin_c : daily.rh_mean_pct);
}

using Residual = std::array<double, 3>;

Residual next_residual(const WeatherModel& model, const Residual& before, Stream& luck) {
  const std::size_t n = model.columns.size();
  Residual normals{}, next{};
  for (std::size_t i = 0; i < n; ++i) normals[i] = luck.normal();
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t k = 0; k < n; ++k)
      next[i] += model.a[i * n + k] * before[k] + model.b[i * n + k] * normals[k];
  }
  return next;
}

void keep_possible(DailyWeather& daily) {
  for (std::size_t i = 0; i < std::min(daily.tmax_c.size(), daily.tmin_c.size()); ++i) {
    if (daily.tmin_c[i] > daily.tmax_c[i]) std::swap(daily.tmin_c[i], daily.tmax_c[i]);
  }
  for (double& rh : daily.rh_mean_pct) rh = std::clamp(rh, 1.0, 100.0);
}

}  // namespace

double mean_amount_mm(const WeatherModel& model, const std::vector<double>& terms) {
  return model.wet_day_mm - 0.05 + exact_exp(value_of(model.log_mean_amount, terms.data()));
}

DailyWeather generate(const WeatherModel& model, Date first, int days,
                      const std::vector<double>& start, Seed seed, std::uint64_t index) {
  Stream luck(seed, kPurpose, index);
  DailyWeather daily;
  daily.first = first;
  unsigned history = 0;
  for (const double rain : start) history = (history << 1U) | (rain >= model.wet_day_mm ? 1U : 0U);
  const auto size = static_cast<std::size_t>(std::max(0, days));
  daily.rain_mm.reserve(size);
  for (const int which : model.columns) column(daily, which).reserve(size);
  Residual residual{};
  for (int i = 0; i < days; ++i) {
    const int j = day_of_year(first + std::chrono::days(i));
    const double* terms = detail::year_terms(j);
    const bool wet = luck.uniform() < model.chain.wet_chance(history, j);
    history = (history << 1U) | (wet ? 1U : 0U);
    const double amount = exact_exp(value_of(model.log_mean_amount, terms)) / model.amount_shape *
                          luck.gamma(model.amount_shape);
    daily.rain_mm.push_back(wet ? model.wet_day_mm + std::max(0.0, amount - 0.05) : 0);
    residual = next_residual(model, residual, luck);
    for (std::size_t c = 0; c < model.columns.size(); ++c) {
      const std::size_t state = wet ? 1 : 0;
      column(daily, model.columns[c])
          .push_back(value_of(model.means[c].mean[state], terms) +
                     model.means[c].sd[state] * residual[c]);
    }
  }
  keep_possible(daily);
  return daily;
}

}  // namespace wildling::climate
