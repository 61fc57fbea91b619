#pragma once
/// Invented days that behave like the station's own: for simulated continuations and for the
/// forecast.
///
/// Rain or no rain by the chain chosen by BIC; rain of a wet day from a gamma distribution whose
/// mean follows the season (Stern & Coe 1984); temperatures and humidity as seasonal means and
/// spreads, apart for wet and dry days, plus residuals that keep their correlations among
/// themselves and with the day before (Richardson 1981, Water Resour. Res. 17:182-190). Columns the
/// log does not have (fewer than climate.chain.days_least values) are not made.
#include <array>
#include <optional>
#include <vector>

#include "base/message.hpp"
#include "base/parameters.hpp"
#include "base/random.hpp"
#include "climate/rain_chain.hpp"
#include "climate/weather.hpp"

namespace wildling::climate {

/// Mean and spread of one quantity over the year: harmonics, [0] dry days, [1] wet days.
struct SeasonalMean {
  std::array<std::vector<double>, 2> mean;
  std::array<double, 2> sd{};
};

struct WeatherModel {
  RainChain chain;
  std::vector<double> log_mean_amount;  ///< harmonics of ln(mean rain of a wet day)
  double amount_shape = 1;
  double log_ratio = 0;  ///< mean of ln(mean/rain) over the wet days: gives the shape (Thom 1958)
  double wet_day_mm = 1;
  std::vector<int> columns;         ///< 0 Tmax, 1 Tmin, 2 mean humidity, those that are there
  std::vector<SeasonalMean> means;  ///< one per column
  std::vector<double> a, b;         ///< residual(t) = A residual(t-1) + B normal, row-major
};

/// Mean rain of a wet day on a day of the year; @param terms  detail::harmonic_terms(day, 2)
double mean_amount_mm(const WeatherModel& model, const std::vector<double>& terms);

struct ModelFit {
  std::optional<WeatherModel> model;
  std::optional<Message> refused;
};

ModelFit fit_weather(const DailyWeather& daily, const Parameters& parameters);

/// @param start  the last days before `first`, oldest first, for the chain's history; empty = dry
/// @param index  which continuation: each has its own luck, the same for any number of threads
/// Tmin never above Tmax (the two are exchanged), humidity held in [1, 100].
DailyWeather generate(const WeatherModel& model, Date first, int days,
                      const std::vector<double>& start, Seed seed, std::uint64_t index);

}  // namespace wildling::climate
