#include "climate/advice_workings.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "climate/climate_workings.hpp"
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

// 15 pit numbers, killing share, killing days, ball and hole at the start, then rain and
// evaporation of each day.
double analogue_good(In x) {
  const PitSettings pit = detail::pit_from(x);
  const double below = x[15] * pit.ball_holds_mm;
  PitDay day{x[17], x[18]};
  int run = 0;
  for (std::size_t i = 19; i + 1 < x.size(); i += 2) {
    pit_step(day, x[i], x[i + 1], pit);
    run = day.ball_mm < below ? run + 1 : 0;
    if (run >= x[16]) return 0;
  }
  return 1;
}

double sen(In x) {
  std::vector<double> t, y;
  for (std::size_t i = 0; i + 1 < x.size(); i += 2) {
    t.push_back(x[i]);
    y.push_back(x[i + 1]);
  }
  return stat::sen_slope(t, y).slope;
}

// lags, then year and value in turn
double serial_p(In x) {
  std::vector<double> y;
  for (std::size_t i = 2; i < x.size(); i += 2) y.push_back(x[i]);
  const stat::HamedRao serial = stat::hamed_rao(y, sen(x.subspan(1)), static_cast<int>(x[0]));
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

void add_year(Workings& w, const WeatherBook& book, const detail::RunLog& log,
              const Outlook& outlook, int year, bool good, Keys inputs, Keys& flags) {
  const std::size_t begin = *detail::same_day(log, outlook.today, year) + 1;
  for (std::size_t i = begin; i < begin + static_cast<std::size_t>(log.rules.look_ahead_days);
       ++i) {
    const Date day = book.daily.day(i);
    const bool missing = std::isnan(book.daily.rain_mm[i]) && log.rain_mm[i] == 0;
    inputs.push_back(node(w, detail::day_key("climate/rain/", day),
                          detail::day_label("climate.node.rain", day), log.rain_mm[i], "mm",
                          missing ? Origin::assumed : book.station.origin, "", {},
                          book.station.source, missing ? "missing, counted as dry" : ""));
    inputs.push_back(node(w, detail::day_key("climate/et0_used/", day),
                          detail::day_label("climate.node.et0", day), log.et0_mm[i], "mm",
                          Origin::assumed, "", {}, "", "by the evaporation rule of this log"));
  }
  flags.push_back(node(w, fmt::format("climate/outlook/{}/good", year),
                       say("climate.node.good_year", {{"first", book.daily.day(begin)}}),
                       good ? 1 : 0, "", Origin::computed, "climate.analogue_good",
                       std::move(inputs)));
}

}  // namespace

void add_outlook_workings(Workings& w, const WeatherBook& book, const Outlook& outlook,
                          SoilSeen soil, const Parameters& p) {
  if (outlook.refused || outlook.delays.empty() || outlook.delays.front().days != 0) return;
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
  const OutlookDelay& now = outlook.delays.front();
  Keys flags;
  for (const int year : now.good_years) add_year(w, book, log, outlook, year, true, common, flags);
  for (const int year : now.bad_years) add_year(w, book, log, outlook, year, false, common, flags);
  if (flags.empty()) return;
  node(w, "climate/outlook/good_years",
       detail::day_label("climate.node.outlook_good", outlook.today), now.good, "years",
       Origin::computed, "climate.sum", flags);
  node(w, "climate/outlook/judged_years",
       detail::day_label("climate.node.outlook_judged", outlook.today), now.judged, "years",
       Origin::computed, "climate.how_many", flags);
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
    classes.push_back(node(w, "climate/fire/grass", say("climate.node.fire_grass"),
                           static_cast<double>(*result.grass.value), "", Origin::chosen, "", {},
                           "docs/climate.md, grass rule"));
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
  f.push_back({"climate.mann_kendall", "S = sum of sign(x_j - x_i), i < j",
               "Gilbert (1987), ch. 16", score});
  f.push_back(
      {"climate.sen_slope", "median of (x_j - x_i)/(t_j - t_i)", "Gilbert (1987), ch. 16.5", sen});
  f.push_back({"climate.trend_p",
               "two-sided p of S, variance widened for serial correlation, never narrowed",
               "Gilbert (1987), ch. 16; Hamed & Rao (1998), J. Hydrol. 204:182-196", serial_p});
  f.push_back(
      {"climate.level", "number of thresholds reached", "this program, docs/climate.md", level});
  f.push_back({"climate.largest", "the highest", "this program, docs/climate.md", largest});
}

}  // namespace detail
}  // namespace wildling::climate
