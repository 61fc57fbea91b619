// A year's flag is recomputed from the days: from the last day on which rain filled ball and hole
// (or the start of the log) the balance runs to the end of the look-ahead; the longest run below
// the limit decides.
#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "climate/climate_workings.hpp"
#include "climate/nodes.hpp"
#include "climate/pit_balance.hpp"

namespace wildling::climate {
namespace {

using In = std::span<const double>;
using Keys = std::vector<std::string>;

/// 16 parameters, days before planting, then rain and evaporation of each day
double longest_run(In x) {
  const PitSettings pit = detail::pit_from(x);
  const double below = x[15] * pit.ball_holds_mm;
  const auto lead = static_cast<std::size_t>(x[16]);
  PitDay day{pit.ball_holds_mm, pit.hole_holds_mm};
  int run = 0, longest = 0;
  for (std::size_t i = 0; 18 + 2 * i < x.size(); ++i) {
    pit_step(day, x[17 + 2 * i], x[18 + 2 * i], pit);
    run = i >= lead && day.ball_mm < below ? run + 1 : 0;
    longest = std::max(longest, run);
  }
  return longest;
}

double sum(In x) {
  double total = 0;
  for (const double v : x) total += v;
  return total;
}

/// A day's nodes, made once: plantings of neighbouring periods look at the same days.
struct DayNodes {
  std::string rain, et0;
  double rain_mm = 0, et0_mm = 0;
};

struct Context {
  Workings& workings;
  const WeatherBook& book;
  const WindowResult& result;
  const Parameters& parameters;
  Et0Series et0;
  PitSettings pit;
  std::vector<double> rain;
  std::vector<std::size_t> full_since;  ///< last day up to i on which both stores were filled, or 0
  Keys pit_keys;
  std::vector<DayNodes> days;  ///< empty keys: not made yet
};

std::vector<std::size_t> filled_days(const Context& c) {
  std::vector<std::size_t> since(c.rain.size(), 0);
  PitDay day{c.pit.ball_holds_mm, c.pit.hole_holds_mm};
  std::size_t last = 0;
  for (std::size_t i = 0; i < c.rain.size(); ++i) {
    const PitFluxes f = pit_step(day, c.rain[i], c.et0.high_mm[i], c.pit);
    if (f.ball_overflow_mm > 0 && f.percolation_mm > 0) last = i;
    since[i] = last;
  }
  return since;
}

std::string leaf(Context& c, std::string key, Message label, double value, const char* unit,
                 Origin origin, std::string note = "") {
  return c.workings.add({.key = std::move(key),
                         .label = std::move(label),
                         .value = value,
                         .unit = unit,
                         .origin = origin,
                         .formula = "",
                         .source = c.book.station.source,
                         .note = std::move(note),
                         .inputs = {}});
}

const DayNodes& day_nodes(Context& c, std::size_t i) {
  DayNodes& day = c.days[i];
  if (day.rain.empty()) {
    const detail::Nodes nodes{c.workings, c.parameters};
    day.rain = detail::rain_leaf(nodes, c.book, c.rain, i);
    day.et0 = detail::et0_node(nodes, c.book, c.et0, i);
    day.rain_mm = c.workings.find(day.rain)->value;
    day.et0_mm = c.workings.find(day.et0)->value;
  }
  return day;
}

// Longest run below the limit for plantings from day `begin`, followed to the day before `end`.
std::string add_longest_run(Context& c, const std::string& key, std::size_t begin,
                            std::size_t end) {
  const Date first = c.book.daily.day(begin);
  const std::size_t from = begin > 0 ? c.full_since[begin - 1] : 0;
  Keys inputs = c.pit_keys;
  inputs.push_back(leaf(c, key + "days_before", say("climate.node.days_before", {{"first", first}}),
                        static_cast<double>(begin - from), "d", Origin::measured));
  std::vector<double> values;
  for (const std::string& input : inputs) values.push_back(c.workings.find(input)->value);
  for (std::size_t i = from; i < end; ++i) {
    const DayNodes& day = day_nodes(c, i);
    inputs.insert(inputs.end(), {day.rain, day.et0});
    values.insert(values.end(), {day.rain_mm, day.et0_mm});
  }
  return c.workings.add({.key = key + "longest_run",
                         .label = say("climate.node.longest_run", {{"first", first}}),
                         .value = longest_run(values),
                         .unit = "d",
                         .origin = Origin::computed,
                         .formula = "climate.longest_run",
                         .source = "",
                         .note = "",
                         .inputs = std::move(inputs)});
}

std::string add_flag(Context& c, int period, int year) {
  const Date first = ten_day_period_start(year, period);
  const Date next =
      period == 35 ? make_date(year + 1, 1, 1) : ten_day_period_start(year, period + 1);
  const auto begin = static_cast<std::size_t>((first - c.book.daily.first).count());
  const auto end = static_cast<std::size_t>((next - c.book.daily.first).count()) +
                   static_cast<std::size_t>(c.result.rules.look_ahead_days) - 1;
  const std::string key = fmt::format("climate/window/{}/{}/", period, year);
  const std::string run = add_longest_run(c, key, begin, end);
  const std::vector<int>& good = c.result.periods[static_cast<std::size_t>(period)].years_good;
  const bool flag = std::find(good.begin(), good.end(), year) != good.end();
  return c.workings.add(
      {.key = key + "good",
       .label = say("climate.node.good_year", {{"first", first}}),
       .value = flag ? 1.0 : 0.0,
       .unit = "",
       .origin = Origin::computed,
       .formula = "climate.good_year",
       .source = "",
       .note = "",
       .inputs = {run, add_parameter(c.workings, c.parameters.at("climate.killing.days"))}});
}

// Keys of the period's good and judged years.
std::array<std::string, 2> add_period(Context& c, int period) {
  const PeriodRecord& record = c.result.periods[static_cast<std::size_t>(period)];
  std::vector<int> years = record.years_good;
  years.insert(years.end(), record.years_met.begin(), record.years_met.end());
  std::sort(years.begin(), years.end());
  Keys flags;
  for (const int year : years) flags.push_back(add_flag(c, period, year));
  const std::string key = fmt::format("climate/window/{}/", period);
  const auto label = [&](const char* name) {
    return say(name, {{"first", period_first_day(period)}, {"last", period_last_day(period)}});
  };
  const auto good =
      c.workings.add({.key = key + "good_years",
                      .label = label("climate.node.good_years"),
                      .value = static_cast<double>(record.years_without_killing_spell),
                      .unit = "years",
                      .origin = Origin::computed,
                      .formula = "climate.sum",
                      .source = "",
                      .note = "",
                      .inputs = flags});
  const auto judged = c.workings.add({.key = key + "judged_years",
                                      .label = label("climate.node.judged_years"),
                                      .value = static_cast<double>(record.years_judged),
                                      .unit = "years",
                                      .origin = Origin::computed,
                                      .formula = "climate.how_many",
                                      .source = "",
                                      .note = "",
                                      .inputs = flags});
  return {good, judged};
}

}  // namespace

void add_window_workings(Workings& workings, const WeatherBook& book, const WindowResult& result,
                         const Parameters& parameters, std::optional<double> et0_override) {
  if (!result.window.enough_data) return;
  Context c{workings,
            book,
            result,
            parameters,
            et0_series(book, parameters, et0_override),
            pit_settings(parameters),
            rain_to_use(book.daily),
            {},
            {},
            std::vector<DayNodes>(book.daily.days())};
  c.full_since = filled_days(c);
  for (const char* key : detail::pit_parameter_keys()) {
    c.pit_keys.push_back(add_parameter(workings, parameters.at(key)));
  }
  c.pit_keys.push_back(add_parameter(workings, parameters.at("climate.killing.share")));
  Keys counts;
  const bool found = result.window.found;
  const int best = best_period(result.periods);
  const int last = found ? result.window.last_period : best;
  for (int p = found ? result.window.first_period : best;; p = (p + 1) % 36) {
    for (const std::string& key : add_period(c, p)) counts.push_back(key);
    if (p == last) break;
  }
  detail::add_window_choice(workings, result, parameters, counts);
}

namespace detail {

const std::array<const char*, 15>& pit_parameter_keys() {
  static constexpr std::array<const char*, 15> keys = {"climate.ball.depth_m",
                                                       "climate.ball.width_m",
                                                       "climate.ball.water_share",
                                                       "climate.ball.crop_factor",
                                                       "climate.ball.easy_share",
                                                       "climate.hole.width_m",
                                                       "climate.hole.depth_m",
                                                       "climate.hole.field_capacity",
                                                       "climate.hole.wilting_point",
                                                       "climate.hole.evaporation_depth_m",
                                                       "climate.hole.readily_evaporable_mm",
                                                       "climate.hole.bare_soil_factor",
                                                       "climate.hole.mulch_factor",
                                                       "climate.hole.exchange_per_day",
                                                       "climate.rain.lost_below_et0_share"};
  return keys;
}

PitSettings pit_from(std::span<const double> x) {
  PitNumbers n;
  n.ball_depth_m = x[0], n.ball_width_m = x[1], n.ball_water_share = x[2], n.crop_factor = x[3];
  n.easy_share = x[4], n.hole_width_m = x[5], n.hole_depth_m = x[6], n.field_capacity = x[7];
  n.wilting_point = x[8], n.evaporation_depth_m = x[9], n.readily_evaporable_mm = x[10];
  n.bare_soil_factor = x[11], n.mulch_factor = x[12], n.exchange_per_day = x[13];
  n.rain_lost_share = x[14];
  return pit_settings(n);
}

void add_window_formulas(Formulas& f) {
  const char* own = "this program, docs/climate.md";
  f.push_back({"climate.longest_run",
               "longest run of days after planting with ball water below share x TAW, by the "
               "balance of ball and hole",
               "Allen et al. (1998), FAO-56 eq. 71 to 88; " + std::string(own), longest_run});
  f.push_back({"climate.good_year", "1 if longest run < killing days, else 0", own,
               [](In x) { return x[0] < x[1] ? 1.0 : 0.0; }});
  f.push_back({"climate.sum", "sum", own, sum});
  f.push_back({"climate.how_many", "number of years", own,
               [](In x) { return static_cast<double>(x.size()); }});
  add_window_choice_formulas(f);
}

}  // namespace detail
}  // namespace wildling::climate
