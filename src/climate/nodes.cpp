#include "climate/nodes.hpp"

#include <cmath>

#include <fmt/format.h>

#include "climate/climate_workings.hpp"

namespace wildling::climate::detail {

std::string Nodes::leaf(std::string key, Message label, double value, const char* unit,
                        Origin origin, std::string source, std::string note) const {
  return workings.add({.key = std::move(key),
                       .label = std::move(label),
                       .value = value,
                       .unit = unit,
                       .origin = origin,
                       .formula = "",
                       .source = std::move(source),
                       .note = std::move(note),
                       .inputs = {}});
}

std::string Nodes::computed(std::string key, Message label, double value, const char* unit,
                            const char* formula, Keys inputs) const {
  return workings.add({.key = std::move(key),
                       .label = std::move(label),
                       .value = value,
                       .unit = unit,
                       .origin = Origin::computed,
                       .formula = formula,
                       .source = "",
                       .note = "",
                       .inputs = std::move(inputs)});
}

std::string Nodes::parameter(const char* key) const {
  return add_parameter(workings, parameters.at(key));
}

std::string rain_leaf(const Nodes& nodes, const WeatherBook& book, const std::vector<double>& used,
                      std::size_t i) {
  const Date day = book.daily.day(i);
  const bool missing = std::isnan(book.daily.rain_mm[i]) && used[i] == 0;
  return nodes.leaf(day_key("climate/rain/", day), day_label("climate.node.rain", day), used[i],
                    "mm", missing ? Origin::assumed : book.station.origin, book.station.source,
                    missing ? "missing, counted as dry" : "");
}

std::string et0_node(const Nodes& nodes, const WeatherBook& book, const Et0Series& et0,
                     std::size_t i) {
  const Date day = book.daily.day(i);
  if (et0.overridden) {
    return nodes.leaf("climate/et0_chosen", say("climate.node.et0_chosen"), et0.high_mm[i], "mm",
                      Origin::chosen, book.station.source);
  }
  if (et0.assumed) return nodes.parameter("climate.et0.assumed_high_mm_d");
  const Et0Input input = et0_input(book, i);
  if (input.tmin_c <= input.tmax_c) {
    return add_et0_workings(nodes.workings, et0_day(input, et0_settings(nodes.parameters)), day,
                            book.station, nodes.parameters);
  }
  return nodes.leaf(fmt::format("climate/et0_month/{}", month_of(day)),
                    say("climate.node.et0_month", {{"month", make_date(2001, month_of(day), 1)}}),
                    et0.high_mm[i], "mm", Origin::assumed, book.station.source,
                    "mean of the computed days of this month, used on days without temperature");
}

std::string month_rain_leaf(const Nodes& nodes, const WeatherBook& book, int year, unsigned month) {
  const MonthRain rain =
      month_rain(book.daily, year, month, nodes.parameters.value("climate.rain.wet_day_mm"));
  return nodes.leaf(fmt::format("climate/month/{}/{}/rain", month, year),
                    say("climate.node.month_rain", {{"month", make_date(year, month, 1)}}),
                    rain.rain_mm, "mm", book.station.origin, book.station.source,
                    fmt::format("{} days read, {} missing", rain.days_measured, rain.days_missing));
}

}  // namespace wildling::climate::detail
