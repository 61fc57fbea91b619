#include "climate/normals.hpp"

#include <cmath>
#include <limits>

#include <gtest/gtest.h>

#include "base/error.hpp"

namespace wildling::climate {
namespace {

constexpr double kMissing = std::numeric_limits<double>::quiet_NaN();

WeatherBook rain_book(Date first, std::vector<double> rain) {
  WeatherBook book;
  book.daily.first = first;
  book.daily.rain_mm = std::move(rain);
  return book;
}

TEST(MonthNormals, MeansAreOfCompleteMonthsOnly) {
  std::vector<double> rain(59, 2.0);
  for (int i = 31; i < 36; ++i) rain[static_cast<std::size_t>(i)] = kMissing;
  const auto normals = month_normals(rain_book(make_date(2025, 1, 1), rain));
  EXPECT_EQ(normals[0].years, 1);
  EXPECT_DOUBLE_EQ(normals[0].rain_mean_mm, 62.0);
  EXPECT_EQ(normals[1].years, 0);
  EXPECT_EQ(normals[1].years_left_out, 1);
  EXPECT_TRUE(std::isnan(normals[1].rain_mean_mm));
}

TEST(MonthNormals, ATotalOverDaysCountsWholeInItsMonth) {
  WeatherBook book = rain_book(make_date(2025, 1, 1), std::vector<double>(31, 0.0));
  for (std::size_t i = 9; i < 12; ++i) book.daily.rain_mm[i] = kMissing;
  book.daily.totals = {{make_date(2025, 1, 10), make_date(2025, 1, 12), 41}};
  EXPECT_DOUBLE_EQ(month_normals(book)[0].rain_mean_mm, 41);
}

// Trap C23: seven days 0 / 5.2 / trace / 12.4 / missing / 0 / 3.0 total 20.6 mm over 6 measured
// days, 3 of them wet.
TEST(MonthRain, CountsTraceAsMeasuredAndMissingAsMissing) {
  std::vector<double> rain = {0, 5.2, 0.0 /* trace, as intake stores it */, 12.4, kMissing, 0, 3.0};
  const WeatherBook book = rain_book(make_date(2025, 1, 1), rain);
  const MonthRain month = month_rain(book.daily, 2025, 1, 1.0);
  EXPECT_NEAR(month.rain_mm, 20.6, 1e-12);
  EXPECT_EQ(month.days_measured, 6);
  EXPECT_EQ(month.rain_days, 3);
}

TEST(DaysSinceRain, SaysThatAGapLiesBetween) {
  const WeatherBook book = rain_book(make_date(2025, 1, 1), {12, 0, kMissing, 0, 0});
  const SinceRain since = days_since_rain(book.daily, make_date(2025, 1, 5), 5);
  EXPECT_EQ(since.days, 4);
  EXPECT_TRUE(since.gap_met);
}

TEST(DrySpells, CrossNewYearAsOneSpell) {
  std::vector<double> rain(20, 0.0);
  rain.front() = rain.back() = 9;
  const auto spells = dry_spells(rain_book(make_date(2024, 12, 22), rain).daily, 1, 5);
  ASSERT_EQ(spells.size(), 1U);
  EXPECT_EQ(spells[0].days, 18);
  EXPECT_FALSE(spells[0].cut);
}

TEST(DrySpells, AMissingDayEndsASpellAndMarksItCut) {
  const auto spells =
      dry_spells(rain_book(make_date(2025, 1, 1), {9, 0, 0, 0, kMissing, 0, 0, 9}).daily, 1, 2);
  ASSERT_EQ(spells.size(), 2U);
  EXPECT_TRUE(spells[0].cut);
  EXPECT_EQ(spells[0].days, 3);
}

TEST(Check, RefusesAColumnOfAnotherLength) {
  WeatherBook book = rain_book(make_date(2025, 1, 1), {1, 2});
  book.daily.tmax_c = {30};
  EXPECT_THROW(check(book), Error);
}

TEST(Check, RefusesNegativeRain) {
  EXPECT_THROW(check(rain_book(make_date(2025, 1, 1), {1, -2})), Error);
}

TEST(Check, RefusesAnEmptyLog) {
  EXPECT_THROW(check(rain_book(make_date(2025, 1, 1), {})), Error);
}

}  // namespace
}  // namespace wildling::climate
