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
FireClass by_thresholds(double value, const std::string& key, const Parameters& p) {
  int level = 0;
  for (const char* name : {"high", "very_high", "extreme"}) {
    if (value >= p.value("climate.fire." + key + "_" + name)) ++level;
  }
  return static_cast<FireClass>(level);
}

// Days without useful rain; a step up when dry air and cured grass meet, a step down while the
// grass is green.
FuelClass grass(const FireInputs& in, const Parameters& p) {
  FuelClass result;
  if (in.days_since_useful_rain) {
    FireClass c = by_thresholds(*in.days_since_useful_rain, "grass_days", p);
    const bool dry_air =
        in.afternoon_rh_pct && *in.afternoon_rh_pct < p.value("climate.fire.dry_air_pct");
    const bool cured = in.cured_share && *in.cured_share >= p.value("climate.fire.cured_share");
    const bool green = in.cured_share && *in.cured_share < p.value("climate.fire.green_share");
    if (c != FireClass::not_high && green) c = raised_by(c, -1);
    if (dry_air && !green && (cured || c != FireClass::not_high)) c = raised_by(c, 1);
    result.value = c;
    result.reason =
        say("climate.fire_grass_days", {{"days", std::int64_t{*in.days_since_useful_rain}}});
  }
  if (in.fine_fuel_code) {
    const FireClass c = by_thresholds(*in.fine_fuel_code, "fine_fuel", p);
    if (!result.value || c > *result.value) {
      result = {c, say("climate.fire_grass_code", {{"code", *in.fine_fuel_code}})};
    }
  }
  if (!result.value) result.reason = say("climate.fire_grass_unknown");
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
