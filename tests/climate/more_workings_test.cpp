// Every number of the weather results re-evaluates from its inputs, has a word, and equals what the
// result says.
#include <cmath>
#include <set>

#include <gtest/gtest.h>

#include "base/words.hpp"
#include "climate/advice_workings.hpp"
#include "climate/chain_workings.hpp"
#include "climate/climate_workings.hpp"
#include "climate/day_workings.hpp"
#include "climate/drought_workings.hpp"
#include "climate/hindcast_workings.hpp"
#include "climate/index_workings.hpp"
#include "climate/paired_workings.hpp"
#include "climate/season_workings.hpp"
#include "climate/water_workings.hpp"
#include "invented_log.hpp"

namespace wildling::climate {
namespace {

const Parameters& shipped() {
  static const Parameters parameters = Parameters::shipped();
  return parameters;
}

const WeatherBook& log_of_24_years() {
  static const WeatherBook book = invented_log(24);
  return book;
}

void expect_open(const Workings& workings) {
  EXPECT_FALSE(workings.nodes().empty());
  EXPECT_EQ(nodes_that_do_not_hold(workings, formulas()), std::vector<std::string>{});
  static const Words english(Language::en), indonesian(Language::id);
  for (const WorkingsNode& node : workings.nodes()) {
    ASSERT_TRUE(english.has(node.label.key)) << node.label.key;
    ASSERT_NE(english.text(node.label), "") << node.key;
    ASSERT_NE(indonesian.text(node.label), "") << node.key;
  }
}

double value(const Workings& workings, const std::string& key) {
  const WorkingsNode* node = workings.find(key);
  EXPECT_NE(node, nullptr) << key;
  return node == nullptr ? std::nan("") : node->value;
}

const Date kDay = make_date(2018, 9, 14);

DayAir air() {
  return *day_air(log_of_24_years(), kDay, shipped());
}

TEST(DayWorkings, HeatPlanOpens) {
  const DayHours hours = day_hours(air(), shipped());
  for (const bool used : {true, false}) {
    const HeatPlan plan = heat_plan(hours, air().et0.ea_kpa, used, 30.0, shipped());
    Workings workings;
    add_heat_workings(workings, air(), log_of_24_years().station, plan, used, 30.0, shipped());
    expect_open(workings);
    for (const HeatHour& h : plan.hours) {
      const std::string key = "climate/heat/2018-09-14/" + std::to_string(h.hour) + "/";
      EXPECT_EQ(value(workings, key + "rest_sun"), h.rest_minutes_sun);
      EXPECT_EQ(value(workings, key + "rest_shade"), h.rest_minutes_shade);
      EXPECT_EQ(value(workings, key + "litres"), h.litres);
    }
    EXPECT_EQ(value(workings, "climate/heat/2018-09-14/worst"), plan.worst_wbgt_sun_c);
  }
}

TEST(DayWorkings, KinderHoursOpen) {
  const KinderHours kinder = kinder_hours(day_hours(air(), shipped()), shipped());
  Workings workings;
  add_kinder_workings(workings, air(), log_of_24_years().station, kinder, shipped());
  expect_open(workings);
  EXPECT_EQ(value(workings, "climate/kinder/2018-09-14/best_hour"), kinder.best_hour);
}

TEST(DayAir, IsThatOfTheLastReadingAndEmptyWhenItIsOld) {
  const WeatherBook& book = log_of_24_years();
  const Date last = book.daily.last();
  EXPECT_EQ(day_air(book, last + std::chrono::days(3), shipped())->day, last);
  EXPECT_FALSE(day_air(book, last + std::chrono::days(40), shipped()));
}

TEST(SeasonWorkings, SeasonOpens) {
  const SeasonResult season = seasons(log_of_24_years(), shipped());
  ASSERT_TRUE(season.season_told);
  Workings workings;
  add_season_workings(workings, log_of_24_years(), season, shipped());
  expect_open(workings);
  EXPECT_EQ(value(workings, "climate/season/start_month"), season.start_month);
  EXPECT_EQ(value(workings, "climate/season/onset/stern/middle"), season.spread[1].middle);
}

TEST(SeasonWorkings, AnyYearMayBeOpened) {
  const SeasonResult season = seasons(log_of_24_years(), shipped());
  Workings workings;
  add_season_workings(workings, log_of_24_years(), season, shipped(), 2001);
  expect_open(workings);
  EXPECT_EQ(workings.find("climate/season/2001/onset/anomaly")->origin, Origin::computed);
  EXPECT_EQ(workings.find("climate/season/2002/onset/anomaly")->origin, Origin::measured);
}

TEST(SeasonWorkings, ALogWithoutSeasonOpensItsIndexOnly) {
  const WeatherBook book = invented_log(6, 3, 0);
  const SeasonResult season = seasons(book, shipped());
  ASSERT_FALSE(season.season_told);
  Workings workings;
  add_season_workings(workings, book, season, shipped());
  expect_open(workings);
  EXPECT_EQ(value(workings, "climate/season/seasonality"), season.seasonality);
  EXPECT_EQ(workings.find("climate/season/start_month"), nullptr);
}

TEST(DroughtWorkings, EveryScaleOpensInOneSetOfWorkings) {
  Workings workings;
  for (const int scale : {1, 3, 6, 12, 24}) {
    const DroughtResult result = drought(log_of_24_years(), scale, shipped());
    add_drought_workings(workings, log_of_24_years(), result, shipped());
    const std::string key = "climate/drought/" + std::to_string(scale) + "/";
    EXPECT_EQ(value(workings, key + "spi"), result.spi[*newest_month(result.spi)]);
    EXPECT_EQ(value(workings, key + "spei"), result.spei[*newest_month(result.spei)]);
  }
  expect_open(workings);
}

TEST(DroughtWorkings, ARainlessMonthOpens) {
  WeatherBook book = log_of_24_years();
  for (std::size_t i = book.daily.days() - 31; i < book.daily.days(); ++i)
    book.daily.rain_mm[i] = 0;
  const DroughtResult result = drought(book, 1, shipped());
  Workings workings;
  add_drought_workings(workings, book, result, shipped());
  expect_open(workings);
  EXPECT_EQ(value(workings, "climate/drought/1/spi_dry_years"), 1);
}

TEST(IndexWorkings, EveryFigureOfAYearOpens) {
  const auto years = year_indices(log_of_24_years().daily, shipped());
  Workings workings;
  add_year_workings(workings, log_of_24_years(), years[5], shipped());
  expect_open(workings);
  EXPECT_EQ(value(workings, "climate/year/2000/total"), years[5].total_mm);
  EXPECT_EQ(value(workings, "climate/year/2000/cdd"), years[5].cdd);
  EXPECT_EQ(value(workings, "climate/year/2000/rx5day"), years[5].rx5day_mm);
}

TEST(IndexWorkings, AYearWithAReadingOverSeveralDaysOpens) {
  WeatherBook book = invented_log(1);
  for (std::size_t i = 40; i < 43; ++i) book.daily.rain_mm[i] = std::nan("");
  book.daily.totals.push_back({book.daily.day(40), book.daily.day(42), 41});
  const auto years = year_indices(book.daily, shipped());
  Workings workings;
  add_year_workings(workings, book, years[0], shipped());
  expect_open(workings);
  EXPECT_EQ(value(workings, "climate/year/1995/several_days"), 41);
}

TEST(ChainWorkings, ChainAndGeneratorOpen) {
  const ChainChoice choice = choose_chain(log_of_24_years().daily, shipped());
  Workings workings;
  add_chain_workings(workings, log_of_24_years(), choice, shipped());
  const ModelFit fit = fit_weather(log_of_24_years().daily, shipped());
  ASSERT_TRUE(fit.model);
  add_generator_workings(workings, log_of_24_years(), *fit.model, shipped());
  expect_open(workings);
  EXPECT_EQ(value(workings, "climate/chain/order"), choice.best.order);
  EXPECT_EQ(value(workings, "climate/chain/harmonics"), choice.best.harmonics);
  EXPECT_EQ(value(workings, "climate/generator/shape"), fit.model->amount_shape);
}

TEST(HindcastWorkings, ScoresOpen) {
  const Hindcast h = hindcast(log_of_24_years(), shipped());
  ASSERT_FALSE(h.refused);
  Workings workings;
  add_hindcast_workings(workings, h, shipped());
  expect_open(workings);
  EXPECT_EQ(value(workings, "climate/hindcast/skill"), h.skill);
}

TEST(PairedWorkings, DifferencesOpen) {
  const WeatherBook& open = log_of_24_years();
  WeatherBook forest = open;
  for (double& t : forest.daily.tmax_c) t -= 2.5 + 0.3 * std::sin(t);
  const PairedResult result = paired_stations(open, forest, shipped());
  ASSERT_TRUE(result.tmax_c && result.vpd_kpa);
  Workings workings;
  add_paired_workings(workings, result);
  expect_open(workings);
  EXPECT_EQ(value(workings, "climate/paired/tmax/low"), result.tmax_c->low);
}

TEST(WaterWorkings, BalanceOfTheLastWeeksOpens) {
  const WeatherBook& book = log_of_24_years();
  const auto days = water_days(book, book.daily.last() - std::chrono::days(27),
                               book.daily.last() + std::chrono::days(5), shipped());
  ASSERT_EQ(days.size(), 33U);
  Workings workings;
  add_water_workings(workings, book, days, shipped());
  expect_open(workings);
  EXPECT_EQ(value(workings, "climate/water/" + iso_date(days.back().day) + "/ball"),
            days.back().ball_mm);
  EXPECT_EQ(value(workings, "climate/water/" + iso_date(days.front().day) + "/hargreaves"),
            days.front().hargreaves_mm);
}

TEST(WaterWorkings, TheFirstDaysOfALogStartFull) {
  const WeatherBook book = invented_log(2);
  const auto days = water_days(book, book.daily.first, book.daily.day(9), shipped());
  Workings workings;
  add_water_workings(workings, book, days, shipped());
  expect_open(workings);
}

TEST(OutlookWorkings, EveryDelayOpens) {
  const WeatherBook& book = log_of_24_years();
  OutlookSettings settings;
  settings.simulations = 20;
  const Outlook outlook =
      planting_outlook(book, kDay, SoilSeen::moist_to_bottom, settings, shipped());
  Workings workings;
  add_outlook_workings(workings, book, outlook, SoilSeen::moist_to_bottom, shipped());
  add_window_workings(workings, book, planting_windows(book, shipped()), shipped());
  expect_open(workings);
  for (const OutlookDelay& d : outlook.delays) {
    const std::string key = "climate/outlook/after/" + std::to_string(d.days) + "/";
    EXPECT_EQ(value(workings, key + "good_years"), d.good);
    EXPECT_EQ(value(workings, key + "share_low"), d.share_low);
    EXPECT_EQ(value(workings, key + "simulated_good"), d.simulated_good);
  }
  EXPECT_EQ(value(workings, "climate/outlook/rain_14_days"), outlook.rain_14_days_mm);
}

TEST(OutlookWorkings, ATotalOverSeveralDaysOpens) {
  WeatherBook book = invented_log(8);
  const std::size_t last = book.daily.days() - 1;
  for (std::size_t i = last - 9; i <= last; ++i)
    book.daily.rain_mm[i] = i > last - 4 ? 0 : std::nan("");
  book.daily.totals.push_back({book.daily.day(last - 7), book.daily.day(last - 5), 41});
  const Outlook outlook =
      planting_outlook(book, book.daily.last(), SoilSeen::not_looked, {}, shipped());
  EXPECT_EQ(outlook.days_since_useful_rain, 7);
  Workings workings;
  add_outlook_workings(workings, book, outlook, SoilSeen::not_looked, shipped());
  expect_open(workings);
}

TEST(TrendWorkings, LimitsAndBreakOpen) {
  const auto all = year_indices(log_of_24_years().daily, shipped());
  std::vector<int> years;
  std::vector<double> values;
  for (const YearIndices& y : all) {
    years.push_back(y.year);
    values.push_back(y.total_mm + (y.year > 2008 ? 900 : 0));
  }
  const TrendResult trend = trend_of("total", years, values, shipped());
  ASSERT_TRUE(trend.break_after_year);
  Workings workings;
  add_trend_workings(workings, trend, years, values, shipped());
  expect_open(workings);
  EXPECT_EQ(value(workings, "climate/trend/total/break_year"), *trend.break_after_year);
  EXPECT_EQ(value(workings, "climate/trend/total/slope_low"), trend.slope.low);
}

TEST(ClimateFormulas, HaveEachTheirOwnName) {
  std::set<std::string> names;
  for (const Formula& f : formulas()) EXPECT_TRUE(names.insert(f.id).second) << f.id;
}

}  // namespace
}  // namespace wildling::climate
