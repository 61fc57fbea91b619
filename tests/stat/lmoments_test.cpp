#include "stat/lmoments.hpp"

#include <cmath>
#include <numbers>

#include <gtest/gtest.h>

#include "stat/normal.hpp"

namespace wildling::stat {
namespace {

const std::vector<double> kEleven = {2.0, 3.0, 4.0, 2.4, 5.5, 1.2, 5.4, 2.2, 7.1, 1.3, 1.5};

// Hosking's routines on eleven values (tests of the package lmoments3),
// tests/reference/drought/data.csv.
TEST(LMoments, MeetThoseOfElevenValues) {
  const LMoments m = l_moments(kEleven);
  EXPECT_NEAR(m.l1, 3.2363636363636363, 1e-12);
  EXPECT_NEAR(m.l2, 1.1418181818181818, 1e-12);
  EXPECT_NEAR(m.t3, 0.27388535031847133, 1e-12);
  EXPECT_NEAR(m.t4, 0.023354564755838598, 1e-12);
}

TEST(LMoments, FitTheDistributionsOfElevenValues) {
  const LMoments m = l_moments(kEleven);
  const LogisticFit logistic = fit_logistic(m);
  EXPECT_NEAR(logistic.xi, 2.7406580, 6e-7);
  EXPECT_NEAR(logistic.alpha, 1.0060517, 6e-8);
  EXPECT_NEAR(logistic.k, -0.2738854, 6e-8);
  EXPECT_NEAR(logistic.quantile(0.2), 1.580189, 6e-7);
  EXPECT_NEAR(logistic.quantile(0.8), 4.437061, 6e-7);
  EXPECT_NEAR(fit_gamma(m).shape, 2.295206110128833, 1e-9);
  EXPECT_NEAR(fit_gamma(m).scale, 1.4100535991436407, 1e-9);
  EXPECT_NEAR(fit_normal(m).sd, 2.023820, 6e-7);
  EXPECT_NEAR(fit_gumbel(m).scale, 1.647295, 6e-7);
  EXPECT_NEAR(fit_gumbel(m).location, 2.285519, 6e-7);
}

// Hosking (1990), Table 1: l1, l2, t3, t4, here from the quantiles of 40,000 even probabilities.
TEST(LMoments, OfLargeEvenSamplesApproachHoskingsTable1) {
  const auto moments = [](double (*quantile)(double)) {
    std::vector<double> x;
    for (int i = 0; i < 40000; ++i) x.push_back(quantile((i + 0.5) / 40000));
    return l_moments(x);
  };
  const auto expect = [](const LMoments& m, double l1, double l2, double t3, double t4) {
    EXPECT_NEAR(m.l1, l1, 2e-4);
    EXPECT_NEAR(m.l2, l2, 2e-4);
    EXPECT_NEAR(m.t3, t3, 4e-4);
    EXPECT_NEAR(m.t4, t4, 6e-4);
  };
  expect(moments([](double p) { return p; }), 0.5, 0.1666667, 0, 0);
  expect(moments([](double p) { return -std::log(1 - p); }), 1, 0.5, 0.3333333, 0.1666667);
  expect(moments([](double p) { return -std::log(-std::log(p)); }), 0.5772157, 0.6931472, 0.169925,
         0.150375);
  expect(moments([](double p) { return normal_quantile(p); }), 0, 0.5641896, 0, 0.1226017);
  expect(moments([](double p) { return std::log(p / (1 - p)); }), 0, 1, 0, 0.1666667);
}

TEST(Normal, MeetsThePrintedProbabilitiesOfTheIndexClasses) {
  EXPECT_NEAR(normal_cdf(-2), 0.0228, 5e-5);
  EXPECT_NEAR(normal_cdf(-1.5), 0.0668, 5e-5);
  EXPECT_NEAR(normal_cdf(-1), 0.1587, 5e-5);
  EXPECT_DOUBLE_EQ(normal_cdf(0), 0.5);
}

TEST(Normal, QuantileIsTheInverseFarIntoBothTails) {
  for (double z = -7; z < 7; z += 0.13)
    EXPECT_NEAR(normal_quantile(normal_cdf(z)), z, z > 4 ? 1e-4 : 1e-11) << z;
}

TEST(Normal, TailIsThatOfTheCLibrary) {
  for (double z = 0; z < 30; z += 0.37)
    EXPECT_NEAR(normal_two_sided(z) / std::erfc(z / std::numbers::sqrt2), 1, 1e-11);
}

// For whole a: P(a, x) = 1 - e^-x sum over k < a of x^k/k!; the places where the method changes
// included.
TEST(GammaP, IsTheClosedFormOfWholeShapes) {
  for (const int a : {1, 2, 7, 40, 160}) {
    for (double x = 0.1 * a; x < a + 9 * std::sqrt(a) + 9; x += 0.37 * std::sqrt(a)) {
      long double term = std::exp(-static_cast<long double>(x)), q = term;
      for (int k = 1; k < a; ++k) {
        term *= static_cast<long double>(x) / k;
        q += term;
      }
      EXPECT_NEAR(gamma_p(a, x), static_cast<double>(1 - q), 2e-13) << a << " " << x;
    }
  }
}

// Abramowitz & Stegun 26.2.23: largest error 4.5e-4.
TEST(Normal, HastingsQuantileErrsByItsStatedBound) {
  double worst = 0;
  for (double p = 1e-6; p < 0.5; p *= 1.01)
    worst = std::max(worst, std::abs(hastings_quantile(p) - normal_quantile(p)));
  EXPECT_NEAR(worst, 4.5e-4, 1e-5);
}

}  // namespace
}  // namespace wildling::stat
