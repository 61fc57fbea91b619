#include "tending/cover_growth.hpp"

#include <cmath>
#include <limits>

#include <gtest/gtest.h>

#include "invented.hpp"

namespace wildling::tending {
namespace {

const CoverRule kGrass = {1.4, 0.1, 1.3};

TEST(CoverHeight, StartsAtTheCutAndEndsAtTheFullHeight) {
  EXPECT_NEAR(height_after(kGrass, 0), 0.1, 1e-12);
  EXPECT_NEAR(height_after(kGrass, 100), 1.4, 1e-12);
}

TEST(CoverHeight, SolvesTheLogisticEquation) {
  for (const double t : {0.3, 1.0, 2.0, 4.0}) {
    const double slope = (height_after(kGrass, t + 1e-5) - height_after(kGrass, t - 1e-5)) / 2e-5;
    const double h = height_after(kGrass, t);
    EXPECT_NEAR(slope, 1.3 * h * (1 - h / 1.4), 1e-6);
  }
}

TEST(MonthsTo, IsTheInverseOfTheHeight) {
  for (const double t : {0.1, 1.0, 3.0})
    EXPECT_NEAR(*months_to(kGrass, height_after(kGrass, t)), t, 1e-10);
  EXPECT_FALSE(months_to(kGrass, 1.4));
  EXPECT_DOUBLE_EQ(*months_to(kGrass, 0.05), 0);
}

TEST(WetMonths, CountFewerInADryMonth) {
  const auto wet = wetness(normals_of(kSeasonal), shipped());
  EXPECT_NEAR(wet_months(make_date(2027, 1, 1), make_date(2027, 2, 1), wet), 31 * 12 / 365.25,
              1e-12);
  EXPECT_NEAR(wet_months(make_date(2027, 8, 1), make_date(2027, 9, 1), wet), 0.2 * 31 * 12 / 365.25,
              1e-12);
}

TEST(Wetness, TakesAMonthWithoutFiguresAsWet) {
  auto normals = normals_of(kSeasonal);
  normals[7].rain_mean_mm = std::numeric_limits<double>::quiet_NaN();
  EXPECT_DOUBLE_EQ(wetness(normals, shipped())[7], 1);
}

TEST(DayAfter, FindsTheDayOnWhichTheMonthsHavePassed) {
  const auto wet = wetness(normals_of(kEverWet), shipped());
  const Date day = *day_after(make_date(2027, 1, 1), 2, wet, make_date(2028, 1, 1));
  EXPECT_GE(wet_months(make_date(2027, 1, 1), day, wet), 2);
  EXPECT_LT(wet_months(make_date(2027, 1, 1), day - std::chrono::days(1), wet), 2);
  EXPECT_FALSE(day_after(make_date(2027, 1, 1), 50, wet, make_date(2028, 1, 1)));
}

TEST(OwnGrowth, IsTheBookUntilSomebodyMeasures) {
  EXPECT_DOUBLE_EQ(own_growth_per_month(kGrass, {}, shipped()), 1.3);
}

TEST(OwnGrowth, ComesToTheSitesRateAsWalksCome) {
  const CoverRule site = {1.4, 0.1, 0.7};
  double last = 1.3;
  for (const std::size_t n : {1U, 4U, 16U, 400U}) {
    const std::vector<WalkHeight> walks(n, {2.0, height_after(site, 2.0)});
    const double rate = own_growth_per_month(kGrass, walks, shipped());
    EXPECT_LT(rate, last);
    last = rate;
  }
  EXPECT_NEAR(last, 0.7, 0.01);
}

TEST(SlowestGroup, LeavesOutAGroupUnderATenth) {
  EXPECT_EQ(slowest_group({500, 400, 100}, shipped()), species::Group::late);
  EXPECT_EQ(slowest_group({500, 420, 80}, shipped()), species::Group::early);
  EXPECT_EQ(slowest_group({1000, 0, 0}, shipped()), species::Group::pioneer);
}

}  // namespace
}  // namespace wildling::tending
