#include "climate/water_workings.hpp"

#include <algorithm>
#include <cmath>

#include "climate/climate_workings.hpp"
#include "climate/et0_series.hpp"
#include "climate/nodes.hpp"

namespace wildling::climate {
namespace {

using detail::In;
using detail::Keys;
using detail::Nodes;

// 15 pit numbers, ball and hole of the day before, rain, evaporation
PitFluxes step(In x, PitDay& day) {
  day = {x[15], x[16]};
  return pit_step(day, x[17], x[18], detail::pit_from(x));
}

std::string start_node(const Nodes& n, const char* what, const char* label, Date day, double mm,
                       bool full) {
  return n.leaf(detail::day_key("climate/water/", day) + "/" + what, detail::day_label(label, day),
                mm, "mm", full ? Origin::assumed : Origin::measured, "",
                full ? "full at the start of the log" : "balance of the log up to this day");
}

double hargreaves_of(const WeatherBook& book, std::size_t i) {
  const Et0Input in = et0_input(book, i);
  if (!book.station.lat_deg || !(in.tmin_c <= in.tmax_c)) return std::nan("");
  return hargreaves_mm(in.tmax_c, in.tmin_c, sun_day(in.latitude_deg, in.day_of_year).ra_mj_m2);
}

// Only where the day's own evaporation opens: its temperatures and radiation are nodes then.
void add_check(const Nodes& n, const WaterDay& day) {
  const std::string from = detail::day_key("climate/et0/", day.day) + "/";
  if (std::isnan(day.hargreaves_mm) || n.workings.find(from + "ra") == nullptr) return;
  n.computed(detail::day_key("climate/water/", day.day) + "/hargreaves",
             detail::day_label("climate.node.hargreaves", day.day), day.hargreaves_mm, "mm",
             "climate.hargreaves", {from + "tmax", from + "tmin", from + "ra"});
}

}  // namespace

std::vector<WaterDay> water_days(const WeatherBook& book, Date from, Date to, const Parameters& p) {
  check(book);
  const Et0Series et0 = et0_series(book, p, {});
  const std::vector<double> rain = rain_to_use(book.daily);
  const PitSettings pit = pit_settings(p);
  PitDay state{pit.ball_holds_mm, pit.hole_holds_mm};
  std::vector<WaterDay> days;
  const auto most = static_cast<std::size_t>(p.value("climate.log.old_after_days"));
  for (std::size_t i = 0; i < rain.size() + most && book.daily.day(i) <= to; ++i) {
    const bool inside = i < rain.size();
    WaterDay day;
    day.day = book.daily.day(i);
    day.rain_mm = inside ? rain[i] : 0;
    day.rain_missing = !inside || (std::isnan(book.daily.rain_mm[i]) && rain[i] == 0);
    day.et0_mm = et0.high_mm[std::min(i, rain.size() - 1)];
    day.fluxes = pit_step(state, day.rain_mm, day.et0_mm, pit);
    day.ball_mm = state.ball_mm;
    day.hole_mm = state.hole_mm;
    day.ks = day.fluxes.ks;
    if (day.day < from) continue;
    if (inside) day.hargreaves_mm = hargreaves_of(book, i);
    days.push_back(day);
  }
  return days;
}

void add_water_workings(Workings& w, const WeatherBook& book, const std::vector<WaterDay>& days,
                        const Parameters& p) {
  if (days.empty()) return;
  const Nodes n{w, p};
  const Et0Series et0 = et0_series(book, p, {});
  const std::vector<double> rain = rain_to_use(book.daily);
  Keys pit;
  for (const char* key : detail::pit_parameter_keys()) pit.push_back(n.parameter(key));
  const Date before = days.front().day - std::chrono::days(1);
  const bool full = days.front().day == book.daily.first;
  const PitSettings settings = pit_settings(p);
  PitDay start{settings.ball_holds_mm, settings.hole_holds_mm};
  if (!full) {
    const std::vector<WaterDay> last = water_days(book, before, before, p);
    start = {last.front().ball_mm, last.front().hole_mm};
  }
  std::string ball = start_node(n, "ball", "climate.node.ball", before, start.ball_mm, full);
  std::string hole = start_node(n, "hole", "climate.node.hole", before, start.hole_mm, full);
  for (const WaterDay& day : days) {
    const auto i = book.daily.index(day.day);
    const std::string key = detail::day_key("climate/water/", day.day) + "/";
    Keys inputs = pit;
    inputs.insert(inputs.end(), {ball, hole});
    inputs.push_back(i ? detail::rain_leaf(n, book, rain, *i)
                       : n.leaf(detail::day_key("climate/rain/", day.day),
                                detail::day_label("climate.node.rain", day.day), 0, "mm",
                                Origin::assumed, book.station.source, "missing, counted as dry"));
    inputs.push_back(detail::et0_node(n, book, et0, i.value_or(book.daily.days() - 1)));
    const auto add = [&](const char* what, const char* label, double value, const char* unit,
                         const char* formula) {
      return n.computed(key + what, detail::day_label(label, day.day), value, unit, formula,
                        inputs);
    };
    add("ks", "climate.node.ks", day.ks, "", "climate.pit_ks");
    const auto next = add("ball", "climate.node.ball", day.ball_mm, "mm", "climate.pit_ball");
    hole = add("hole", "climate.node.hole", day.hole_mm, "mm", "climate.pit_hole");
    ball = next;
    add_check(n, day);
  }
}

namespace detail {

void add_water_formulas(Formulas& f) {
  const char* fao = "Allen et al. (1998), FAO-56 eq. 71 to 88; docs/climate.md";
  f.push_back({"climate.pit_ball", "ball + rain - overflow - Ks Kc ET0 + what passes from the hole",
               fao, [](In x) {
                 PitDay day;
                 step(x, day);
                 return day.ball_mm;
               }});
  f.push_back({"climate.pit_hole",
               "hole + rain + overflow of the ball - percolation - Kr Ke ET0 - what passes to the "
               "ball",
               fao, [](In x) {
                 PitDay day;
                 step(x, day);
                 return day.hole_mm;
               }});
  f.push_back({"climate.hargreaves", "0.0023 (Tmean + 17.8) (Tmax - Tmin)^0.5 0.408 Ra (eq. 52)",
               "Allen et al. (1998), FAO-56 eq. 52",
               [](In x) { return hargreaves_mm(x[0], x[1], x[2]); }});
  f.push_back({"climate.pit_ks", "Ks = (TAW - D)/(TAW - RAW), in 0 to 1",
               "Allen et al. (1998), FAO-56 eq. 84", [](In x) {
                 PitDay day;
                 return step(x, day).ks;
               }});
}

}  // namespace detail
}  // namespace wildling::climate
