#include "stat/yield_chain.hpp"

#include <cmath>

#include <gtest/gtest.h>

#include "base/error.hpp"
#include "base/random.hpp"
#include "stat/binomial.hpp"

namespace wildling::stat {
namespace {

const std::vector<Stage> kCommon = {{.75, .05}, {.70, .08}, {.90, .05}, {.85, .05},
                                    {.95, .02}, {.90, .03}, {.97, .01}};

/// P(k of n pass one beta stage), the beta-binomial.
double beta_binomial(int k, int n, const Stage& stage) {
  const double both = 1 / stage.correlation - 1;
  const double a = stage.mean * both;
  const double b = both - a;
  return std::exp(log_gamma(n + 1) - log_gamma(k + 1) - log_gamma(n - k + 1) + log_gamma(k + a) +
                  log_gamma(n - k + b) - log_gamma(n + both) + log_gamma(both) - log_gamma(a) -
                  log_gamma(b));
}

/// P(at least need of n pass all stages) by summing over how many pass each stage.
double by_stage_sums(int need, int n, const std::vector<Stage>& stages) {
  std::vector<double> now(static_cast<std::size_t>(n) + 1, 0.0);
  now.back() = 1;
  for (const Stage& stage : stages) {
    std::vector<double> next(now.size(), 0.0);
    for (int from = 0; from <= n; ++from) {
      for (int to = 0; to <= from; ++to) {
        next[static_cast<std::size_t>(to)] +=
            now[static_cast<std::size_t>(from)] * beta_binomial(to, from, stage);
      }
    }
    now = next;
  }
  double sum = 0;
  for (int k = need; k <= n; ++k) sum += now[static_cast<std::size_t>(k)];
  return sum;
}

TEST(ProductOfStages, KeepsTheProductOfTheMeans) {
  double product = 1;
  for (const Stage& stage : kCommon) product *= stage.mean;
  EXPECT_NEAR(product_of_stages(kCommon).mean() / product, 1, 1e-4);
}

TEST(ProductOfStages, IsOneExactRateWhenNoStageVaries) {
  const std::vector<Stage> stages = {{.6, 0}, {.9, 0}, {1, 0}};
  const YieldDistribution yield = product_of_stages(stages);
  ASSERT_EQ(yield.cells(), 1U);
  EXPECT_NEAR(yield.low[0], 0.54, 1e-15);
  EXPECT_NEAR(chance_of_enough(50, 100, yield), at_least(50, 100, 0.54), 1e-12);
}

// The variance of ln X of a beta is trigamma(a) - trigamma(a + b); with a = 2, b = 1: 1/4 (density
// 2x, -ln X ~ Exp(2)).
TEST(ProductOfStages, FollowsTheExponentialThatIsExactForTwoToOne) {
  const std::vector<Stage> one = {{2.0 / 3, 0.25}};
  const YieldDistribution yield = product_of_stages(one);
  for (const double chance : {0.05, 0.3, 0.5, 0.9})
    EXPECT_NEAR(yield.quantile(chance), std::sqrt(chance), 1e-3);
}

TEST(ChanceOfEnough, EqualsTheSumsOverEveryStage) {
  const std::vector<Stage> stages = {{.75, .05}, {.60, .08}, {.90, .02}};
  const YieldDistribution yield = product_of_stages(stages);
  for (const int n : {20, 40, 60, 90}) {
    for (const int need : {1, 8, 16, 24, 30}) {
      if (need > n) continue;
      EXPECT_NEAR(chance_of_enough(need, n, yield), by_stage_sums(need, n, stages), 2e-4)
          << n << " " << need;
    }
  }
}

TEST(ChanceOfEnough, AgreesWithDrawnChains) {
  const YieldDistribution yield = product_of_stages(kCommon);
  const int n = 900;
  const int need = 200;
  int enough = 0;
  const int draws = 8000;
  for (int i = 0; i < draws; ++i) {
    Stream stream(Seed{20}, Purpose{"yield test"}, static_cast<std::uint64_t>(i));
    int alive = n;
    for (const Stage& stage : kCommon) {
      const double both = 1 / stage.correlation - 1;
      const double rate = stream.beta(stage.mean * both, (1 - stage.mean) * both);
      int pass = 0;
      for (int unit = 0; unit < alive; ++unit) pass += stream.uniform() < rate ? 1 : 0;
      alive = pass;
    }
    enough += alive >= need ? 1 : 0;
  }
  const double p = chance_of_enough(need, n, yield);
  EXPECT_NEAR(static_cast<double>(enough) / draws, p,
              4 * std::sqrt(p * (1 - p) / draws));  // four standard errors
}

TEST(SmallestCount, IsTheFirstNumberThatIsEnough) {
  const YieldDistribution yield = product_of_stages(kCommon);
  for (const long long need : {1LL, 7LL, 50LL, 200LL, 1400LL, 30000LL, 1000000LL}) {
    const long long n = smallest_count(need, yield, 0.95);
    EXPECT_GE(chance_of_enough(need, n, yield), 0.95) << need;
    EXPECT_LT(chance_of_enough(need, n - 1, yield), 0.95) << need;
  }
}

TEST(SmallestCount, IsTheNeedWhenNothingIsLost) {
  EXPECT_EQ(smallest_count(1400, product_of_stages({}), 0.95), 1400);
}

TEST(SmallestCount, FollowsTheFivePercentYieldWhenNumbersAreLarge) {
  const YieldDistribution yield = product_of_stages(kCommon);
  const double n = static_cast<double>(smallest_count(1000000, yield, 0.95));
  EXPECT_NEAR(n * yield.quantile(0.05) / 1e6, 1, 2e-3);
}

TEST(SmallestCount, IsNothingWhenWhatIsInHandSuffices) {
  const YieldDistribution ready = product_of_stages(std::vector<Stage>{{.9, .03}});
  EXPECT_EQ(smallest_count(500, product_of_stages(kCommon), 0.95, arriving(900, ready)), 0);
}

TEST(SmallestCount, CountsWhatIsInHandBeforeNewSeed) {
  const YieldDistribution yield = product_of_stages(kCommon);
  const InHand exact = {{400}, {1.0}};
  EXPECT_EQ(smallest_count(1000, yield, 0.95, exact), smallest_count(600, yield, 0.95));
}

TEST(Arriving, HasAlmostTheMeanOfTheChainAndNeverMore) {
  const YieldDistribution ready =
      product_of_stages(std::vector<Stage>{{.95, .02}, {.9, .03}, {.97, .01}});
  const InHand in_hand = arriving(1000, ready);
  double mean = 0;
  for (std::size_t i = 0; i < in_hand.count.size(); ++i) {
    mean += in_hand.mass[i] * static_cast<double>(in_hand.count[i]);
  }
  EXPECT_LE(mean, 1000 * .95 * .9 * .97);
  EXPECT_NEAR(mean, 1000 * .95 * .9 * .97, 10);  // 24 classes, each at its lower end
}

TEST(Arriving, NeverPromisesMoreThanTheExactChance) {
  const YieldDistribution ready = product_of_stages(std::vector<Stage>{{.9, .03}, {.97, .01}});
  const YieldDistribution nothing = product_of_stages({});
  const InHand in_hand = arriving(600, ready);
  for (int need = 1; need <= 600; need += 7) {
    const double exact = chance_of_enough(need, 600, ready);
    const double classes = chance_of_enough(need, 0, nothing, in_hand);
    EXPECT_LE(classes, exact + 1e-12) << need;
    EXPECT_GE(classes, exact - 0.1) << need;
    if (exact > 0.99) {
      EXPECT_GE(classes, exact - 0.006) << need;
    }
  }
}

TEST(MeanOfLots, OfOneLotChangesNothing) {
  const YieldDistribution one = product_of_stages(kCommon);
  const YieldDistribution same = mean_of_lots(std::vector{one}, std::vector{1.0});
  EXPECT_NEAR(same.mean(), one.mean(), 1e-6);
  EXPECT_NEAR(static_cast<double>(smallest_count(500, same, 0.95)) /
                  static_cast<double>(smallest_count(500, one, 0.95)),
              1, 2e-3);
}

TEST(MeanOfLots, OfFourLotsHasAQuarterOfTheVariance) {
  const YieldDistribution one = product_of_stages(kCommon);
  const YieldDistribution four = mean_of_lots(std::vector(4, one), std::vector(4, 0.25));
  const auto variance = [](const YieldDistribution& y) {
    double sum = 0;
    for (std::size_t i = 0; i < y.cells(); ++i) {
      sum += y.mass[i] * std::pow(0.5 * (y.low[i] + y.high[i]) - y.mean(), 2);
    }
    return sum;
  };
  EXPECT_NEAR(four.mean(), one.mean(), 1e-6);
  EXPECT_NEAR(variance(four) * 4 / variance(one), 1, 1e-3);
  EXPECT_LT(smallest_count(500, four, 0.95), smallest_count(500, one, 0.95));
}

TEST(ProductOfStages, RefusesAShareThatCannotBe) {
  EXPECT_THROW(product_of_stages(std::vector<Stage>{{0, .1}}), Error);
  EXPECT_THROW(product_of_stages(std::vector<Stage>{{1.2, .1}}), Error);
  EXPECT_THROW(product_of_stages(std::vector<Stage>{{.5, 1}}), Error);
  EXPECT_THROW(product_of_stages(std::vector<Stage>{{std::nan(""), .1}}), Error);
}

}  // namespace
}  // namespace wildling::stat
