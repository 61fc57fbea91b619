// What a station book does to the sums: readings over several days, 29 February, months and whole
// logs without rain, ground where the balance is off.
#include <cmath>

#include <gtest/gtest.h>

#include "climate/day_workings.hpp"
#include "climate/drought.hpp"
#include "climate/fire.hpp"
#include "climate/generator.hpp"
#include "climate/heat.hpp"
#include "climate/indices.hpp"
#include "climate/normals.hpp"
#include "climate/outlook.hpp"
#include "climate/season.hpp"
#include "climate/survival_fit.hpp"
#include "climate/verdict.hpp"
#include "invented_log.hpp"

namespace wildling::climate {
namespace {

const Parameters& shipped() {
  static const Parameters parameters = Parameters::shipped();
  return parameters;
}

WeatherBook with_total(std::size_t first, std::size_t last, double mm) {
  WeatherBook book = invented_log(3);
  for (std::size_t i = first; i <= last; ++i) book.daily.rain_mm[i] = std::nan("");
  book.daily.totals.push_back({book.daily.day(first), book.daily.day(last), mm});
  return book;
}

TEST(ReadingOverSeveralDays, CountsWholeInItsYear) {
  const WeatherBook book = with_total(100, 102, 41);
  const YearIndices year = year_indices(book.daily, shipped()).front();
  double days = 0;
  for (std::size_t i = 0; i < 365; ++i)
    days += std::isnan(book.daily.rain_mm[i]) ? 0 : book.daily.rain_mm[i];
  EXPECT_DOUBLE_EQ(year.total_mm, days + 41);
  EXPECT_EQ(year.days_in_totals, 3);
}

TEST(ReadingOverSeveralDays, LetsTheTotalBeJudgedButNotTheSpells) {
  WeatherBook book = invented_log(1);
  for (std::size_t week = 0; week < 50; ++week) {
    for (const std::size_t day : {7 * week + 5, 7 * week + 6})
      book.daily.rain_mm[day] = std::nan("");
    book.daily.totals.push_back({book.daily.day(7 * week + 5), book.daily.day(7 * week + 6), 12});
  }
  const YearIndices year = year_indices(book.daily, shipped()).front();
  EXPECT_TRUE(year.total_judged);
  EXPECT_FALSE(year.judged);
}

TEST(ReadingOverSeveralDays, OverNewYearBelongsToNoYear) {
  const WeatherBook book = with_total(363, 366, 80);
  const auto years = year_indices(book.daily, shipped());
  EXPECT_EQ(years[0].totals_mm + years[1].totals_mm, 0);
  EXPECT_GE(years[0].missing_days, 2);
}

// 41 mm in three days: one of them had at least 13.7 mm, at the earliest the first.
TEST(ReadingOverSeveralDays, TellsTheDaysSinceUsefulRainFromItsFirstDay) {
  WeatherBook book = with_total(100, 102, 41);
  for (std::size_t i = 103; i < 110; ++i) book.daily.rain_mm[i] = 0;
  const SinceRain since = days_since_rain(book.daily, book.daily.day(109), 5);
  EXPECT_EQ(since.days, 9);
  EXPECT_TRUE(since.gap_met);
}

TEST(ReadingOverSeveralDays, OfLittleRainIsNoUsefulRain) {
  WeatherBook book = with_total(100, 102, 6);
  book.daily.rain_mm[99] = 30;
  for (std::size_t i = 103; i < 110; ++i) book.daily.rain_mm[i] = 0;
  EXPECT_EQ(days_since_rain(book.daily, book.daily.day(109), 5).days, 10);
}

TEST(LeapDay, IsLaidBesideThe28thOfOtherYears) {
  const WeatherBook book = invented_log(9);
  const Outlook outlook =
      planting_outlook(book, make_date(2000, 2, 29), SoilSeen::not_looked, {}, shipped());
  EXPECT_EQ(outlook.delays.front().judged, 5);
}

TEST(LeapDay, IsADayOfItsYearsFigures) {
  WeatherBook book = invented_log(2);
  book.daily.first = make_date(1996, 1, 1);  // 731 days: 1996 whole, 1997 whole
  book.daily.rain_mm.assign(731, 0);
  book.daily.rain_mm[59] = 77;
  const auto years = year_indices(book.daily, shipped());
  EXPECT_EQ(years[0].rx1day, make_date(1996, 2, 29));
  EXPECT_EQ(years[0].missing_days, 0);
  EXPECT_EQ(years[1].missing_days, 0);
}

TEST(RainlessLog, NothingBreaksAndNothingIsMadeUp) {
  WeatherBook book = invented_log(24);
  for (double& mm : book.daily.rain_mm) mm = 0;
  EXPECT_FALSE(seasons(book, shipped()).season_told);
  EXPECT_FALSE(fit_weather(book.daily, shipped()).model);
  const DroughtResult result = drought(book, 3, shipped());
  EXPECT_FALSE(newest_month(result.spi));
  EXPECT_TRUE(newest_month(result.spei));
  EXPECT_EQ(year_indices(book.daily, shipped()).front().total_mm, 0);
  for (const TrendResult& t : trends(year_indices(book.daily, shipped()), shipped()))
    EXPECT_FALSE(std::isnan(t.p)) << t.what;
  const Outlook outlook =
      planting_outlook(book, book.daily.last(), SoilSeen::not_looked, {}, shipped());
  EXPECT_EQ(outlook.delays.front().good, 0);
  EXPECT_GT(outlook.delays.front().judged, 20);
}

TEST(DroughtIndex, OfSeveralScalesIsThatOfEach) {
  const WeatherBook book = invented_log(22);
  const std::array<int, 2> scales = {3, 12};
  const auto all = droughts(book, scales, shipped());
  for (const DroughtResult& one : all) {
    const DroughtResult alone = drought(book, one.scale, shipped());
    EXPECT_EQ(one.spi.back(), alone.spi.back());
    EXPECT_EQ(one.spei.back(), alone.spei.back());
  }
}

TEST(Season, OnsetsByFourDefinitionsStandSideBySide) {
  const SeasonResult season = seasons(invented_log(10), shipped());
  ASSERT_TRUE(season.season_told);
  for (const OnsetSpread& spread : season.spread) {
    EXPECT_GE(spread.years, 8);
    EXPECT_LE(spread.earliest, spread.middle);
    EXPECT_LE(spread.middle, spread.latest);
  }
}

PlantingGate wet_gate() {
  PlantingGate gate{true, true, true, true, {}, {}, true, SoilSeen::not_looked, true, true, true};
  return gate;
}

TEST(WetGround, GoesByTheWaterAloneAndNamesNoPastYears) {
  Outlook outlook;
  outlook.today = make_date(2026, 1, 5);
  outlook.delays = {{0, 1, 10, {}, {}, 0, 0, 0, 0}};  // dry years: no matter here
  const PlantingAdvice advice = planting_advice(wet_gate(), outlook, {}, shipped());
  EXPECT_EQ(advice.verdict, PlantVerdict::plant);
  EXPECT_EQ(advice.first_line.key, "climate.verdict_plant_water");
}

TEST(WetGround, IsAdvisedWithoutALog) {
  Outlook outlook;
  outlook.refused = say("climate.no_reading");
  EXPECT_EQ(planting_advice(wet_gate(), outlook, {}, shipped()).verdict, PlantVerdict::plant);
}

TEST(HeatSteps, AreTheSharesOfTheFitStretch) {
  const DayHours hours = day_hours(29, 21, 2.4, 0, 80, shipped());
  const HeatPlan plan = heat_plan(hours, 2.4, true, {}, shipped());
  ASSERT_TRUE(plan.start_hour);
  const double stretch = *plan.finish_hour - *plan.start_hour;
  EXPECT_DOUBLE_EQ(plan.steps[0].new_hours, 0.2 * stretch);
  EXPECT_DOUBLE_EQ(plan.steps[0].returning_hours, 0.5 * stretch);
  EXPECT_DOUBLE_EQ(plan.steps[4].new_hours, stretch);
}

TEST(UsualHeat, IsExceededOnOneDayInTen) {
  const WeatherBook book = invented_log(3);
  const double usual = *usual_worst_wbgt_c(book, shipped());
  int above = 0, days = 0;
  for (std::size_t i = 0; i < book.daily.days(); ++i) {
    const auto air = day_air(book, book.daily.day(i), shipped());
    const HeatPlan plan =
        heat_plan(day_hours(*air, shipped()), air->et0.ea_kpa, true, usual, shipped());
    above += plan.worse_than_usual ? 1 : 0;
    ++days;
  }
  EXPECT_NEAR(above, days / 10.0, 2);
}

std::vector<PlantingCount> counts(const WeatherBook& book, double lost_in_a_spell) {
  std::vector<PlantingCount> all;
  const auto result = survival_fit(book, {}, shipped());
  EXPECT_FALSE(result.fits);
  for (int k = 0; k < 60; ++k) {
    const Date planted = book.daily.first + std::chrono::days(60 + 29 * k);
    const bool spared = survival_fit(book, {{planted, 100, 50}}, shipped()).spared.plantings == 1;
    const int base = 88 + k % 5;
    all.push_back({planted, 100, spared ? base : static_cast<int>(base * (1 - lost_in_a_spell))});
  }
  return all;
}

TEST(SurvivalFit, LetsTheChanceBeCalledOneOfSurvivalWhenTheCountsBearItOut) {
  const WeatherBook book = invented_log(6);
  const SurvivalFit fit = survival_fit(book, counts(book, 0.4), shipped());
  ASSERT_GE(fit.met.plantings, 5);
  EXPECT_TRUE(fit.fits);
  EXPECT_NEAR(fit.difference, 0.36, 0.03);
  EXPECT_NEAR(expected_alive(fit, 1), fit.spared.mean_share, 1e-12);
  EXPECT_NEAR(expected_alive(fit, 0), fit.met.mean_share, 1e-12);
}

TEST(SurvivalFit, StaysAChanceOfWeatherWhenTheCountsDoNot) {
  const WeatherBook book = invented_log(6);
  EXPECT_FALSE(survival_fit(book, counts(book, 0), shipped()).fits);
}

TEST(SurvivalFit, IsRefusedOnAFewPlantings) {
  const WeatherBook book = invented_log(6);
  const SurvivalFit fit = survival_fit(
      book, {{make_date(1996, 1, 10), 100, 90}, {make_date(1980, 1, 1), 9, 9}}, shipped());
  EXPECT_FALSE(fit.fits);
  EXPECT_EQ(fit.not_judged, 1);
  EXPECT_EQ(fit.first_line.key, "climate.survival_few");
}

}  // namespace
}  // namespace wildling::climate
