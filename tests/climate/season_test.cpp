#include "climate/season.hpp"

#include <cmath>

#include <gtest/gtest.h>

#include "table.hpp"

namespace wildling::climate {
namespace {

const Parameters& shipped() {
  static const Parameters parameters = Parameters::shipped();
  return parameters;
}

// Test data of xclim: days 1-3 10 mm, days 4-33 5 mm, days 100-119 dry, all other days missing.
TEST(Season, OnsetAndEndOfThePublishedCaseAreMet) {
  std::vector<double> rain(365, std::nan(""));
  for (std::size_t d = 0; d < 33; ++d) rain[d] = d < 3 ? 10 : 5;
  for (std::size_t d = 99; d < 119; ++d) rain[d] = 0;
  std::map<std::string, double> printed;
  const auto cases = published_cases("rain_chain/data.csv");
  for (const Published& out : cases.at("onset/xclim_sivakumar_like").out)
    printed[out.name] = out.value;
  const SeasonDay onset = onset_after_spell(rain, 0, {3, 25, 7, 30, 1});
  const SeasonDay end = end_by_dry_run(rain, 0, 20, 1);
  ASSERT_TRUE(onset.day && end.day);
  EXPECT_EQ(*onset.day + 1, printed.at("start_doy"));
  EXPECT_EQ(*end.day + 1, printed.at("end_doy"));
  EXPECT_EQ(*end.day - *onset.day, printed.at("length"));
}

TEST(Season, AFalseStartIsNotAnOnset) {
  std::vector<double> rain(200, 0.0);
  for (std::size_t d = 10; d <= 12; ++d) rain[d] = 12;
  for (std::size_t d = 60; d < 150; ++d) rain[d] = 8;
  EXPECT_EQ(*onset_after_spell(rain, 0, {3, 20, 7, 30, 1}).day, 62U);
}

TEST(Season, MissingDaysAfterTheRainMakeTheOnsetUnknown) {
  std::vector<double> rain(40, 9.0);
  rain[20] = std::nan("");
  const SeasonDay onset = onset_after_spell(rain, 0, {3, 20, 7, 30, 1});
  EXPECT_FALSE(onset.day);
  EXPECT_TRUE(onset.unknown);
}

TEST(Season, AnomalousAccumulationFindsTheWetStretch) {
  std::vector<double> rain(365, 0.5);
  for (std::size_t d = 100; d < 250; ++d) rain[d] = 10;
  const RainyStretch s = anomalous_accumulation(rain, 4);
  EXPECT_EQ(s.onset, 100U);
  EXPECT_EQ(s.end, 249U);
}

WeatherBook invented(double dry_mm, double wet_mm) {
  WeatherBook book;
  book.daily.first = make_date(2011, 1, 1);
  for (Date d = book.daily.first; d < make_date(2019, 1, 1); d += std::chrono::days(1)) {
    book.daily.rain_mm.push_back(month_of(d) >= 6 && month_of(d) <= 9 ? dry_mm : wet_mm);
  }
  return book;
}

TEST(Season, IsNotToldWhereNoMonthIsDry) {
  const SeasonResult r = seasons(invented(6, 8), shipped());
  EXPECT_FALSE(r.season_told);
  EXPECT_TRUE(r.years.empty());
  EXPECT_EQ(r.first_line.key, "climate.season_none");
}

TEST(Season, IsSearchedFromTheMiddleOfTheDriestMonths) {
  const SeasonResult r = seasons(invented(0.5, 10), shipped());
  ASSERT_TRUE(r.season_told);
  EXPECT_TRUE(r.start_month == 7 || r.start_month == 8);
  for (std::size_t y = 0; y + 1 < r.years.size(); ++y) {
    for (const auto& onset : r.years[y].onset) {
      ASSERT_TRUE(onset);
      EXPECT_EQ(month_of(*onset), 10U)
          << y;  // rain begins on 1 October; 200 mm are reached on the 20th
    }
  }
}

TEST(Season, AllZeroRainIsNoCrash) {
  const SeasonResult r = seasons(invented(0, 0), shipped());
  EXPECT_FALSE(r.season_told);
}

}  // namespace
}  // namespace wildling::climate
