// The rules of the three fuels; every threshold is a parameter climate.fire.*.
#include <algorithm>
#include <string>

#include "climate/fire.hpp"

namespace wildling::climate {
namespace {

FireClass raised_by(FireClass c, int steps) {
  return static_cast<FireClass>(std::clamp(static_cast<int>(c) + steps, 0, 3));
}

// 0 below the first threshold, 3 at the last and above.
FireClass level(double value, const std::array<double, 3>& thresholds) {
  return static_cast<FireClass>(
      std::count_if(thresholds.begin(), thresholds.end(), [&](double t) { return value >= t; }));
}

std::array<double, 3> thresholds(const std::string& key, const Parameters& p) {
  return {p.value("climate.fire." + key + "_high"), p.value("climate.fire." + key + "_very_high"),
          p.value("climate.fire." + key + "_extreme")};
}

FireClass by_thresholds(double value, const std::string& key, const Parameters& p) {
  return level(value, thresholds(key, p));
}

std::optional<FireClass> by_days(const FireInputs& in, const GrassRule& rule) {
  if (!in.days_since_useful_rain) return {};
  FireClass c = level(*in.days_since_useful_rain, rule.days);
  const bool dry_air = in.afternoon_rh_pct && *in.afternoon_rh_pct < rule.dry_air_pct;
  const bool cured = in.cured_share && *in.cured_share >= rule.cured_share;
  const bool green = in.cured_share && *in.cured_share < rule.green_share;
  if (c != FireClass::not_high && green) c = raised_by(c, -1);
  if (dry_air && !green && (cured || c != FireClass::not_high)) c = raised_by(c, 1);
  return c;
}

FuelClass grass(const FireInputs& in, const Parameters& p) {
  const GrassRule rule = grass_rule(p);
  FuelClass result{grass_class(in, rule), {}};
  const std::optional<FireClass> days = by_days(in, rule);
  if (!result.value) {
    result.reason = say("climate.fire_grass_unknown");
  } else if (days && *days == *result.value) {
    result.reason =
        say("climate.fire_grass_days", {{"days", std::int64_t{*in.days_since_useful_rain}}});
  } else {
    result.reason = say("climate.fire_grass_code", {{"code", *in.fine_fuel_code}});
  }
  return result;
}

FuelClass litter(const FireInputs& in, const Parameters& p) {
  if (!in.keetch_byram_mm) return {{}, say("climate.fire_litter_unknown")};
  return {by_thresholds(*in.keetch_byram_mm, "keetch_byram", p),
          say("climate.fire_litter_index", {{"index", *in.keetch_byram_mm}})};
}

FuelClass peat(const FireInputs& in, const Parameters& p) {
  if (!in.water_table_below_m) return {{}, say("climate.fire_peat_unknown")};
  return {by_thresholds(*in.water_table_below_m, "peat_depth", p),
          say("climate.fire_peat_depth", {{"depth", *in.water_table_below_m}})};
}

const char* line_of(FireClass c) {
  switch (c) {
    case FireClass::not_high:
      return "climate.fire_not_high";
    case FireClass::high:
      return "climate.fire_high";
    case FireClass::very_high:
      return "climate.fire_very_high";
    case FireClass::extreme:
      break;
  }
  return "climate.fire_extreme";
}

}  // namespace

GrassRule grass_rule(const Parameters& p) {
  return {thresholds("grass_days", p), thresholds("fine_fuel", p),
          p.value("climate.fire.dry_air_pct"), p.value("climate.fire.cured_share"),
          p.value("climate.fire.green_share")};
}

std::optional<FireClass> grass_class(const FireInputs& in, const GrassRule& rule) {
  std::optional<FireClass> c = by_days(in, rule);
  if (in.fine_fuel_code) {
    const FireClass code = level(*in.fine_fuel_code, rule.code);
    if (!c || code > *c) c = code;
  }
  return c;
}

FireResult fire_class(const FireInputs& in, const Parameters& p) {
  FireResult result{grass(in, p), litter(in, p), peat(in, p), {}, false, {}, {}};
  const FuelClass* worst = nullptr;
  for (const FuelClass* fuel : {&result.grass, &result.litter, &result.peat}) {
    if (fuel->value && (!result.value || *fuel->value > *result.value)) {
      result.value = fuel->value;
      worst = fuel;
    }
  }
  if (in.manager_says && (!result.value || *in.manager_says > *result.value)) {
    result.value = in.manager_says;
    result.raised = true;
  }
  result.first_line = result.value ? say(line_of(*result.value)) : say("climate.fire_unknown");
  if (result.raised) result.notes.push_back(say("climate.fire_raised"));
  if (worst != nullptr) result.notes.push_back(worst->reason);
  return result;
}

}  // namespace wildling::climate
