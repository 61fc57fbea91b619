#include "base/workings.hpp"

#include <cmath>
#include <limits>

#include <gtest/gtest.h>

#include "base/words.hpp"
#include "climate/advice_workings.hpp"
#include "climate/climate_workings.hpp"

namespace wildling::climate {
namespace {

const Parameters& shipped() {
  static const Parameters parameters = Parameters::shipped();
  return parameters;
}

// Invented: rain every fourth day except July to September of even years; temperatures on most
// days.
WeatherBook book(bool temperatures) {
  WeatherBook b;
  b.station.source = "invented";
  b.station.lat_deg = 0.5;
  b.daily.first = make_date(2014, 1, 1);
  for (Date d = b.daily.first; d < make_date(2019, 3, 1); d += std::chrono::days(1)) {
    const int j = day_of_year(d);
    const bool dry = year_of(d) % 2 == 0 && j > 182 && j < 260;
    b.daily.rain_mm.push_back(!dry && j % 4 == 0 ? 30.0 : 0.0);
    if (!temperatures) continue;
    b.daily.tmax_c.push_back(j % 50 == 0 ? std::numeric_limits<double>::quiet_NaN() : 32);
    b.daily.tmin_c.push_back(23);
    b.daily.rh_mean_pct.push_back(82);
  }
  return b;
}

Workings window_workings(const WeatherBook& b) {
  Workings workings;
  add_window_workings(workings, b, planting_windows(b, shipped()), shipped());
  return workings;
}

TEST(ClimateWorkings, WindowOfALogWithTemperaturesReEvaluates) {
  const Workings workings = window_workings(book(true));
  ASSERT_NE(workings.find("climate/window/good_years"), nullptr);
  EXPECT_EQ(nodes_that_do_not_hold(workings, formulas()), std::vector<std::string>{});
}

TEST(ClimateWorkings, WindowOfALogWithRainAloneReEvaluates) {
  const Workings workings = window_workings(book(false));
  ASSERT_NE(workings.find("climate/window/good_years"), nullptr);
  EXPECT_EQ(nodes_that_do_not_hold(workings, formulas()), std::vector<std::string>{});
}

TEST(ClimateWorkings, EveryNumberOfTheAnswerHasANode) {
  const WeatherBook b = book(false);
  const WindowResult result = planting_windows(b, shipped());
  ASSERT_TRUE(result.window.found);
  const Workings workings = window_workings(b);
  const auto value = [&](const char* key) {
    const WorkingsNode* node = workings.find(std::string("climate/window/") + key);
    return node == nullptr ? -1 : node->value;
  };
  EXPECT_EQ(value("good_years"), result.window.good_years);
  EXPECT_EQ(value("of_years"), result.window.of_years);
  EXPECT_EQ(value("share_low"), result.window.share_low);
  EXPECT_EQ(value("share_high"), result.window.share_high);
  EXPECT_EQ(value("first_period"), result.window.first_period + 1);
  EXPECT_EQ(value("last_period"), result.window.last_period + 1);
  EXPECT_EQ(value("ball_holds"), result.ball_holds_mm);
  EXPECT_EQ(value("killing_below"), result.killing_below_mm);
}

// The answer names the best period's counts, so they can be opened too.
TEST(ClimateWorkings, ALogInWhichNoPeriodPassesReEvaluates) {
  WeatherBook b = book(false);
  for (double& mm : b.daily.rain_mm) mm = 0;
  const Workings workings = window_workings(b);
  ASSERT_NE(workings.find("climate/window/good_years"), nullptr);
  EXPECT_EQ(workings.find("climate/window/first_period"), nullptr);
  EXPECT_EQ(nodes_that_do_not_hold(workings, formulas()), std::vector<std::string>{});
}

TEST(ClimateWorkings, MonthMeansReEvaluate) {
  const WeatherBook b = book(false);
  Workings workings;
  add_normals_workings(workings, b, month_normals(b, shipped()), shipped());
  ASSERT_NE(workings.find("climate/month/3/rain_mean"), nullptr);
  EXPECT_EQ(nodes_that_do_not_hold(workings, formulas()), std::vector<std::string>{});
}

TEST(ClimateWorkings, EveryWayToFindHumidityAndRadiationReEvaluates) {
  Et0Input base{31, 23};
  base.latitude_deg = -2;
  Et0Input rh = base, rh_max = base, mean = base, given = base, sun = base;
  rh.rh_max_pct = 95, rh.rh_min_pct = 60;
  rh_max.rh_max_pct = 95;
  mean.rh_mean_pct = 80;
  given.ea_kpa = 2.7, given.rs_mj_m2 = 18, given.wind_2m_m_s = 1.2;
  sun.sun_h = 6;
  int day = 0;
  Workings workings;
  for (const Et0Input& input : {base, rh, rh_max, mean, given, sun}) {
    add_et0_workings(workings, et0_day(input, et0_settings(shipped())),
                     make_date(2020, 1, 1) + std::chrono::days(day++), Station{}, shipped());
  }
  EXPECT_EQ(nodes_that_do_not_hold(workings, formulas()), std::vector<std::string>{});
}

Workings advice_workings() {
  Workings workings;
  const WeatherBook b = book(true);
  const Outlook outlook =
      planting_outlook(b, make_date(2018, 5, 3), SoilSeen::moist_to_bottom, {}, shipped());
  add_outlook_workings(workings, b, outlook, SoilSeen::moist_to_bottom, shipped());
  std::vector<int> years;
  std::vector<double> values;
  for (int y = 0; y < 14; ++y) {
    years.push_back(2000 + y);
    values.push_back(y == 3 ? std::numeric_limits<double>::quiet_NaN()
                            : 2500 - 30.0 * y + 90.0 * (y * 7 % 5));
  }
  add_trend_workings(workings, trend_of("total", years, values, shipped()), years, values,
                     shipped());
  FireInputs fire;
  fire.days_since_useful_rain = 5;
  fire.keetch_byram_mm = 120;
  fire.water_table_below_m = 0.3;
  fire.manager_says = FireClass::very_high;
  add_fire_workings(workings, fire, fire_class(fire, shipped()), shipped());
  return workings;
}

TEST(ClimateWorkings, OutlookTrendAndFireReEvaluate) {
  const Workings workings = advice_workings();
  for (const char* key :
       {"climate/outlook/after/0/good_years", "climate/trend/total/p", "climate/fire/class"}) {
    ASSERT_NE(workings.find(key), nullptr) << key;
  }
  EXPECT_EQ(nodes_that_do_not_hold(workings, formulas()), std::vector<std::string>{});
}

TEST(ClimateWorkings, EveryLabelOfTheAdviceIsAWordOfTheCatalogue) {
  const Words words(Language::id);
  const Workings workings = advice_workings();
  for (const WorkingsNode& node : workings.nodes())
    ASSERT_TRUE(words.has(node.label.key)) << node.label.key;
}

TEST(ClimateWorkings, EveryLabelIsAWordOfTheCatalogue) {
  const Words words(Language::id);
  const Workings workings = window_workings(book(true));
  for (const WorkingsNode& node : workings.nodes()) {
    ASSERT_TRUE(words.has(node.label.key)) << node.label.key;
  }
}

}  // namespace
}  // namespace wildling::climate
