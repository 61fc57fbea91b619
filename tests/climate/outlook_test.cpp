#include "climate/outlook.hpp"

#include <cmath>
#include <limits>

#include <gtest/gtest.h>

#include "base/random.hpp"
#include "climate/outlook_runs.hpp"
#include "climate/verdict.hpp"

namespace wildling::climate {
namespace {

const Parameters& shipped() {
  static const Parameters parameters = Parameters::shipped();
  return parameters;
}

// Invented: showers, none in July and August of even years.
WeatherBook invented(int years, bool with_dry_season = true) {
  WeatherBook book;
  book.daily.first = make_date(2008, 1, 1);
  Stream luck(Seed{9}, Purpose{"outlook test"}, 0);
  for (Date d = book.daily.first; d < make_date(2008 + years, 1, 1); d += std::chrono::days(1)) {
    const bool dry =
        with_dry_season && year_of(d) % 2 == 0 && (month_of(d) == 7 || month_of(d) == 8);
    const bool wet = luck.uniform() < 0.45;
    book.daily.rain_mm.push_back(wet && !dry ? 2 + 15 * luck.gamma(0.8) : 0);
  }
  return book;
}

TEST(Outlook, CountsPastYearsFromTodaysSoil) {
  const WeatherBook book = invented(11);
  const Outlook june =
      planting_outlook(book, make_date(2018, 6, 15), SoilSeen::not_looked, {}, shipped());
  ASSERT_FALSE(june.refused);
  EXPECT_EQ(june.delays[0].judged, 10);
  for (const int year : june.delays[0].bad_years) EXPECT_EQ(year % 2, 0);
  EXPECT_EQ(june.delays[0].bad_years.size(), 5U);
}

TEST(Outlook, UsesOnlyTheDaysBeforeToday) {
  WeatherBook book = invented(11);
  const auto before =
      planting_outlook(book, make_date(2014, 3, 1), SoilSeen::not_looked, {}, shipped());
  for (std::size_t i = *book.daily.index(make_date(2014, 3, 2)); i < book.daily.days(); ++i)
    book.daily.rain_mm[i] = 0;
  const auto after =
      planting_outlook(book, make_date(2014, 3, 1), SoilSeen::not_looked, {}, shipped());
  EXPECT_EQ(before.delays[0].good_years, after.delays[0].good_years);
  EXPECT_EQ(before.delays[3].judged, after.delays[3].judged);
}

TEST(Outlook, TheSpadeOverridesTheBalance) {
  const WeatherBook book = invented(6);
  const Date day = make_date(2012, 8, 20);
  const auto dry = planting_outlook(book, day, SoilSeen::dry, {}, shipped());
  const auto moist = planting_outlook(book, day, SoilSeen::moist_to_bottom, {}, shipped());
  EXPECT_LE(dry.hole_mm, 0.2 * dry.hole_holds_mm + 1e-9);
  EXPECT_GE(moist.hole_mm, 0.8 * moist.hole_holds_mm - 1e-9);
}

TEST(Outlook, RefusesALogThatEndedLongAgo) {
  const Outlook o =
      planting_outlook(invented(3), make_date(2011, 3, 15), SoilSeen::not_looked, {}, shipped());
  ASSERT_TRUE(o.refused);
  EXPECT_EQ(o.first_line.key, "climate.log_old");
}

TEST(Outlook, SimulatedContinuationsAreRepeatable) {
  const WeatherBook book = invented(6);
  const OutlookSettings settings{{0, 7}, 50, Seed{4}};
  const auto a =
      planting_outlook(book, make_date(2013, 12, 31), SoilSeen::not_looked, settings, shipped());
  const auto b =
      planting_outlook(book, make_date(2013, 12, 31), SoilSeen::not_looked, settings, shipped());
  EXPECT_EQ(a.delays[0].simulated, 50);
  EXPECT_EQ(a.delays[1].simulated_good, b.delays[1].simulated_good);
}

TEST(Outlook, ARunThatBeganBeforePlantingCountsFromPlanting) {
  const WeatherBook book = invented(2);
  const detail::RunLog log = detail::run_log(book, shipped());
  std::vector<double> rain(80, 0.0), et0(80, 5.0);
  for (std::size_t i = 24; i < 80; ++i) rain[i] = 20;
  const std::vector<int> delays = {0, 20};
  const auto good = detail::good_after({0, 0}, rain, et0, delays, log);
  EXPECT_EQ(good[0], 0);  // 24 dry days from the start
  EXPECT_EQ(good[1], 1);  // only four dry days after planting on day 20
}

TEST(Hindcast, TellsMoreThanTheSeasonWhenTheSoilDecides) {
  const Hindcast h = hindcast(invented(20), shipped());
  ASSERT_FALSE(h.refused);
  EXPECT_GT(h.days.size(), 300U);
  int total = 0;
  for (const ReliabilityBin& bin : h.reliability) total += bin.days;
  EXPECT_EQ(total, static_cast<int>(h.days.size()));
}

TEST(Hindcast, IsPerfectWithoutSkillWhereItRainsEveryDay) {
  WeatherBook book = invented(8);
  for (double& mm : book.daily.rain_mm) mm = 8;
  const Hindcast h = hindcast(book, shipped());
  ASSERT_FALSE(h.refused);
  EXPECT_EQ(h.brier, 0);
  EXPECT_EQ(h.skill, 0);
  EXPECT_EQ(h.first_line.key, "climate.hindcast_none");
}

// Brier score by hand from the stored days.
TEST(Hindcast, BrierAndSkillAreThoseOfItsDays) {
  const Hindcast h = hindcast(invented(12), shipped());
  double brier = 0, usual = 0;
  for (const HindcastDay& d : h.days) {
    brier += std::pow(d.forecast - (d.good ? 1 : 0), 2) / static_cast<double>(h.days.size());
    usual += std::pow(d.usual - (d.good ? 1 : 0), 2) / static_cast<double>(h.days.size());
  }
  EXPECT_NEAR(h.brier, brier, 1e-12);
  EXPECT_NEAR(h.skill, 1 - brier / usual, 1e-9);
}

TEST(Hindcast, IsRefusedOnTwoYears) {
  EXPECT_TRUE(hindcast(invented(2), shipped()).refused);
}

PlantingGate open_gate() {
  return {true, true, true, true, true, true, true, SoilSeen::moist_to_bottom, false, {}, {}};
}

Outlook good_outlook() {
  Outlook o;
  o.today = make_date(2026, 11, 25);
  o.delays = {{0, 9, 10, {}, {}, 0, 0, 0, 0}};
  return o;
}

TEST(Verdict, PlantsOnlyWhenEveryGateIsOpen) {
  EXPECT_EQ(planting_advice(open_gate(), good_outlook(), {}, shipped()).verdict,
            PlantVerdict::plant);
  PlantingGate gate = open_gate();
  gate.consent.reset();
  const PlantingAdvice advice = planting_advice(gate, good_outlook(), {}, shipped());
  EXPECT_EQ(advice.verdict, PlantVerdict::wait);
  EXPECT_EQ(advice.reasons.front().key, "climate.gate_consent");
  EXPECT_FALSE(advice.stock.empty());
}

TEST(Verdict, DrySoilUnderTheHandWaitsWhateverTheYearsSay) {
  PlantingGate gate = open_gate();
  gate.soil = SoilSeen::dry;
  EXPECT_EQ(planting_advice(gate, good_outlook(), {}, shipped()).verdict, PlantVerdict::wait);
}

TEST(Verdict, FarFromTheWindowIsNotThisSeason) {
  PlantingWindow window;
  window.found = true;
  window.first_period = 12;
  window.last_period = 16;
  PlantingGate gate = open_gate();
  gate.soil = SoilSeen::dry;
  EXPECT_EQ(planting_advice(gate, good_outlook(), window, shipped()).verdict,
            PlantVerdict::not_this_season);
}

TEST(Verdict, PeatWithoutAReadingGetsNoAdvice) {
  PlantingGate gate = open_gate();
  gate.peat_or_flooded = true;
  EXPECT_EQ(planting_advice(gate, good_outlook(), {}, shipped()).verdict, PlantVerdict::no_advice);
  gate.water_falling = true;
  gate.rewetted = false;
  EXPECT_EQ(planting_advice(gate, good_outlook(), {}, shipped()).verdict, PlantVerdict::wait);
}

TEST(KinderHours, AreInsideTheSafeHoursAndLateAfternoonStrainsLess) {
  const KinderHours k = kinder_hours(day_hours(33, 23, 2.7, 1, 100, shipped()), shipped());
  EXPECT_EQ(k.hours.front().hour, 7);
  EXPECT_EQ(k.best_hour, 15);
  EXPECT_LT(k.best_over_worst, 1);
}

}  // namespace
}  // namespace wildling::climate
