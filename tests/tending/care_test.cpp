#include "tending/care.hpp"

#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "base/error.hpp"
#include "invented.hpp"
#include "tending/planting_work.hpp"

namespace wildling::tending {
namespace {

std::vector<Work> works_of(const CarePlan& plan, Job job) {
  std::vector<Work> found;
  std::copy_if(plan.works.begin(), plan.works.end(), std::back_inserter(found),
               [&](const Work& work) { return work.job == job; });
  return found;
}

TEST(Rounds, BeginAsSoonAsPlantingEnds) {
  BlockCare block = invented_block();
  block.planting_last = make_date(2026, 11, 16);
  const BlockRounds r = rounds(block, 3, normals_of(kEverWet), shipped());
  EXPECT_EQ(iso_date(r.rounds.at(0).due), "2026-11-23");
  EXPECT_EQ(r.rounds[0].rule, RoundRule::after_planting);
}

TEST(Rounds, ComeSoonerWhenTheTreesPlantedFirstWouldBeOvertopped) {
  const BlockRounds r = rounds(invented_block(), 3, normals_of(kEverWet), shipped());
  EXPECT_LT(r.rounds.at(0).due, invented_block().planting_last + std::chrono::days(7));
  EXPECT_EQ(r.rounds[0].rule, RoundRule::overtopping);
}

TEST(Rounds, FallDueBeforeTheCoverIsAsHighAsTheTrees) {
  const BlockRounds r = rounds(invented_block(), 3, normals_of(kEverWet), shipped());
  for (const Round& round : r.rounds) EXPECT_LT(round.cover_m, round.tree_m) << iso_date(round.due);
}

TEST(Rounds, ComeLessOftenAsTheTreesGrow) {
  BlockCare block = invented_block();
  block.planted_by_group = {9000, 0, 0};
  const BlockRounds r = rounds(block, 3, normals_of(kEverWet), shipped());
  ASSERT_GE(r.rounds.size(), 3U);
  for (std::size_t i = 2; i < r.rounds.size(); ++i) {
    EXPECT_GE(r.rounds[i].due - r.rounds[i - 1].due, r.rounds[i - 1].due - r.rounds[i - 2].due);
  }
}

TEST(Rounds, EndWhenTheSlowestGroupStandsAboveTheCover) {
  BlockCare block = invented_block();
  block.planted_by_group = {9000, 0, 0};
  const BlockRounds r = rounds(block, 10, normals_of(kEverWet), shipped());
  ASSERT_TRUE(r.trees_free);
  for (const Round& round : r.rounds) EXPECT_LE(round.due, *r.trees_free);
}

TEST(Rounds, AreFewerWhereLessRainFalls) {
  std::array<double, 12> dry_half{};
  for (std::size_t i = 0; i < 12; ++i) dry_half[i] = kEverWet[i] / 4;
  const auto wet = rounds(invented_block(), 3, normals_of(kEverWet), shipped()).rounds.size();
  auto parameters = shipped();
  parameters.set("climate.month.dry_mm", 30, Origin::told, "",
                 "");  // so that no month is dry and only growth differs
  const auto dry = rounds(invented_block(), 3, normals_of(dry_half), parameters).rounds.size();
  EXPECT_LT(dry, wet);
}

TEST(Rounds, NeverFallIntoTheDrySeasonOrJustBeforeIt) {
  const auto normals = normals_of(kSeasonal);
  const DrySeason dry = dry_season(normals, shipped());
  EXPECT_EQ(dry.months, (std::vector<int>{6, 7, 8, 9}));
  EXPECT_EQ(dry.driest_month, 8);
  const BlockRounds r = rounds(invented_block(), 5, normals, shipped());
  for (std::size_t i = 1; i < r.rounds.size(); ++i) {
    const Date start = dry_start(dry, r.rounds[i].due);
    EXPECT_LT(r.rounds[i].due, start - std::chrono::days(30)) << iso_date(r.rounds[i].due);
  }
}

TEST(Rounds, BringOneForwardOrHoldItOverTheDrySeason) {
  const BlockRounds r = rounds(invented_block(), 3, normals_of(kSeasonal), shipped());
  const auto moved = std::count_if(r.rounds.begin(), r.rounds.end(), [](const Round& round) {
    return round.rule == RoundRule::before_dry_season ||
           round.rule == RoundRule::held_over_dry_season;
  });
  EXPECT_GE(moved, 2);
}

TEST(Rounds, DoNotRunOnTheSpotWhenTheStubbleIsAsHighAsTheTrees) {
  auto parameters = shipped();
  parameters.set("tending.cover.cut_height_m", 0.5, Origin::told, "", "");
  const BlockRounds r = rounds(invented_block(), 1, normals_of(kEverWet), parameters);
  for (std::size_t i = 1; i < r.rounds.size(); ++i) {
    EXPECT_GE(r.rounds[i].due - r.rounds[i - 1].due, std::chrono::days(28));
  }
}

TEST(Rounds, RefuseABlockWithoutTreesOrArea) {
  BlockCare block = invented_block();
  block.area_ha = 0;
  EXPECT_THROW(rounds(block, 3, normals_of(kEverWet), shipped()), Error);
  block = invented_block();
  block.planted_by_group = {};
  EXPECT_THROW(rounds(block, 3, normals_of(kEverWet), shipped()), Error);
}

TEST(DrySeason, GoesAcrossNewYear) {
  std::array<double, 12> rain{};
  rain.fill(200);
  rain[10] = rain[11] = rain[0] = 50;
  const DrySeason dry = dry_season(normals_of(rain), shipped());
  EXPECT_EQ(dry.months, (std::vector<int>{11, 12, 1}));
  EXPECT_EQ(iso_date(dry_start(dry, make_date(2027, 1, 15))), "2026-11-01");
  EXPECT_EQ(iso_date(dry_end(dry, make_date(2026, 11, 1))), "2027-02-01");
}

TEST(Care, CutsRingsInGrassAndPressesBetweenThemOnceAYear) {
  const CarePlan plan = care(std::vector{invented_block()}, 3, normals_of(kEverWet), shipped());
  EXPECT_GE(works_of(plan, Job::ring).size(), 4U);
  EXPECT_EQ(works_of(plan, Job::pressing).size(), 2U);  // no round is left in the third year
}

TEST(Care, PressesWithTheLastRoundBeforeTheDrySeason) {
  const CarePlan plan = care(std::vector{invented_block()}, 3, normals_of(kSeasonal), shipped());
  const auto pressings = works_of(plan, Job::pressing);
  ASSERT_EQ(pressings.size(), 2U);
  EXPECT_EQ(iso_date(pressings[0].due), "2027-04-30");
  EXPECT_EQ(iso_date(pressings[1].due), "2028-05-01");
}

TEST(Care, ClearsWhatStandsBeforePlantingAndNothingOnClearedGround) {
  BlockCare block = invented_block();
  const CarePlan grass = care(std::vector{block}, 1, normals_of(kEverWet), shipped());
  ASSERT_EQ(works_of(grass, Job::clear).size(), 1U);
  EXPECT_LT(works_of(grass, Job::clear)[0].due, block.planting_first);
  EXPECT_NEAR(works_of(grass, Job::clear)[0].quantity, works_of(grass, Job::ring)[0].quantity,
              1e-9);
  block.cover = ground::Cover::cleared;
  EXPECT_TRUE(
      works_of(care(std::vector{block}, 1, normals_of(kEverWet), shipped()), Job::clear).empty());
}

TEST(Care, TreatsWholeGroundWhereRingsWouldMeet) {
  BlockCare block = invented_block();
  block.cover = ground::Cover::tussock_grass;
  block.planted_by_group = {100000, 0, 0};
  const CarePlan plan = care(std::vector{block}, 1, normals_of(kEverWet), shipped());
  EXPECT_TRUE(works_of(plan, Job::ring).empty());
  EXPECT_FALSE(works_of(plan, Job::whole).empty());
}

TEST(Care, HasOneFirebreakAYearReadyBeforeTheDrySeason) {
  const CarePlan plan = care(std::vector{invented_block()}, 3, normals_of(kSeasonal), shipped());
  const auto breaks = works_of(plan, Job::firebreak);
  ASSERT_EQ(breaks.size(), 3U);
  EXPECT_EQ(iso_date(breaks[0].due), "2027-05-18");           // two weeks before June
  EXPECT_NEAR(breaks[0].days.used, 1300 * 10 / 300.0, 1e-9);  // metres x width over the slash rate
}

TEST(Care, GivesNoFirebreakADateWithoutRainFigures) {
  const CarePlan plan = care(std::vector{invented_block()}, 3, {}, shipped());
  EXPECT_TRUE(works_of(plan, Job::firebreak).empty());
  EXPECT_TRUE(std::any_of(plan.notes.begin(), plan.notes.end(), [](const Message& m) {
    return m.key == "tending.note.no_rain_figures";
  }));
}

TEST(PlantingWeeks, HoldAllPersonDaysOfCarryingAndPlanting) {
  const std::vector blocks = {invented_block("B1"), invented_block("B2")};
  const CarePlan plan = care(blocks, 3, normals_of(kEverWet), shipped());
  double weeks = 0;
  for (const PlantingWeek& week : plan.weeks) weeks += week.person_days;
  EXPECT_NEAR(weeks, plan.by_job.at("carry").days.used + plan.by_job.at("plant").days.used, 1e-6);
  EXPECT_EQ(plan.weeks.size(), 4U);
}

// By hand: November, 17.3 rain days of 30, 0.3 of them lost: 7 days x 6/7 x (1 - 0.3 x 17.33/30)
// = 4.96 days.
TEST(WorkingDays, AreWhatAHandCalculationGives) {
  EXPECT_NEAR(working_days(make_date(2026, 11, 10), make_date(2026, 11, 16), normals_of(kEverWet),
                           shipped()),
              6 * (1 - 0.3 * (260.0 / 15) / 30), 1e-9);
}

// By hand: 13,700 trees; planting 137 person-days and a fifteenth more for distributors; 13,700 x
// 0.84 / 20 = 575.4 carries, 10 a day: 57.54.
TEST(PlantingWorks, AreWhatAHandCalculationGives) {
  const auto works = planting_works(invented_block(), shipped());
  EXPECT_NEAR(works[3].days.used, 137 * (1 + 1.0 / 15), 1e-9);
  EXPECT_NEAR(works[2].days.used, 57.54, 1e-9);
  EXPECT_NEAR(works[1].days.used, 13700 / 50.0, 1e-9);
}

TEST(PlantingWorks, TakeLongerOnASlope) {
  BlockCare steep = invented_block();
  steep.slope_deg = 30;
  EXPECT_NEAR(planting_works(steep, shipped())[3].days.used /
                  planting_works(invented_block(), shipped())[3].days.used,
              1.3, 1e-12);
}

}  // namespace
}  // namespace wildling::tending
