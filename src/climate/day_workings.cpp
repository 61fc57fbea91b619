#include "climate/day_workings.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "base/exact_math.hpp"
#include "climate/air.hpp"
#include "climate/climate_workings.hpp"
#include "climate/et0_series.hpp"
#include "climate/nodes.hpp"
#include "climate/radiation.hpp"

namespace wildling::climate {
namespace {

using detail::In;
using detail::Keys;
using detail::Nodes;

struct Hours {
  Nodes nodes;
  const DayAir& air;
  DayHours curve;
  std::string tmax, tmin, ea, latitude, day_of_year;

  Message label(const char* key, int hour) const {
    return say(key, {{"day", air.day}, {"hour", std::int64_t{hour}}});
  }

  std::string key(const char* what, int hour, const char* name) const {
    return fmt::format("climate/{}/{}/{}/{}", what, iso_date(air.day), hour, name);
  }

  std::string middle(int hour) const {
    return nodes.leaf(fmt::format("climate/hour/{}", hour),
                      say("climate.node.hour", {{"hour", std::int64_t{hour}}}), hour + 0.5, "h",
                      Origin::chosen, "", "middle of the hour, sun time");
  }

  std::string temperature(int hour) const {
    return nodes.computed(
        key("heat", hour, "temperature"), label("climate.node.hour_temperature", hour),
        curve.temperature_c[static_cast<std::size_t>(hour)], "degC", "climate.day_curve",
        {tmax, tmin, latitude, day_of_year, middle(hour),
         nodes.parameter("climate.curve.max_lag_h"), nodes.parameter("climate.curve.night"),
         nodes.parameter("climate.curve.min_lag_h")});
  }
};

Hours hours_of(Workings& w, const DayAir& air, const Station& station, const Parameters& p) {
  add_et0_workings(w, air.et0, air.day, station, p);
  const std::string day = detail::day_key("climate/et0/", air.day);
  return {{w, p},        air,         day_hours(air, p), day + "/tmax",
          day + "/tmin", day + "/ea", day + "/latitude", day + "/day_of_year"};
}

struct HourKeys {
  std::string hour, rest_sun;
};

HourKeys add_hour(const Hours& h, const HeatHour& one, bool acclimatised, Keys& worst) {
  const Nodes& n = h.nodes;
  const auto computed = [&](const char* name, const char* label, double value, const char* unit,
                            const char* formula, Keys inputs) {
    return n.computed(h.key("heat", one.hour, name), h.label(label, one.hour), value, unit, formula,
                      std::move(inputs));
  };
  const auto i = static_cast<std::size_t>(one.hour);
  const std::string t = h.temperature(one.hour);
  const auto rh = computed("humidity", "climate.node.hour_humidity", h.curve.rh_pct[i], "%",
                           "climate.humidity", {t, h.ea});
  const auto share = computed("sun_share", "climate.node.hour_sun", h.curve.sun_share[i], "",
                              "climate.sun_share", {h.latitude, h.day_of_year, h.middle(one.hour)});
  computed("heat_index", "climate.node.hour_heat_index", one.heat_index_c, "degC",
           "climate.heat_index", {t, rh});
  const auto shade = computed("wbgt_shade", "climate.node.hour_shade", one.wbgt_shade_c, "degC",
                              "climate.wbgt_shade", {t, rh});
  const auto sun = computed("wbgt_sun", "climate.node.hour_sun_wbgt", one.wbgt_sun_c, "degC",
                            "climate.wbgt_sun", {t, h.ea, shade, share});
  worst.push_back(sun);
  const char* rest = acclimatised ? "climate.rest_used" : "climate.rest_new";
  const auto work_w = n.parameter("climate.heat.work_w"),
             rest_w = n.parameter("climate.heat.rest_w");
  const auto rest_sun = computed("rest_sun", "climate.node.hour_rest_sun", one.rest_minutes_sun,
                                 "min", rest, {sun, shade, work_w, rest_w});
  computed("rest_shade", "climate.node.hour_rest_shade", one.rest_minutes_shade, "min", rest,
           {shade, shade, work_w, rest_w});
  computed(
      "litres", "climate.node.hour_litres", one.litres, "L", "climate.litres",
      {rest_sun, n.parameter("climate.heat.litres_mild"), n.parameter("climate.heat.litres_hot")});
  return {h.middle(one.hour), rest_sun};
}

void add_steps(const Nodes& n, const DayAir& air, const HeatPlan& plan, const std::string& start,
               const std::string& finish) {
  for (const HeatStep& step : plan.steps) {
    for (const bool returning : {false, true}) {
      const char* who = returning ? "returning" : "new";
      const auto share =
          n.leaf(fmt::format("climate/heat/share/{}/{}", step.day, who),
                 say("climate.node.heat_share", {{"number", std::int64_t{step.day}}, {"who", who}}),
                 exposure_share_pct(step.day, returning), "%", Origin::documented,
                 "NIOSH (2016), Publication 2016-106");
      n.computed(fmt::format("climate/heat/{}/day/{}/{}", iso_date(air.day), step.day, who),
                 say("climate.node.heat_step", {{"number", std::int64_t{step.day}}, {"who", who}}),
                 returning ? step.returning_hours : step.new_hours, "h", "climate.step_hours",
                 {start, finish, share});
    }
  }
}

// Rest allowed, then hour and rest in turn.
std::optional<std::pair<double, double>> stretch(In x) {
  std::size_t best = 0;
  std::optional<std::pair<double, double>> result;
  for (std::size_t i = 1; i + 1 < x.size(); i += 2) {
    std::size_t j = i;
    while (j + 1 < x.size() && x[j + 1] <= x[0]) j += 2;
    if ((j - i) / 2 <= best) continue;
    best = (j - i) / 2;
    result = {std::floor(x[i]), std::floor(x[j - 2]) + 1};
  }
  return result;
}

double strain(In x) {
  const double rate = exact_log(2.0) / x[0];
  double sum = 0;
  for (std::size_t k = 0; k + 1 < x.size(); ++k)
    sum += x[k + 1] * exact_exp(-rate * (static_cast<double>(k) + 0.5));
  return sum;
}

}  // namespace

std::optional<DayAir> day_air(const WeatherBook& book, Date day, const Parameters& parameters) {
  const int most = static_cast<int>(parameters.value("climate.log.old_after_days"));
  for (int back = 0; back <= most; ++back) {
    const auto i = book.daily.index(day - std::chrono::days(back));
    if (!i) continue;
    const Et0Input input = et0_input(book, *i);
    if (!(input.tmin_c <= input.tmax_c)) continue;
    return DayAir{book.daily.day(*i), et0_day(input, et0_settings(parameters))};
  }
  return {};
}

DayHours day_hours(const DayAir& air, const Parameters& parameters) {
  const Et0Input& in = air.et0.input;
  return day_hours(in.tmax_c, in.tmin_c, air.et0.ea_kpa, in.latitude_deg, in.day_of_year,
                   parameters);
}

void add_heat_workings(Workings& w, const DayAir& air, const Station& station, const HeatPlan& plan,
                       bool acclimatised, std::optional<double> usual, const Parameters& p) {
  const Hours h = hours_of(w, air, station, p);
  const Nodes& n = h.nodes;
  const std::string key = detail::day_key("climate/heat/", air.day) + "/";
  Keys worst, stretch_inputs = {n.parameter("climate.heat.rest_most_min")};
  for (const HeatHour& hour : plan.hours) {
    const HourKeys keys = add_hour(h, hour, acclimatised, worst);
    stretch_inputs.insert(stretch_inputs.end(), {keys.hour, keys.rest_sun});
  }
  const auto label = [&](const char* name) { return detail::day_label(name, air.day); };
  n.computed(key + "worst", label("climate.node.heat_worst"), plan.worst_wbgt_sun_c, "degC",
             "climate.largest", worst);
  if (usual) {
    n.leaf(key + "usual", say("climate.node.heat_usual"), *usual, "degC", Origin::measured,
           station.source, "worst hour of every day of the log; one day in ten exceeds this");
  }
  if (!plan.start_hour) return;
  const auto start = n.computed(key + "start", label("climate.node.heat_start"), *plan.start_hour,
                                "h", "climate.work_start", stretch_inputs);
  const auto finish = n.computed(key + "finish", label("climate.node.heat_finish"),
                                 *plan.finish_hour, "h", "climate.work_finish", stretch_inputs);
  add_steps(n, air, plan, start, finish);
}

void add_kinder_workings(Workings& w, const DayAir& air, const Station& station,
                         const KinderHours& kinder, const Parameters& p) {
  if (kinder.hours.empty()) return;
  const Hours h = hours_of(w, air, station, p);
  const Nodes& n = h.nodes;
  Keys deficits, strains, pairs;
  for (int hour = 0; hour < 24; ++hour) {
    deficits.push_back(n.computed(h.key("kinder", hour, "vpd"),
                                  h.label("climate.node.hour_vpd", hour),
                                  h.curve.vpd_kpa[static_cast<std::size_t>(hour)], "kPa",
                                  "climate.deficit", {h.temperature(hour), h.ea}));
  }
  for (const KinderHour& one : kinder.hours) {
    Keys inputs = {n.parameter("climate.kinder.half_h")};
    for (std::size_t k = 0; k < 24; ++k)
      inputs.push_back(deficits[(static_cast<std::size_t>(one.hour) + k) % 24]);
    strains.push_back(n.computed(h.key("kinder", one.hour, "strain"),
                                 h.label("climate.node.hour_strain", one.hour), one.strain_kpa_h,
                                 "kPa h", "climate.strain", inputs));
    pairs.insert(pairs.end(), {h.middle(one.hour), strains.back()});
  }
  const std::string key = detail::day_key("climate/kinder/", air.day) + "/";
  n.computed(key + "best_hour", detail::day_label("climate.node.kinder_best", air.day),
             kinder.best_hour, "h", "climate.kindest_hour", pairs);
  n.computed(key + "best_over_worst", detail::day_label("climate.node.kinder_ratio", air.day),
             kinder.best_over_worst, "", "climate.least_over_most", strains);
}

namespace detail {

void add_heat_formulas(Formulas& f) {
  const char* niosh = "NIOSH (2016), Publication 2016-106, section 8.1";
  f.push_back({"climate.heat_index", "regression of Rothfusz with the adjustments of the NWS",
               "Rothfusz (1990), NWS SR 90-23", [](In x) { return heat_index_c(x[0], x[1]); }});
  f.push_back({"climate.wbgt_shade", "0.7 Tw + 0.3 T, Tw of T and RH by eq. 1",
               "ISO 7243; Stull (2011), J. Appl. Meteor. Climatol. 50:2267",
               [](In x) { return wbgt_in_shade_c(x[0], x[1]); }});
  f.push_back({"climate.wbgt_sun",
               "shade + max(0, 0.567 T + 0.393 e + 3.94 - shade) x min(1, 2 x share of the sun)",
               "form of the Australian Bureau of Meteorology; docs/climate.md",
               [](In x) { return wbgt_outside_c(wbgt_in_sun_c(x[0], x[1]), x[2], x[3]); }});
  f.push_back({"climate.rest_used",
               "smallest rest for which the hour's mean WBGT <= 56.7 - 11.5 log10(mean W)", niosh,
               [](In x) -> double { return rest_minutes(x[0], x[1], true, x[2], x[3]); }});
  f.push_back({"climate.rest_new",
               "smallest rest for which the hour's mean WBGT <= 59.9 - 14.1 log10(mean W)", niosh,
               [](In x) -> double { return rest_minutes(x[0], x[1], false, x[2], x[3]); }});
  f.push_back({"climate.litres", "the larger amount in hours that need rest", niosh,
               [](In x) { return x[0] > 0 ? x[2] : x[1]; }});
  f.push_back({"climate.work_start", "first hour of the longest stretch with no more rest", niosh,
               [](In x) {
                 const auto s = stretch(x);
                 return s ? s->first : std::nan("");
               }});
  f.push_back(
      {"climate.work_finish", "end of the longest stretch with no more rest", niosh, [](In x) {
         const auto s = stretch(x);
         return s ? s->second : std::nan("");
       }});
  f.push_back({"climate.step_hours", "(finish - start) x share / 100", niosh,
               [](In x) { return (x[1] - x[0]) * x[2] / 100; }});
}

void add_day_formulas(Formulas& f) {
  const char* own = "this program, docs/climate.md";
  add_heat_formulas(f);
  f.push_back(
      {"climate.day_curve", "sine by day, exponential decay by night, between Tmin and Tmax",
       "Parton & Logan (1981), Agric. Meteorol. 23:205-216", [](In x) {
         const SunDay sun = sun_day(x[2], static_cast<int>(std::lround(x[3])));
         return parton_logan_c(
             {x[0], x[1], 12 - sun.daylight_h / 2, 12 + sun.daylight_h / 2, x[5], x[6], x[7]},
             x[4]);
       }});
  f.push_back(
      {"climate.humidity", "min(100, 100 ea / e0(T))", "Allen et al. (1998), FAO-56 eq. 10",
       [](In x) { return std::min(100.0, 100 * x[1] / saturation_vapour_pressure_kpa(x[0])); }});
  f.push_back({"climate.deficit", "max(0, e0(T) - ea)", "Allen et al. (1998), FAO-56 eq. 11",
               [](In x) { return std::max(0.0, saturation_vapour_pressure_kpa(x[0]) - x[1]); }});
  f.push_back({"climate.sun_share", "sine of the sun's height over that at noon, at least 0",
               "Allen et al. (1998), FAO-56 eq. 24, 28",
               [](In x) { return sun_share(x[0], static_cast<int>(std::lround(x[1])), x[2]); }});
  f.push_back({"climate.strain", "sum of deficit x 2^(-hours since planting / half)", own, strain});
  f.push_back({"climate.kindest_hour", "hour with the least strain", own, [](In x) {
                 std::size_t best = 0;
                 for (std::size_t i = 0; i + 1 < x.size(); i += 2)
                   best = x[i + 1] < x[best + 1] ? i : best;
                 return std::floor(x[best]);
               }});
  f.push_back({"climate.least_over_most", "least / most", own, [](In x) {
                 const double most = *std::max_element(x.begin(), x.end());
                 return most > 0 ? *std::min_element(x.begin(), x.end()) / most : 1;
               }});
}

}  // namespace detail
}  // namespace wildling::climate
