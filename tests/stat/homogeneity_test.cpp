#include "stat/homogeneity.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include <gtest/gtest.h>

#include "../climate/table.hpp"
#include "base/random.hpp"

namespace wildling::stat {
namespace {

std::vector<double> nile() {
  std::vector<double> x;
  for (const CsvRow& row : climate::reference_table("trend/series.csv").rows) {
    if (row.cells[0] == "nile_1871_1970") x.push_back(*parse_number(row.cells[3]));
  }
  return x;
}

// Cobb (1978), Biometrika 65:243-251: the flow of the Nile fell after 1898, the 28th year.
TEST(StandardNormalHomogeneity, FindsTheFallOfTheNileAfter1898) {
  const Homogeneity test = standard_normal_homogeneity(nile());
  EXPECT_EQ(test.n, 100);
  EXPECT_EQ(test.change_after, 28);
  EXPECT_GT(test.t, homogeneity_critical(100, HomogeneityLevel::one_pct));
  EXPECT_LT(test.after, test.before);
}

TEST(StandardNormalHomogeneity, IsWhatItsDefinitionSaysOnFourValues) {
  // mean 2.5, sd sqrt(5/3): z -1.1619, -0.3873, 0.3873, 1.1619; k = 2: 2 * 0.7746^2 * 2 = 2.4
  const Homogeneity test = standard_normal_homogeneity(std::vector<double>{1, 2, 3, 4});
  EXPECT_EQ(test.change_after, 2);
  EXPECT_NEAR(test.t, 2.4, 1e-12);
}

TEST(StandardNormalHomogeneity, DoesNotDependOnUnitOrGaps) {
  std::vector<double> x = nile(), y;
  for (const double v : x) {
    y.push_back(1.8 * v + 32);
    y.push_back(std::numeric_limits<double>::quiet_NaN());
  }
  EXPECT_NEAR(standard_normal_homogeneity(x).t, standard_normal_homogeneity(y).t, 1e-9);
}

TEST(StandardNormalHomogeneity, SaysNothingOfEqualValues) {
  EXPECT_EQ(standard_normal_homogeneity(std::vector<double>{3, 3, 3}).t, 0);
  EXPECT_EQ(standard_normal_homogeneity(std::vector<double>{}).n, 0);
}

// 20,000 series a row: the limit of 5 % has a standard error of about 0.06, that of 1 % of 0.14.
TEST(StandardNormalHomogeneity, ItsPublishedLimitsAreThoseOfNormalSeries) {
  for (const int n : {10, 20, 50, 100}) {
    std::vector<double> t;
    Stream luck(Seed{7}, Purpose{"homogeneity"}, static_cast<std::uint64_t>(n));
    for (int i = 0; i < 20000; ++i) {
      std::vector<double> x;
      for (int k = 0; k < n; ++k) x.push_back(luck.normal());
      t.push_back(standard_normal_homogeneity(x).t);
    }
    std::sort(t.begin(), t.end());
    EXPECT_NEAR(t[19000], homogeneity_critical(n, HomogeneityLevel::five_pct), 0.2) << n;
    EXPECT_NEAR(t[19800], homogeneity_critical(n, HomogeneityLevel::one_pct), 0.45) << n;
  }
}

TEST(StandardNormalHomogeneity, ItsLimitsRiseWithTheNumberOfYears) {
  for (int n = 10; n < 1000; ++n) {
    EXPECT_LE(homogeneity_critical(n, HomogeneityLevel::five_pct),
              homogeneity_critical(n + 1, HomogeneityLevel::five_pct));
  }
  EXPECT_NEAR(homogeneity_critical(25, HomogeneityLevel::five_pct), 7.4645, 1e-9);
}

}  // namespace
}  // namespace wildling::stat
