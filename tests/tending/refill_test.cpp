#include "tending/refill.hpp"

#include <gtest/gtest.h>

#include "base/error.hpp"
#include "invented.hpp"
#include "tending/planting_work.hpp"

namespace wildling::tending {
namespace {

/// "+" alive, "x" dead, "." not looked at
PlaceRows rows_of(const std::vector<std::string>& text) {
  PlaceRows rows;
  for (const std::string& line : text) {
    rows.emplace_back();
    for (const char c : line) {
      rows.back().push_back(c == 'x'   ? PlaceState::dead
                            : c == '+' ? PlaceState::alive
                                       : PlaceState::not_looked_at);
    }
  }
  return rows;
}

// ILO (1993) section 6.6: more than 2 in 10 dead and at least 2 neighbours dead.
TEST(RefillAdvice, RefillsDeadThatStandTogether) {
  const RefillAdvice a = refill_advice(rows_of({"++xx+", "++xx+", "+++++"}), 0, shipped());
  EXPECT_EQ(a.verdict, RefillVerdict::refill);
  EXPECT_EQ(a.in_gaps, 4);
  EXPECT_EQ(a.gaps_by_row, (std::vector<int>{2, 2, 0}));
}

TEST(RefillAdvice, WaitsWhenTheDeadStandAlone) {
  const RefillAdvice a = refill_advice(rows_of({"x+x+x", "+++++", "x+x+x"}), 0, shipped());
  EXPECT_GT(a.dead_share, 0.2);
  EXPECT_EQ(a.in_gaps, 0);
  EXPECT_EQ(a.verdict, RefillVerdict::wait);
}

TEST(RefillAdvice, WaitsAtExactlyTwoInTen) {
  const RefillAdvice a = refill_advice(rows_of({"xx++++++++", "xx++++++++"}), 0, shipped());
  EXPECT_DOUBLE_EQ(a.dead_share, 0.2);
  EXPECT_EQ(a.verdict, RefillVerdict::wait);
}

TEST(RefillAdvice, StopsAfterTwoRefillsAndAsksForTheCause) {
  EXPECT_EQ(refill_advice(rows_of({"xxx+", "xxx+"}), 2, shipped()).verdict,
            RefillVerdict::find_the_cause);
}

TEST(RefillAdvice, CannotTellFromAFewTreesOfMany) {
  EXPECT_EQ(refill_advice(rows_of({"xx+++++.................."}), 0, shipped()).verdict,
            RefillVerdict::cannot_tell);
  EXPECT_EQ(refill_advice(rows_of({"....."}), 0, shipped()).verdict, RefillVerdict::cannot_tell);
}

// Wilson (1927): 18 of 60, 95 %: 0.1990 to 0.4251 (recomputed by hand).
TEST(RefillAdvice, GivesTheWilsonInterval) {
  const RefillAdvice a =
      refill_advice(rows_of({std::string(18, 'x') + std::string(42, '+')}), 0, shipped());
  EXPECT_NEAR(a.share_low, 0.1990, 1e-3);
  EXPECT_NEAR(a.share_high, 0.4251, 1e-3);
}

TEST(RefillAdvice, MatchesRowsOfDifferentLength) {
  EXPECT_EQ(refill_advice(rows_of({"xx", "xxxx"}), 0, shipped()).in_gaps, 6);
}

TEST(RefillCost, CostsMorePerLivingThanPerPlantedTree) {
  const RefillCost cost = refill_cost(100, 0.5, shipped());
  EXPECT_DOUBLE_EQ(cost.per_living, 2 * cost.per_planted);
  EXPECT_DOUBLE_EQ(cost.all, 100 * cost.per_planted);
  EXPECT_THROW(refill_cost(100, 0, shipped()), Error);
}

// ILO (1993) Appendix 3: 2 to 3 times the first planting; the work alone here is 2.5 times.
TEST(RefillCost, IsTwoAndAHalfTimesTheWorkOfAFirstPlanting) {
  PersonDays each = planting_days_per_tree(shipped());
  each += person_days(1, rate("pits", shipped()));
  const double work =
      refill_cost(1, 1, shipped()).per_planted - shipped().value("tending.price.seedling");
  EXPECT_NEAR(work / (each.used * shipped().value("tending.wage_per_day")), 2.5, 1e-12);
}

}  // namespace
}  // namespace wildling::tending
