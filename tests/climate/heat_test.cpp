#include "climate/heat.hpp"

#include <gtest/gtest.h>

#include "climate/air.hpp"
#include "table.hpp"

namespace wildling::climate {
namespace {

const Parameters& shipped() {
  static const Parameters parameters = Parameters::shipped();
  return parameters;
}

using Values = std::map<std::string, double>;

Values compute(const std::string& name, const PublishedCase& c) {
  const auto starts = [&](const char* prefix) { return name.starts_with(prefix); };
  if (starts("heat-index/nws")) return {{"HI_chart", heat_index_regression_f(c["T"], c["RH"])}};
  if (starts("heat-index/adj")) return {{"HI_full", heat_index_f(c["T"], c["RH"])}};
  if (starts("heat-index/jl")) return {{"HI", heat_index_c(c["T"], c["RH"])}};
  if (starts("wet-bulb")) return {{"Tw", stull_wet_bulb_c(c["T"], c["RH"])}};
  if (starts("wbgt-limit")) {
    const double rel = recommended_limit_c(c["M"]);
    return {{"REL", rel},
            {"REL_equation", rel},
            {"REL_table5_1_rounded", rel},
            {"RAL", alert_limit_c(c["M"])}};
  }
  if (starts("diurnal/sine_exp")) {
    return {{"T", wann_c({c["Tmax"], c["Tmin"], c["sunrise"], c["sunset"], c["alpha_lag_of_max"],
                          c["gamma_night_decay"], c["beta_lag_of_min"]},
                         c["t"])}};
  }
  if (starts("diurnal/sine_campbell"))
    return {{"T", campbell_norman_c(c["Tmax"], c["Tmin"], c["t"])}};
  if (starts("diurnal/sine_sqrt")) {
    return {{"T", cesaraccio_c(c["Tmax"], c["Tmin"], c["Tmin_next"], c["sunrise"], c["sunset"],
                               c["t"])}};
  }
  const double half = c["daylength_implied"] / 2;
  return {{"T", parton_logan_c({c["Tmax"], c["Tmin"], 12 - half, 12 + half, c["A"], c["B"], c["C"]},
                               c["hour"])}};
}

TEST(HeatAndDayCurve, EveryPublishedValueIsMet) {
  int checked = 0;
  for (const auto& [name, one] : published_cases("heat_and_day_curve/data.csv")) {
    SCOPED_TRACE(name);
    const Values values = compute(name, one);
    for (const Published& out : one.out) {
      ASSERT_TRUE(values.contains(out.name)) << out.name;
      EXPECT_NEAR(values.at(out.name), out.value, out.tolerance * (1 + 1e-9)) << out.name;
      ++checked;
    }
  }
  EXPECT_EQ(checked, 46);
}

TEST(HeatIndex, StaysSimpleBelowEightyFahrenheit) {
  EXPECT_NEAR(heat_index_c(25, 25), 24.2, 0.05);
}

DayHours hours(double tmax, double tmin, double ea) {
  return day_hours(tmax, tmin, ea, -1, 90, shipped());
}

TEST(DayHours, StayBetweenLowestAndHighest) {
  const DayHours day = hours(33, 23, 2.7);
  for (const double t : day.temperature_c) {
    EXPECT_GE(t, 23 - 0.01);
    EXPECT_LE(t, 33 + 0.01);
  }
  EXPECT_EQ(day.sun_share[0], 0);
}

TEST(HeatPlan, AsksForMoreRestOnAHotterDayAndOfNewWorkers) {
  const auto rest = [](double tmax, bool used) {
    int sum = 0;
    for (const HeatHour& h : heat_plan(hours(tmax, 23, 2.8), 2.8, used, {}, shipped()).hours)
      sum += h.rest_minutes_sun;
    return sum;
  };
  EXPECT_LT(rest(28, true), rest(35, true));
  EXPECT_LT(rest(33, true), rest(33, false));
}

TEST(HeatPlan, ShadeNeverNeedsMoreRestThanSun) {
  for (const HeatHour& h : heat_plan(hours(34, 24, 2.9), 2.9, true, {}, shipped()).hours) {
    EXPECT_LE(h.rest_minutes_shade, h.rest_minutes_sun);
  }
}

TEST(HeatPlan, FlagsOnlyDaysWorseThanTheSitesUsual) {
  const HeatPlan plan = heat_plan(hours(34, 24, 2.9), 2.9, true, {}, shipped());
  EXPECT_FALSE(plan.worse_than_usual);
  EXPECT_TRUE(heat_plan(hours(34, 24, 2.9), 2.9, true, plan.worst_wbgt_sun_c - 1, shipped())
                  .worse_than_usual);
}

TEST(HeatPlan, SaysWhenNoHourIsFitForTheWork) {
  const HeatPlan plan = heat_plan(hours(42, 33, 4.8), 4.8, false, {}, shipped());
  EXPECT_FALSE(plan.start_hour);
  EXPECT_EQ(plan.notes.front().key, "climate.heat_no_hour");
}

// NIOSH (2016): new workers 20 % on the first day and 20 % more each day; returning 50, 60, 80,
// 100.
TEST(Acclimatisation, FollowsTheNioshSteps) {
  EXPECT_EQ(exposure_share_pct(1, false), 20);
  EXPECT_EQ(exposure_share_pct(4, false), 80);
  EXPECT_EQ(exposure_share_pct(1, true), 50);
  EXPECT_EQ(exposure_share_pct(4, true), 100);
}

}  // namespace
}  // namespace wildling::climate
