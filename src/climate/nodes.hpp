#pragma once
/// Shorthand for making workings nodes inside this room.
#include <string>
#include <vector>

#include "base/parameters.hpp"
#include "base/workings.hpp"
#include "climate/et0_series.hpp"
#include "climate/weather.hpp"

namespace wildling::climate::detail {

using Keys = std::vector<std::string>;
using In = std::span<const double>;

struct Nodes {
  Workings& workings;
  const Parameters& parameters;

  std::string leaf(std::string key, Message label, double value, const char* unit, Origin origin,
                   std::string source = "", std::string note = "") const;
  std::string computed(std::string key, Message label, double value, const char* unit,
                       const char* formula, Keys inputs) const;
  [[nodiscard]] std::string parameter(const char* key) const;
};

/// Rain of day i as the balance takes it, "climate/rain/DATE". @param used  rain_to_use
std::string rain_leaf(const Nodes& nodes, const WeatherBook& book, const std::vector<double>& used,
                      std::size_t i);

/// Evaporation of day i as the balance takes it: the chosen one, the assumed one, that of the day
/// with all its steps, or the month's mean.
std::string et0_node(const Nodes& nodes, const WeatherBook& book, const Et0Series& et0,
                     std::size_t i);

/// Measured rain of one month of one year, "climate/month/M/YEAR/rain".
std::string month_rain_leaf(const Nodes& nodes, const WeatherBook& book, int year, unsigned month);

}  // namespace wildling::climate::detail
