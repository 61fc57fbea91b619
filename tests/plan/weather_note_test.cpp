// A day's readings, written and corrected.
#include <gtest/gtest.h>

#include "weather_programme.hpp"

namespace wildling::plan {
namespace {

class DayNote : public testing::Test {
 protected:
  Rehearsal outside{Seed{1}};
  std::unique_ptr<store::Store> store = invented_programme(outside, 0);

  Message keep(Entries entries) {
    entries.try_emplace("station", std::vector<std::string>{"Hill (invented)"});
    return note("day").keep(*store, entries, kToday, kTester);
  }
};

TEST_F(DayNote, MakesTheStationWithItsFirstReading) {
  keep({{"rain", {"12.5"}}});
  ASSERT_EQ(load_weather_books(*store).size(), 1U);
  EXPECT_EQ(load_weather_books(*store).front().daily.rain_mm, std::vector<double>{12.5});
}

TEST_F(DayNote, ACorrectionSaysTheOldValue) {
  keep({{"rain", {"12"}}});
  const Message said = keep({{"rain", {"21"}}});
  EXPECT_EQ(std::get<std::string>(said.arguments.at("old")), "rain 12 > 21");
}

TEST_F(DayNote, ACorrectionLeavesTheOldValueInTheLogOfChanges) {
  keep({{"rain", {"12"}}});
  keep({{"rain", {"21"}}});
  store::LogQuery query;
  query.table = "weather_days";
  EXPECT_NE(store->changes(query).front().before_json.find("12"), std::string::npos);
}

TEST_F(DayNote, RainOfSeveralDaysIsKeptAsOneTotal) {
  keep({{"rain", {"41"}}, {"rain-since", {iso_date(kToday - std::chrono::days(2))}}});
  const auto daily = load_weather_books(*store).front().daily;
  ASSERT_EQ(daily.totals.size(), 1U);
  EXPECT_EQ(daily.totals.front().total_mm, 41);
  EXPECT_TRUE(std::isnan(daily.rain_mm.front()));
}

TEST_F(DayNote, RainIsNotCountedTwiceUnderATotal) {
  keep({{"rain", {"41"}}, {"rain-since", {iso_date(kToday - std::chrono::days(2))}}});
  EXPECT_THROW(keep({{"day", {iso_date(kToday - std::chrono::days(1))}}, {"rain", {"3"}}}), Error);
}

TEST_F(DayNote, ADayAfterTodayIsRefused) {
  EXPECT_THROW(keep({{"day", {iso_date(kToday + std::chrono::days(1))}}, {"rain", {"3"}}}), Error);
}

TEST_F(DayNote, TheLowestTemperatureCannotBeAboveTheHighestOfTheSameDay) {
  keep({{"tmax", {"30"}}});
  EXPECT_THROW(keep({{"tmin", {"31"}}}), Error);
}

TEST_F(DayNote, ANoteWithoutAReadingIsRefused) {
  EXPECT_THROW(keep({}), Error);
}

TEST_F(DayNote, ALookWithoutAnAnswerIsRefused) {
  EXPECT_THROW(note("look").keep(*store, {{"block", {"B1"}}}, kToday, kTester), Error);
}

TEST_F(DayNote, ALookAtAnUnknownBlockIsRefused) {
  EXPECT_THROW(note("look").keep(*store, {{"block", {"B99"}}, {"soil", {"dry"}}}, kToday, kTester),
               Error);
}

TEST_F(DayNote, MonthsBeyondTwelveAreRefused) {
  EXPECT_THROW(note("wet-months")
                   .keep(*store, {{"months", {"11 13"}}, {"told-by", {"elders"}}}, kToday, kTester),
               Error);
}

}  // namespace
}  // namespace wildling::plan
