#include "tending/smother.hpp"

#include <gtest/gtest.h>

#include "base/error.hpp"
#include "invented.hpp"

namespace wildling::tending {
namespace {

const Date kToday = make_date(2027, 3, 1);

WalkLine walk_of(std::string block, double cover_m, Date day = make_date(2027, 2, 27)) {
  WalkLine walk;
  walk.block = std::move(block);
  walk.day = day;
  walk.cover_m = cover_m;
  return walk;
}

std::vector<DueLine> list_of(const std::vector<BlockCare>& blocks,
                             const std::vector<WalkLine>& walks, Date today = kToday,
                             const std::array<double, 12>& rain = kEverWet) {
  const std::vector<double> alive(blocks.size(), 0.8);
  return due_list(blocks, alive, walks, today, normals_of(rain), shipped());
}

TEST(ShareBelow, IsHalfAtTheMeanAndGrowsWithTheHeight) {
  EXPECT_NEAR(share_below(1, 1, 0.3), 0.5, 1e-12);
  EXPECT_NEAR(share_below(1.3, 1, 0.3), 0.8413447, 1e-6);  // one standard deviation of the normal
  EXPECT_LT(share_below(0.5, 1, 0.3), 0.05);
}

TEST(DueList, PutsTheBlockWithMostTreesAtRiskPerPersonDayFirst) {
  const auto lines = list_of({invented_block("low"), invented_block("high")},
                             {walk_of("low", 0.15), walk_of("high", 0.9)});
  EXPECT_EQ(lines[0].block, "high");
  EXPECT_GT(lines[0].trees_at_risk, lines[1].trees_at_risk);
  EXPECT_GE(lines[0].at_risk_per_day, lines[1].at_risk_per_day);
}

TEST(DueList, PrefersTheCheaperOfTwoEquallyThreatenedBlocks) {
  BlockCare steep = invented_block("steep");
  steep.slope_deg = 40;
  const auto lines =
      list_of({steep, invented_block("flat")}, {walk_of("steep", 0.7), walk_of("flat", 0.7)});
  EXPECT_EQ(lines[0].block, "flat");
  EXPECT_DOUBLE_EQ(lines[0].trees_at_risk, lines[1].trees_at_risk);
}

TEST(DueList, CallsABlockOverdueOnceTheCoverIsAsHighAsTheTrees) {
  EXPECT_EQ(list_of({invented_block()}, {walk_of("B1", 1.2)})[0].urgency, Urgency::overdue);
}

TEST(DueList, ComesNearerAsTheCoverIsHigher) {
  Date last = make_date(2030, 1, 1);
  for (const double cover : {0.12, 0.2, 0.3, 0.4}) {
    const auto line = list_of({invented_block()}, {walk_of("B1", cover)})[0];
    ASSERT_TRUE(line.due);
    EXPECT_LT(*line.due, last);
    last = *line.due;
  }
}

TEST(DueList, CannotTellWithoutAWalkOrWithAnOldOne) {
  const auto lines = list_of({invented_block("B1"), invented_block("B2")},
                             {walk_of("B2", 0.9, make_date(2027, 2, 1))});
  for (const DueLine& line : lines) {
    EXPECT_EQ(line.urgency, Urgency::cannot_tell);
    EXPECT_EQ(line.notes.size(), 1U);
  }
}

TEST(DueList, UsesTheLastWalk) {
  const auto lines =
      list_of({invented_block()}, {walk_of("B1", 1.2, make_date(2027, 2, 20)), walk_of("B1", 0.1)});
  EXPECT_NE(lines[0].urgency, Urgency::overdue);
}

TEST(DueList, IsDueAtOnceWhenTreesAreClimbed) {
  WalkLine walk = walk_of("B1", 0.1);
  walk.climbed_share = 0.3;
  const auto line = list_of({invented_block()}, {walk})[0];
  EXPECT_EQ(line.urgency, Urgency::overdue);
  EXPECT_GE(line.trees_at_risk, 0.3 * 0.8 * 13700 - 1e-6);
}

TEST(DueList, PressesInsteadOfCuttingInTheDrySeason) {
  const Date today = make_date(2027, 7, 1);
  const auto line = list_of({invented_block()}, {walk_of("B1", 0.9, make_date(2027, 6, 28))}, today,
                            kSeasonal)[0];
  EXPECT_TRUE(line.press_only);
  EXPECT_EQ(line.job, Job::pressing);
}

TEST(DueList, NeverHasMoreTreesAtRiskThanLive) {
  EXPECT_LE(list_of({invented_block()}, {walk_of("B1", 9)})[0].trees_at_risk, 0.8 * 13700 + 1e-9);
}

TEST(DueList, RefusesAWalkThatCannotBe) {
  EXPECT_THROW(list_of({invented_block()}, {walk_of("B1", -1)}), Error);
  EXPECT_THROW(list_of({invented_block()}, {walk_of("B1", 0.5, make_date(2027, 4, 1))}), Error);
}

}  // namespace
}  // namespace wildling::tending
