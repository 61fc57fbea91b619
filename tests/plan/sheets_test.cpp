#include <cmath>
#include <numeric>

#include <gtest/gtest.h>

#include "base/words.hpp"
#include "plan/fill_sheets.hpp"
#include "plan/letter.hpp"
#include "small_plan.hpp"

namespace wildling::plan {
namespace {

CrewSheets small_sheets() {
  return crew_sheets(small_plan(), Parameters::shipped());
}

bool has(const CrewSheet& sheet, Hazard hazard) {
  return std::find(sheet.hazards.begin(), sheet.hazards.end(), hazard) != sheet.hazards.end();
}

TEST(CrewSheets, RowsOfAnOpenBlockSumToItsSeedlings) {
  const PlanResult plan = small_plan();
  const CrewSheets sheets = small_sheets();
  for (const std::size_t b : {0U, 1U}) {
    std::int64_t sum = 0;
    for (const SheetRow& row : sheets.blocks[b].rows) sum += row.count;
    EXPECT_EQ(sum, plan.blocks[b].planted);
    EXPECT_GT(sum, 0);
  }
}

TEST(CrewSheets, OrderOfARowHoldsAsManyOfEachSpeciesAsItsCounts) {
  const CrewSheets sheets = small_sheets();
  for (const SheetRow& row : sheets.blocks[0].rows) {
    for (std::size_t s = 0; s < row.species_counts.size(); ++s)
      EXPECT_EQ(std::count(row.species_order.begin(), row.species_order.end(), s),
                row.species_counts[s]);
  }
}

TEST(CrewSheets, RowCountsOfASpeciesSumToWhatTheSheetSaysToPlant) {
  const CrewSheet sheet = small_sheets().blocks[0];
  for (std::size_t s = 0; s < sheet.species.size(); ++s) {
    const int sum = std::accumulate(
        sheet.rows.begin(), sheet.rows.end(), 0,
        [&](int so_far, const SheetRow& row) { return so_far + row.species_counts[s]; });
    EXPECT_EQ(sum, sheet.species[s].to_plant);
  }
}

TEST(CrewSheets, LargeBlockPrintsCountsInsteadOfTheOrder) {
  PlanResult plan = small_plan();
  plan.blocks[0].area_ha = kOrderMostHa + 1;
  const CrewSheet sheet = crew_sheets(plan, Parameters::shipped()).blocks[0];
  for (const SheetRow& row : sheet.rows) {
    EXPECT_TRUE(row.species_order.empty());
    EXPECT_FALSE(row.species_counts.empty());
  }
}

TEST(CrewSheets, BlockOnHoldIsADraftWithoutRowsOrSpecies) {
  const CrewSheet sheet = small_sheets().blocks.at(2);
  EXPECT_EQ(sheet.block_code, "B3");
  EXPECT_FALSE(sheet.gates.open);
  EXPECT_FALSE(sheet.gates.reasons.empty());
  EXPECT_TRUE(sheet.rows.empty());
  EXPECT_TRUE(sheet.species.empty());
}

TEST(CrewSheets, OpenBlockWithNothingToPlantHasNoSheet) {
  PlanResult plan = small_plan();
  plan.blocks[1].planted = 0;
  const CrewSheets sheets = crew_sheets(plan, Parameters::shipped());
  EXPECT_EQ(sheets.blocks.size(), 2U);
}

TEST(CrewSheets, SpeciesHasTheSameCodeOnEverySheetAndUnplantedOnesHaveNone) {
  const CrewSheets sheets = small_sheets();
  ASSERT_EQ(sheets.blocks[0].species.size(), 4U);
  for (std::size_t s = 0; s < 4; ++s) {
    EXPECT_EQ(sheets.blocks[0].species[s].code, sheets.blocks[1].species[s].code);
    EXPECT_NE(sheets.blocks[0].species[s].scientific_name, five_species()[0].name);
  }
}

TEST(CrewSheets, SparesAreRoundedUp) {
  Parameters parameters = Parameters::shipped();
  parameters.set("plan.spares_share", 0.1, Origin::chosen, "test", "");
  const CrewSheets sheets = crew_sheets(small_plan(), parameters);
  for (const SheetSpecies& species : sheets.blocks[0].species)
    EXPECT_EQ(species.to_load, species.to_plant + (species.to_plant + 9) / 10);
}

TEST(CrewSheets, PersonDaysAreThoseOfPitsAndPlanting) {
  EXPECT_DOUBLE_EQ(small_sheets().blocks[0].person_days.value(), 27);
  EXPECT_FALSE(small_sheets().blocks[1].person_days.has_value());
}

TEST(CrewSheets, SteepBlockBesideWaterWarnsOfBothAndTheOtherOfNeither) {
  const CrewSheets sheets = small_sheets();
  EXPECT_TRUE(has(sheets.blocks[0], Hazard::slope));
  EXPECT_TRUE(has(sheets.blocks[0], Hazard::water));
  EXPECT_FALSE(has(sheets.blocks[1], Hazard::slope));
  EXPECT_FALSE(has(sheets.blocks[1], Hazard::water));
}

TEST(CrewSheets, TapeAndCompassFromThePegsLeadToTheFirstPlace) {
  const CrewSheet sheet = small_sheets().blocks[1];
  const auto east = [](double deg) { return std::sin(deg * M_PI / 180); };
  const auto north = [](double deg) { return std::cos(deg * M_PI / 180); };
  const SheetBaseline& line = sheet.baseline;
  for (const SheetRow& row : sheet.rows) {
    const double x = line.a.at.x_m + row.tape_m * east(line.bearing_deg) +
                     row.first_plant_m * east(line.row_bearing_deg);
    const double y = line.a.at.y_m + row.tape_m * north(line.bearing_deg) +
                     row.first_plant_m * north(line.row_bearing_deg);
    EXPECT_NEAR(x, row.start.x_m, 0.02);
    EXPECT_NEAR(y, row.start.y_m, 0.02);
  }
}

TEST(CrewSheets, GiveNoCompassBearingUntilTheDeclinationIsTold) {
  EXPECT_FALSE(small_sheets().blocks[0].baseline.magnetic_bearing_deg);
}

TEST(CrewSheets, TurnTheCompassBearingByTheDeclinationThatWasTold) {
  Parameters parameters = Parameters::shipped();
  parameters.set("plan.declination_deg", 2.5, Origin::told, "margin of the 2025 map", "");
  const SheetBaseline line = crew_sheets(small_plan(), parameters).blocks[0].baseline;
  ASSERT_TRUE(line.magnetic_bearing_deg);
  EXPECT_NEAR(std::fmod(line.bearing_deg - *line.magnetic_bearing_deg + 360, 360), 2.5, 1e-9);
}

TEST(CrewSheets, BlockWhoseOutlineChangedAfterThePlanIsRefused) {
  PlanResult plan = small_plan();
  plan.blocks[0].block.shape.parts[0].outer[1].lon_deg += 0.0001;
  EXPECT_THROW(crew_sheets(plan, Parameters::shipped()), Error);
}

TEST(RainSheet, IsForTheMonthAfterThePlanAlsoAcrossTheYear) {
  const RainSheet sheet = rain_sheet(small_plan());
  EXPECT_EQ(sheet.year, 2027);
  EXPECT_EQ(sheet.month, 1U);
}

TEST(MapPicture, HasAPointForEverySeedlingOfOpenBlocksAndHatchesTheOthers) {
  const PlanResult plan = small_plan();
  const MapPicture map = map_picture(plan);
  EXPECT_EQ(static_cast<std::int64_t>(map.blocks[0].seedling_x_m.size()), plan.blocks[0].planted);
  EXPECT_FALSE(map.blocks[0].draft);
  EXPECT_TRUE(map.blocks[2].draft);
  EXPECT_TRUE(map.blocks[2].seedling_x_m.empty());
}

TEST(MapPicture, SitesStandAsFarApartAsOnTheGround) {
  const PlanResult plan = small_plan();
  const MapPicture map = map_picture(plan);
  const SheetXy a = map.blocks[0].shape[0].outer[0], b = map.blocks[2].shape[0].outer[0];
  const double ground = ground::distance_m(plan.blocks[0].block.shape.parts[0].outer[0],
                                           plan.blocks[2].block.shape.parts[0].outer[0]);
  EXPECT_NEAR(std::hypot(a.x_m - b.x_m, a.y_m - b.y_m), ground, 0.01);
}

TEST(SummaryPage, NamesTheBlockOnHoldWithItsSite) {
  const SummaryPage page = summary_page(small_plan());
  ASSERT_EQ(page.on_hold.size(), 1U);
  EXPECT_EQ(page.on_hold[0].block_code, "B3 (West)");
  EXPECT_FALSE(page.on_hold[0].reasons.empty());
}

TEST(SummaryPage, BeginsWithTheAnswerOfTheLetter) {
  EXPECT_EQ(summary_page(small_plan()).answer, answer(small_plan()));
}

TEST(SummaryPage, SaysHowManyAssumptionsAreLeftOut) {
  PlanResult plan = small_plan();
  plan.mix_notes.assign(9, say("plan.note"));
  const SummaryPage page = summary_page(plan);
  EXPECT_EQ(page.assumed.back(), say("plan.sheet.more_sentences", {{"count", std::int64_t{8}}}));
}

TEST(SummaryPage, ActsAreThreeAndCarryTheirDay) {
  const SummaryPage page = summary_page(small_plan());
  ASSERT_EQ(page.next_acts.size(), 3U);
  for (const NextAct& act : page.next_acts) {
    EXPECT_FALSE(act.day) << "the sentence names the day itself";
    EXPECT_EQ(act.what.arguments.count("day"), 1U);
  }
}

}  // namespace
}  // namespace wildling::plan
