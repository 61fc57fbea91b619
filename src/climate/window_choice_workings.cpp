// The numbers of the answer itself: the weeks chosen, the counts of their weakest period with their
// limits, and the water below which a dry spell counts.
#include "climate/climate_workings.hpp"
#include "stat/interval.hpp"

namespace wildling::climate {
namespace {

using In = std::span<const double>;
using Keys = std::vector<std::string>;

/// Index of the pair (good, judged) with the smallest share; the first of equals.
std::size_t weakest_pair(In x) {
  std::size_t best = 0;
  for (std::size_t i = 2; i + 1 < x.size(); i += 2) {
    if (x[i] * x[best + 1] < x[best] * x[i + 1]) best = i;
  }
  return best;
}

stat::Interval limits(In x) {
  return stat::wilson(static_cast<int>(x[0]), static_cast<int>(x[1]));
}

std::string computed(Workings& workings, const char* key, const char* label, double value,
                     const char* unit, const char* formula, Keys inputs) {
  return workings.add({.key = key,
                       .label = say(label),
                       .value = value,
                       .unit = unit,
                       .origin = Origin::computed,
                       .formula = formula,
                       .source = "",
                       .note = "",
                       .inputs = std::move(inputs)});
}

void add_chosen(Workings& workings, const char* key, const char* label, int period) {
  workings.add(
      {.key = key,
       .label =
           say(label, {{"first", period_first_day(period)}, {"last", period_last_day(period)}}),
       .value = period + 1.0,
       .unit = "",
       .origin = Origin::chosen,
       .formula = "",
       .source = "",
       .note =
           "the best record for a month on end, with neighbours nearly as good; docs/climate.md",
       .inputs = {}});
}

void add_killing_limit(Workings& workings, const WindowResult& result,
                       const Parameters& parameters) {
  const auto parameter = [&](const char* key) {
    return add_parameter(workings, parameters.at(key));
  };
  const std::string holds =
      computed(workings, "climate/window/ball_holds", "climate.node.ball_holds",
               result.ball_holds_mm, "mm", "climate.ball_holds",
               {parameter("climate.ball.water_share"), parameter("climate.ball.depth_m")});
  computed(workings, "climate/window/killing_below", "climate.node.killing_below",
           result.killing_below_mm, "mm", "climate.product",
           {parameter("climate.killing.share"), holds});
}

}  // namespace

namespace detail {

void add_window_choice(Workings& workings, const WindowResult& result, const Parameters& parameters,
                       const Keys& counts) {
  const PlantingWindow& window = result.window;
  add_killing_limit(workings, result, parameters);
  const std::string good =
      computed(workings, "climate/window/good_years", "climate.node.window_good_years",
               window.good_years, "years", "climate.weakest", counts);
  const std::string of =
      computed(workings, "climate/window/of_years", "climate.node.window_of_years", window.of_years,
               "years", "climate.weakest_judged", counts);
  computed(workings, "climate/window/share_low", "climate.node.window_share_low", window.share_low,
           "", "climate.wilson_low", {good, of});
  computed(workings, "climate/window/share_high", "climate.node.window_share_high",
           window.share_high, "", "climate.wilson_high", {good, of});
  if (!window.found) return;
  add_chosen(workings, "climate/window/first_period", "climate.node.window_first",
             window.first_period);
  add_chosen(workings, "climate/window/last_period", "climate.node.window_last",
             window.last_period);
}

void add_window_choice_formulas(Formulas& f) {
  const char* own = "this program, docs/climate.md";
  const char* fao = "Allen et al. (1998), FAO-56 eq. 82";
  const char* wilson = "Wilson (1927), J. Am. Stat. Assoc. 22:209";
  f.push_back({"climate.weakest", "good years of the period with the smallest share of good years",
               own, [](In x) { return x[weakest_pair(x)]; }});
  f.push_back({"climate.weakest_judged",
               "judged years of the period with the smallest share of good years", own,
               [](In x) { return x[weakest_pair(x) + 1]; }});
  f.push_back({"climate.wilson_low", "lower 95 % limit of k of n", wilson,
               [](In x) { return limits(x).low; }});
  f.push_back({"climate.wilson_high", "upper 95 % limit of k of n", wilson,
               [](In x) { return limits(x).high; }});
  f.push_back({"climate.ball_holds", "TAW = 1000 x usable share x height", fao,
               [](In x) { return 1000 * x[0] * x[1]; }});
  f.push_back({"climate.product", "a x b", own, [](In x) { return x[0] * x[1]; }});
}

}  // namespace detail
}  // namespace wildling::climate
