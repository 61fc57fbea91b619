#include <cmath>

#include <fmt/format.h>

#include "climate/climate_workings.hpp"
#include "climate/nodes.hpp"
#include "climate/quality_workings.hpp"

namespace wildling::climate {
namespace {

using In = std::span<const double>;
using Keys = std::vector<std::string>;

double mean(In x) {
  double sum = 0;
  for (const double v : x) sum += v;
  return sum / static_cast<double>(x.size());
}

// One leaf per year that counts: its key, or nothing when too many days are missing.
Keys year_leaves(Workings& workings, const WeatherBook& book, unsigned month,
                 const Parameters& parameters) {
  Keys keys;
  const DailyWeather& daily = book.daily;
  for (int year = year_of(daily.first); year <= year_of(daily.last()); ++year) {
    const Date first = make_date(year, month, 1);
    if (!daily.index(first) || !daily.index(make_date(year, month, days_in_month(year, month))))
      continue;
    const MonthRain rain =
        month_rain(daily, year, month, parameters.value("climate.rain.wet_day_mm"));
    if (rain.days_missing > parameters.value("climate.month.missing_days_most")) continue;
    keys.push_back(detail::month_rain_leaf({workings, parameters}, book, year, month));
  }
  return keys;
}

}  // namespace

void add_normals_workings(Workings& workings, const WeatherBook& book,
                          const std::array<MonthNormal, 12>& normals,
                          const Parameters& parameters) {
  for (const MonthNormal& normal : normals) {
    if (normal.years == 0) continue;
    const auto month = static_cast<unsigned>(normal.month);
    workings.add(
        {.key = fmt::format("climate/month/{}/rain_mean", month),
         .label = say("climate.node.month_rain_mean", {{"month", make_date(2001, month, 1)}}),
         .value = normal.rain_mean_mm,
         .unit = "mm",
         .origin = Origin::computed,
         .formula = "climate.mean",
         .source = "",
         .note = "",
         .inputs = year_leaves(workings, book, month, parameters)});
  }
}

const Formulas& formulas() {
  static const Formulas all = [] {
    Formulas f;
    detail::add_et0_formulas(f);
    detail::add_window_formulas(f);
    detail::add_advice_formulas(f);
    detail::add_day_formulas(f);
    detail::add_season_formulas(f);
    detail::add_drought_formulas(f);
    detail::add_index_formulas(f);
    detail::add_chain_formulas(f);
    detail::add_hindcast_formulas(f);
    detail::add_paired_formulas(f);
    detail::add_water_formulas(f);
    detail::add_quality_formulas(f);
    f.push_back({"climate.mean", "mean of the years that count", "arithmetic mean", mean});
    return f;
  }();
  return all;
}

namespace detail {

std::string day_key(std::string_view what, Date day) {
  return fmt::format("{}{}", what, iso_date(day));
}

Message day_label(std::string_view key, Date day) {
  return say(std::string(key), {{"day", day}});
}

}  // namespace detail
}  // namespace wildling::climate
