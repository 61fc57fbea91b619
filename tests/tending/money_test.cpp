#include "tending/money.hpp"

#include <cmath>
#include <fstream>
#include <sstream>

#include <gtest/gtest.h>

#include "base/csv.hpp"
#include "base/error.hpp"
#include "invented.hpp"

namespace wildling::tending {
namespace {

std::vector<CashLine> equal_payments(int months, double amount) {
  std::vector<CashLine> lines;
  for (int i = 0; i < months; ++i)
    lines.push_back({add_months(make_date(2027, 1, 10), i), "B1", "ring", amount, false});
  return lines;
}

TEST(CashTable, FindsTheMonthInWhichTheMoneyRunsOut) {
  const CashTable table = cash_table(1000, equal_payments(12, 300));
  ASSERT_TRUE(table.runs_out);
  EXPECT_EQ(month_text(*table.runs_out), "2027-04");  // 1000 pays three months of 300
  EXPECT_DOUBLE_EQ(table.most_missing, 2600);
}

TEST(CashTable, DoesNotRunOutAtExactlyNothing) {
  EXPECT_FALSE(cash_table(3600, equal_payments(12, 300)).runs_out);
}

TEST(CashTable, EndsAtOpeningPlusInMinusOut) {
  auto lines = equal_payments(30, 170);
  lines.push_back({make_date(2028, 5, 5), "", "income", 2000, true});
  const CashTable table = cash_table(500, lines);
  EXPECT_NEAR(table.months.back().balance, table.opening + table.in - table.out, 1e-9);
  EXPECT_EQ(table.months.size(), 30U);
}

TEST(CashTable, SumsByBlockAndJobAreTheTotal) {
  const CarePlan plan = care(std::vector{invented_block("B1"), invented_block("B2")}, 3,
                             normals_of(kSeasonal), shipped());
  const CashTable table = cash_table(0, cash_of(plan));
  double blocks = 0;
  for (const auto& [block, out] : table.out_by_block) blocks += out;
  double jobs = 0;
  for (const auto& [what, out] : table.out_by_what) jobs += out;
  EXPECT_NEAR(blocks / plan.total.cost(), 1, 1e-12);
  EXPECT_NEAR(jobs / plan.total.cost(), 1, 1e-12);
  EXPECT_NEAR(table.out / plan.total.cost(), 1, 1e-12);
}

TEST(CashTable, RefusesANegativeAmount) {
  EXPECT_THROW(cash_table(0, equal_payments(1, -1)), Error);
  EXPECT_THROW(cash_table(0, equal_payments(1, std::nan(""))), Error);
}

// The annuity identity: equal payments at the end of each of n periods are worth a (1 - (1 + i)^-n)
// / i.
TEST(Annuity, IsTheSumOfDiscountedPayments) {
  double sum = 0;
  for (int k = 1; k <= 36; ++k) sum += 250 / std::pow(1.01, k);
  EXPECT_NEAR(annuity(250, 0.01, 36), sum, 1e-9);
  EXPECT_DOUBLE_EQ(annuity(250, 0, 36), 9000);
}

TEST(PresentValue, OfEqualMonthlyPaymentsIsTheAnnuityPaidInAdvance) {
  const double yearly = 0.08;
  const double monthly = std::pow(1 + yearly, 1 / 12.0) - 1;
  EXPECT_NEAR(-present_value(equal_payments(24, 100), yearly),
              annuity(100, monthly, 24) * (1 + monthly), 1e-7);
}

TEST(BadYear, CostsMoreAndOnlyInItsTwelveMonths) {
  const CarePlan plain = care(std::vector{invented_block()}, 3, normals_of(kSeasonal), shipped());
  const Date from = make_date(2027, 1, 1);
  for (const BadYear& bad : bad_years(shipped())) {
    SCOPED_TRACE(bad.name);
    const CarePlan plan = with_bad_year(plain, bad, from);
    EXPECT_GT(plan.total.cost(), plain.total.cost());
    for (const auto& [month, sum] : plain.by_month) {
      if (month >= "2027" && month < "2028") continue;
      EXPECT_DOUBLE_EQ(plan.by_month.at(month).cost(), sum.cost());
    }
  }
}

TEST(BadYear, OfHigherWagesRaisesWagesOnly) {
  const CarePlan plain = care(std::vector{invented_block()}, 3, normals_of(kSeasonal), shipped());
  const CarePlan dear = with_bad_year(plain, {"wage_rise", 1.2, 1, 1, 0}, make_date(2026, 1, 1));
  EXPECT_NEAR(dear.by_month.at("2026-11").wages, 1.2 * plain.by_month.at("2026-11").wages, 1e-6);
  EXPECT_DOUBLE_EQ(dear.total.materials, plain.total.materials);
  EXPECT_DOUBLE_EQ(dear.total.days.used, plain.total.days.used);
}

TEST(CostPerTree, CountsTheLivingNotThePlanted) {
  const CarePlan plan = care(std::vector{invented_block()}, 5, normals_of(kSeasonal), shipped());
  const CostPerTree at3 = cost_per_tree(plan, 3, std::vector{0.6}, 1e8);
  EXPECT_NEAR(at3.per_alive / at3.per_planted, 1 / 0.6, 1e-12);
  EXPECT_LE(at3.spent, plan.total.cost() + 1e8 + 1e-6);
  EXPECT_TRUE(std::isinf(cost_per_tree(plan, 3, std::vector{0.0}, 0).per_alive));
}

TEST(Dropping, SavesWhatTheJobCostsAndSaysWhatItLeavesUndone) {
  const CarePlan plan = care(std::vector{invented_block()}, 3, normals_of(kSeasonal), shipped());
  double saved = 0;
  for (const Dropped& d : dropping(plan, shipped())) {
    saved += d.saves;
    EXPECT_EQ(d.trees_overtopped > 1000, d.job == Job::ring);
    EXPECT_NEAR(d.trees_not_refilled, d.job == Job::refill ? 1370 : 0, 1e-9);
  }
  EXPECT_NEAR(saved / plan.total.cost(), 1, 1e-12);
}

// Carandang & Carandang (2009): shares of cost by activity and by year sum to 100.
TEST(CostShares, OfThePublishedStudySumToAHundred) {
  std::ifstream file(WILDLING_REFERENCE "/tending_practice/cost_shares.csv");
  std::stringstream text;
  text << file.rdbuf();
  std::vector<CashLine> lines;
  for (const CsvRow& row : parse_csv_table(text.str()).rows) {
    lines.push_back(
        {make_date(2027, 1, 1), row.cells[0], row.cells[1], *parse_number(row.cells[2]), false});
  }
  const CashTable table = cash_table(200, lines);
  EXPECT_NEAR(table.out_by_block.at("activity"), 100, 1e-9);
  EXPECT_NEAR(table.out_by_block.at("year"), 100, 1e-9);
  EXPECT_NEAR(table.out_by_what.at("maintenance and protection"), 49.8, 1e-9);
}

}  // namespace
}  // namespace wildling::tending
