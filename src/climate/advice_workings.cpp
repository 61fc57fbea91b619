#include "climate/advice_workings.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "climate/climate_workings.hpp"
#include "climate/nodes.hpp"
#include "climate/normals.hpp"
#include "climate/outlook_runs.hpp"

namespace wildling::climate {
namespace {

using In = std::span<const double>;
using Keys = std::vector<std::string>;

std::string node(Workings& w, std::string key, Message label, double value, const char* unit,
                 Origin origin, const char* formula, Keys inputs, std::string source = "",
                 std::string note = "") {
  return w.add({.key = std::move(key),
                .label = std::move(label),
                .value = value,
                .unit = unit,
                .origin = origin,
                .formula = formula,
                .source = std::move(source),
                .note = std::move(note),
                .inputs = std::move(inputs)});
}

// 15 pit numbers, killing share, killing days, ball and hole at the start, days until planting,
// then rain and evaporation of each day.
double analogue_good(In x) {
  const PitSettings pit = detail::pit_from(x);
  const double below = x[15] * pit.ball_holds_mm;
  PitDay day{x[17], x[18]};
  int run = 0;
  double i = 0;
  for (std::size_t k = 20; k + 1 < x.size(); k += 2, i += 1) {
    pit_step(day, x[k], x[k + 1], pit);
    run = day.ball_mm < below ? run + 1 : 0;
    if (run >= x[16] && i + 1 - x[16] >= x[19]) return 0;
  }
  return 1;
}

// Limit, then rain of today, yesterday and so on.
double days_back(In x) {
  for (std::size_t i = 1; i < x.size(); ++i) {
    if (x[i] >= x[0]) return static_cast<double>(i - 1);
  }
  return std::nan("");
}

// year and value in turn
stat::SenSlope sen_of(In x) {
  std::vector<double> t, y;
  for (std::size_t i = 0; i + 1 < x.size(); i += 2) {
    t.push_back(x[i]);
    y.push_back(x[i + 1]);
  }
  return stat::sen_slope(t, y);
}

stat::Pettitt break_of(In x) {
  std::vector<double> y;
  for (std::size_t i = 1; i < x.size(); i += 2) y.push_back(x[i]);
  return stat::pettitt(y);
}

// lags, then year and value in turn
double serial_p(In x) {
  std::vector<double> y;
  for (std::size_t i = 2; i < x.size(); i += 2) y.push_back(x[i]);
  const stat::HamedRao serial =
      stat::hamed_rao(y, sen_of(x.subspan(1)).slope, static_cast<int>(x[0]));
  return serial.factor > 1 ? serial.p : stat::mann_kendall(y).p;
}

double score(In x) {
  std::vector<double> y;
  for (std::size_t i = 1; i < x.size(); i += 2) y.push_back(x[i]);
  return stat::mann_kendall(y).s;
}

double largest(In x) {
  return *std::max_element(x.begin(), x.end());
}

// value, then three thresholds
double level(In x) {
  return static_cast<double>(
      std::count_if(x.begin() + 1, x.end(), [&](double t) { return x[0] >= t; }));
}

Keys thresholds(Workings& w, const std::string& key, const Parameters& p) {
  Keys keys;
  for (const char* name : {"high", "very_high", "extreme"}) {
    keys.push_back(add_parameter(w, p.at("climate.fire." + key + "_" + name)));
  }
  return keys;
}

struct OutlookNodes {
  detail::Nodes nodes;
  const WeatherBook& book;
  const detail::RunLog& log;
  const Outlook& outlook;
  Keys common;  ///< pit, killing rule and today's water

  std::string flag(const OutlookDelay& delay, int year, bool good) const {
    const std::size_t begin = *detail::same_day(log, outlook.today, year) + 1;
    const auto length = static_cast<std::size_t>(delay.days + log.rules.look_ahead_days);
    Keys inputs = common;
    inputs.push_back(
        nodes.leaf(fmt::format("climate/outlook/after/{}/days", delay.days),
                   say("climate.node.outlook_delay", {{"days", std::int64_t{delay.days}}}),
                   delay.days, "days", Origin::chosen));
    for (std::size_t i = begin; i < begin + length; ++i) {
      const Date day = book.daily.day(i);
      inputs.push_back(detail::rain_leaf(nodes, book, log.rain_mm, i));
      inputs.push_back(nodes.leaf(detail::day_key("climate/et0_used/", day),
                                  detail::day_label("climate.node.et0", day), log.et0_mm[i], "mm",
                                  Origin::assumed, "", "by the evaporation rule of this log"));
    }
    const Date planted = book.daily.day(begin) + std::chrono::days(delay.days);
    return nodes.computed(fmt::format("climate/outlook/after/{}/{}/good", delay.days, year),
                          say("climate.node.good_year", {{"first", planted}}), good ? 1 : 0, "",
                          "climate.analogue_good", std::move(inputs));
  }

  void add(const OutlookDelay& delay) const {
    const std::string key = fmt::format("climate/outlook/after/{}/", delay.days);
    const Date day = outlook.today + std::chrono::days(delay.days);
    Keys flags;
    for (const int year : delay.good_years) flags.push_back(flag(delay, year, true));
    for (const int year : delay.bad_years) flags.push_back(flag(delay, year, false));
    const auto computed = [&](const char* name, const char* label, double value, const char* unit,
                              const char* formula, const Keys& inputs) {
      return nodes.computed(key + name, detail::day_label(label, day), value, unit, formula,
                            inputs);
    };
    if (!flags.empty()) {
      const auto good = computed("good_years", "climate.node.outlook_good", delay.good, "years",
                                 "climate.sum", flags);
      const auto judged = computed("judged_years", "climate.node.outlook_judged", delay.judged,
                                   "years", "climate.how_many", flags);
      computed("share_low", "climate.node.outlook_low", delay.share_low, "", "climate.wilson_low",
               {good, judged});
      computed("share_high", "climate.node.outlook_high", delay.share_high, "",
               "climate.wilson_high", {good, judged});
    }
    if (delay.simulated == 0) return;
    nodes.leaf(key + "simulated", detail::day_label("climate.node.outlook_simulated", day),
               delay.simulated, "", Origin::chosen);
    nodes.leaf(key + "simulated_good", detail::day_label("climate.node.outlook_sim_good", day),
               delay.simulated_good, "", Origin::assumed, "",
               "invented continuations of this log, docs/climate.md; the same seed gives the same");
  }

  // The day's own node, or for a reading over several days what one of them surely had.
  std::string sure_leaf(std::size_t i, const std::string& own) const {
    if (!std::isnan(book.daily.rain_mm[i])) return own;
    const Date day = book.daily.day(i);
    return nodes.leaf(detail::day_key("climate/rain_sure/", day),
                      detail::day_label("climate.node.rain_sure", day), sure_rain_mm(book.daily, i),
                      "mm", Origin::assumed, book.station.source,
                      "missing, or inside a reading over several days: its mean on its first day");
  }

  void add_recent_rain() const {
    const auto label = [&](const char* name) { return detail::day_label(name, outlook.today); };
    Keys rain, back = {nodes.parameter("climate.fire.useful_rain_mm")};
    for (int d = 0; d < 14 || static_cast<int>(back.size()) <= outlook.days_since_useful_rain + 1;
         ++d) {
      const Date day = outlook.today - std::chrono::days(d);
      const auto i = book.daily.index(day);
      if (!i && day < book.daily.first) break;
      const auto key =
          i ? detail::rain_leaf(nodes, book, log.rain_mm, *i)
            : nodes.leaf(detail::day_key("climate/rain/", day),
                         detail::day_label("climate.node.rain", day), 0, "mm", Origin::assumed,
                         book.station.source, "missing, counted as dry");
      if (d < 14) rain.push_back(key);
      back.push_back(i ? sure_leaf(*i, key) : key);
    }
    nodes.computed("climate/outlook/rain_14_days", label("climate.node.rain_14_days"),
                   outlook.rain_14_days_mm, "mm", "climate.sum", rain);
    if (outlook.days_since_useful_rain >= 0) {
      nodes.computed("climate/outlook/days_since_rain", label("climate.node.days_since_rain"),
                     outlook.days_since_useful_rain, "days", "climate.days_back", back);
    }
  }
};

// Not read = a leaf without value.
std::string grass_node(Workings& w, const FireInputs& in, FireClass value, const Parameters& p) {
  const auto read = [&](const char* key, const char* label, const auto& v, const char* unit) {
    return node(w, key, say(label), v ? static_cast<double>(*v) : std::nan(""), unit,
                Origin::measured, "", {}, "", v ? "" : "not read");
  };
  Keys inputs = {
      read("climate/fire/days_since_rain", "climate.node.fire_days", in.days_since_useful_rain,
           "days"),
      read("climate/fire/humidity", "climate.node.fire_humidity", in.afternoon_rh_pct, "%"),
      read("climate/fire/cured", "climate.node.fire_cured", in.cured_share, ""),
      read("climate/fire/code", "climate.node.fire_code", in.fine_fuel_code, "")};
  for (const char* key : {"grass_days", "fine_fuel"}) {
    for (const std::string& parameter : thresholds(w, key, p)) inputs.push_back(parameter);
  }
  for (const char* key : {"dry_air_pct", "cured_share", "green_share"})
    inputs.push_back(add_parameter(w, p.at(std::string("climate.fire.") + key)));
  return node(w, "climate/fire/grass", say("climate.node.fire_grass"), static_cast<double>(value),
              "", Origin::computed, "climate.grass_class", inputs);
}

// days, humidity, cured share, code; thresholds of days and code; dry air, cured, green
double grass_from(In x) {
  FireInputs in;
  if (!std::isnan(x[0])) in.days_since_useful_rain = static_cast<int>(x[0]);
  if (!std::isnan(x[1])) in.afternoon_rh_pct = x[1];
  if (!std::isnan(x[2])) in.cured_share = x[2];
  if (!std::isnan(x[3])) in.fine_fuel_code = x[3];
  const GrassRule rule{{x[4], x[5], x[6]}, {x[7], x[8], x[9]}, x[10], x[11], x[12]};
  const std::optional<FireClass> c = grass_class(in, rule);
  return c ? static_cast<double>(*c) : std::nan("");
}

}  // namespace

void add_outlook_workings(Workings& w, const WeatherBook& book, const Outlook& outlook,
                          SoilSeen soil, const Parameters& p) {
  if (outlook.refused || outlook.delays.empty()) return;
  const detail::RunLog log = detail::run_log(book, p);
  Keys common;
  for (const char* key : detail::pit_parameter_keys())
    common.push_back(add_parameter(w, p.at(key)));
  common.push_back(add_parameter(w, p.at("climate.killing.share")));
  common.push_back(add_parameter(w, p.at("climate.killing.days")));
  const Origin seen = soil == SoilSeen::not_looked ? Origin::assumed : Origin::measured;
  const char* note = soil == SoilSeen::not_looked
                         ? "balance of the log up to today"
                         : "soil poked by hand today over the balance of the log";
  common.push_back(node(w, "climate/outlook/ball",
                        detail::day_label("climate.node.ball", outlook.today), outlook.ball_mm,
                        "mm", seen, "", {}, "", note));
  common.push_back(node(w, "climate/outlook/hole",
                        detail::day_label("climate.node.hole", outlook.today), outlook.hole_mm,
                        "mm", seen, "", {}, "", note));
  const OutlookNodes nodes{{w, p}, book, log, outlook, common};
  for (const OutlookDelay& delay : outlook.delays) nodes.add(delay);
  nodes.add_recent_rain();
}

void add_trend_workings(Workings& w, const TrendResult& trend, const std::vector<int>& years,
                        const std::vector<double>& values, const Parameters& p) {
  if (trend.refused) return;
  Keys pairs;
  const std::string key = "climate/trend/" + trend.what + "/";
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (std::isnan(values[i])) continue;
    const auto label = [&](const char* name) {
      return say(name, {{"what", trend.what}, {"year", std::int64_t{years[i]}}});
    };
    pairs.push_back(node(w, fmt::format("climate/year/{}", years[i]),
                         say("climate.node.year", {{"year", std::int64_t{years[i]}}}), years[i], "",
                         Origin::measured, "", {}));
    pairs.push_back(node(w, fmt::format("{}{}", key, years[i]), label("climate.node.year_value"),
                         values[i], "", Origin::measured, "", {}));
  }
  const auto label = [&](const char* name) { return say(name, {{"what", trend.what}}); };
  node(w, key + "score", label("climate.node.trend_score"), trend.test.s, "", Origin::computed,
       "climate.mann_kendall", pairs);
  node(w, key + "slope", label("climate.node.trend_slope"), trend.slope.slope, "per year",
       Origin::computed, "climate.sen_slope", pairs);
  const auto limit = [&](const char* name, const char* node_label, double value,
                         const char* formula) {
    return node(w, key + name, label(node_label), value, "per year", Origin::computed, formula,
                pairs);
  };
  const auto low = limit("slope_low", "climate.node.trend_low", trend.slope.low, "climate.sen_low");
  const auto high =
      limit("slope_high", "climate.node.trend_high", trend.slope.high, "climate.sen_high");
  const auto ten = [&](const char* name, const char* node_label, double value,
                       const std::string& from) {
    node(w, key + name, label(node_label), 10 * value, "in ten years", Origin::computed,
         "climate.per_ten", {from});
  };
  ten("ten_years", "climate.node.trend_ten", trend.slope.slope, key + "slope");
  ten("ten_years_low", "climate.node.trend_ten_low", trend.slope.low, low);
  ten("ten_years_high", "climate.node.trend_ten_high", trend.slope.high, high);
  node(w, key + "years", label("climate.node.trend_years"), trend.years, "years", Origin::computed,
       "climate.half_count", pairs);
  node(w, key + "break_p", label("climate.node.break_p"), trend.break_test.p, "", Origin::computed,
       "climate.break_p", pairs);
  if (trend.break_after_year) {
    node(w, key + "break_year", label("climate.node.break_year"), *trend.break_after_year, "",
         Origin::computed, "climate.break_year", pairs);
  }
  Keys with_lags = {add_parameter(w, p.at("climate.index.lags"))};
  with_lags.insert(with_lags.end(), pairs.begin(), pairs.end());
  node(w, key + "p", label("climate.node.trend_p"), trend.p, "", Origin::computed,
       "climate.trend_p", with_lags);
}

void add_fire_workings(Workings& w, const FireInputs& in, const FireResult& result,
                       const Parameters& p) {
  if (!result.value) return;
  Keys classes;
  const auto measured = [&](const char* key, const char* label, double value, const char* unit) {
    return node(w, key, say(label), value, unit, Origin::measured, "", {});
  };
  if (result.grass.value) {
    classes.push_back(grass_node(w, in, *result.grass.value, p));
  }
  if (in.keetch_byram_mm) {
    Keys inputs = {
        measured("climate/fire/index", "climate.node.fire_index", *in.keetch_byram_mm, "mm")};
    for (const std::string& key : thresholds(w, "keetch_byram", p)) inputs.push_back(key);
    classes.push_back(node(w, "climate/fire/litter", say("climate.node.fire_litter"),
                           static_cast<double>(*result.litter.value), "", Origin::computed,
                           "climate.level", inputs));
  }
  if (in.water_table_below_m) {
    Keys inputs = {measured("climate/fire/water_table", "climate.node.fire_water",
                            *in.water_table_below_m, "m")};
    for (const std::string& key : thresholds(w, "peat_depth", p)) inputs.push_back(key);
    classes.push_back(node(w, "climate/fire/peat", say("climate.node.fire_peat"),
                           static_cast<double>(*result.peat.value), "", Origin::computed,
                           "climate.level", inputs));
  }
  if (in.manager_says) {
    classes.push_back(node(w, "climate/fire/manager", say("climate.node.fire_manager"),
                           static_cast<double>(*in.manager_says), "", Origin::told, "", {}));
  }
  node(w, "climate/fire/class", say("climate.node.fire_class"), static_cast<double>(*result.value),
       "", Origin::computed, "climate.largest", classes);
}

namespace detail {

void add_advice_formulas(Formulas& f) {
  f.push_back({"climate.analogue_good",
               "1 if no run of killing days below share x TAW comes within the look-ahead, else 0",
               "Allen et al. (1998), FAO-56 eq. 71 to 88; this program, docs/climate.md",
               analogue_good});
  f.push_back({"climate.days_back", "days back to the last reading of at least the limit",
               "this program, docs/climate.md", days_back});
  f.push_back({"climate.mann_kendall", "S = sum of sign(x_j - x_i), i < j",
               "Gilbert (1987), ch. 16", score});
  f.push_back({"climate.sen_slope", "median of (x_j - x_i)/(t_j - t_i)", "Gilbert (1987), ch. 16.5",
               [](In x) { return sen_of(x).slope; }});
  f.push_back({"climate.sen_low", "slope at rank (N - 1.96 sqrt(Var S))/2 of all pairs",
               "Gilbert (1987), p. 218", [](In x) { return sen_of(x).low; }});
  f.push_back({"climate.sen_high", "slope at rank (N + 1.96 sqrt(Var S))/2 of all pairs",
               "Gilbert (1987), p. 218", [](In x) { return sen_of(x).high; }});
  f.push_back({"climate.break_p", "2 exp(-6 K^2/(n^3 + n^2)), at most 1",
               "Pettitt (1979), Appl. Statist. 28:126-135", [](In x) { return break_of(x).p; }});
  f.push_back({"climate.break_year", "year at which |U| is largest",
               "Pettitt (1979), Appl. Statist. 28:126-135",
               [](In x) { return x[2 * static_cast<std::size_t>(break_of(x).change_after) - 2]; }});
  f.push_back({"climate.half_count", "number of years", "this program, docs/climate.md",
               [](In x) { return static_cast<double>(x.size() / 2); }});
  f.push_back(
      {"climate.per_ten", "10 x", "this program, docs/climate.md", [](In x) { return 10 * x[0]; }});
  f.push_back({"climate.trend_p",
               "two-sided p of S, variance widened for serial correlation, never narrowed",
               "Gilbert (1987), ch. 16; Hamed & Rao (1998), J. Hydrol. 204:182-196", serial_p});
  f.push_back(
      {"climate.level", "number of thresholds reached", "this program, docs/climate.md", level});
  f.push_back({"climate.grass_class",
               "thresholds reached by the days; one up in dry air, one down while green; the Fine "
               "Fuel Moisture Code where it says more",
               "de Groot, Wardati & Wang (2005), Int. J. Wildland Fire 14:161-168; docs/climate.md",
               grass_from});
  f.push_back({"climate.largest", "the highest", "this program, docs/climate.md", largest});
}

}  // namespace detail
}  // namespace wildling::climate
