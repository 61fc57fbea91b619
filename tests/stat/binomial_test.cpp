#include "stat/binomial.hpp"

#include <cmath>

#include <gtest/gtest.h>

namespace wildling::stat {
namespace {

// Abramowitz & Stegun (1964), 6.1.8: gamma(1/2) = sqrt(pi); 6.1.6: gamma(n + 1) = n!.
TEST(LogGamma, ReproducesClosedForms) {
  EXPECT_NEAR(log_gamma(0.5), 0.57236494292470009, 1e-13);
  EXPECT_NEAR(log_gamma(1), 0, 1e-13);
  EXPECT_NEAR(log_gamma(2), 0, 1e-13);
  EXPECT_NEAR(log_gamma(6), std::log(120.0), 1e-12);
  EXPECT_NEAR(log_gamma(171) / 706.57306224578735, 1, 1e-14);  // ln 170!
}

TEST(BetaCdf, ReproducesClosedForms) {
  for (double x = 0.05; x < 1; x += 0.1) {
    EXPECT_NEAR(beta_cdf(x, 1, 1), x, 1e-12);
    EXPECT_NEAR(beta_cdf(x, 3, 1), x * x * x, 1e-12);
    EXPECT_NEAR(beta_cdf(x, 1, 4), 1 - std::pow(1 - x, 4), 1e-12);
    EXPECT_NEAR(beta_cdf(x, 0.5, 0.5), std::asin(std::sqrt(x)) * 2 / M_PI, 1e-12);
  }
}

TEST(BetaCdf, IsOneHalfAtTheMiddleOfASymmetricBetaOfAnySize) {
  for (const double a : {0.1, 1.0, 30.0, 1e4, 1e6})
    EXPECT_NEAR(beta_cdf(0.5, a, a), 0.5, 1e-9) << a;
}

TEST(AtLeast, EqualsTheSumOfTheBinomial) {
  const int n = 12;
  const double p = 0.37;
  for (int k = 0; k <= n + 1; ++k) {
    double sum = 0;
    for (int i = k; i <= n; ++i) {
      sum += std::tgamma(n + 1) / std::tgamma(i + 1) / std::tgamma(n - i + 1) * std::pow(p, i) *
             std::pow(1 - p, n - i);
    }
    EXPECT_NEAR(at_least(k, n, p), sum, 1e-12) << k;
  }
}

}  // namespace
}  // namespace wildling::stat
