#include "plan/take_weather.hpp"

#include <cmath>
#include <limits>

#include <gtest/gtest.h>

#include "invented_programme.hpp"
#include "plan/programme.hpp"
#include "plan/take_file.hpp"

namespace wildling::plan {
namespace {

constexpr double kMissing = std::numeric_limits<double>::quiet_NaN();

const TakenFile kFile = {"rain.csv", std::string(64, '1'), 10, 1, 1, 0, {}};

climate::WeatherBook book(const std::string& name, std::vector<double> rain,
                          Date first = make_date(2024, 1, 1)) {
  climate::WeatherBook result;
  result.station.name = name;
  result.daily.first = first;
  result.daily.rain_mm = std::move(rain);
  return result;
}

class TakeWeather : public ::testing::Test {
 protected:
  Rehearsal outside{Seed{1}};
  std::unique_ptr<store::Store> store = invented_programme(outside, 0);

  WeatherTaken take(const climate::WeatherBook& log, TakeDays days = TakeDays::fresh,
                    bool main = false) {
    WeatherTaking how;
    how.days = days;
    how.main = main;
    how.places = {"rain.csv:2", "rain.csv:3", "rain.csv:4", "rain.csv:5"};
    return take_weather(*store, log, how, kFile, kTester);
  }

  climate::DailyWeather daily() { return load_programme(*store).weather.value().daily; }
};

TEST_F(TakeWeather, KeepsACatchOfSeveralDaysAndLoadsItBack) {
  climate::WeatherBook log = book("Hulu", {3, kMissing, kMissing, kMissing});
  log.daily.totals = {{make_date(2024, 1, 2), make_date(2024, 1, 4), 41}};
  take(log);
  EXPECT_EQ(store->count("rain_totals"), 1);
  const climate::DailyWeather back = daily();
  EXPECT_EQ(back.days(), 4U);
  ASSERT_EQ(back.totals.size(), 1U);
  EXPECT_EQ(back.totals[0].first, make_date(2024, 1, 2));
  EXPECT_EQ(back.totals[0].total_mm, 41);
  EXPECT_TRUE(std::isnan(back.rain_mm[3]));
}

TEST_F(TakeWeather, TheFirstStationSpeaksForTheProgrammeUntilAnotherIsChosen) {
  EXPECT_TRUE(take(book("Hulu", {1, 2})).main);
  EXPECT_FALSE(take(book("Hilir", {3, 4})).main);
  EXPECT_EQ(load_programme(*store).weather->station.name, "Hulu");
  EXPECT_TRUE(take(book("Hutan", {5, 6}), TakeDays::fresh, true).main);
  EXPECT_EQ(load_programme(*store).weather->station.name, "Hutan");
  EXPECT_EQ(load_weather_books(*store).size(), 3U);
}

TEST_F(TakeWeather, ASecondStationLeavesThePlanAsItWas) {
  take(book("Hulu", {1, 2}));
  const std::string before = fingerprint(*store, Parameters::shipped());
  take(book("Hilir", {3, 4}));
  EXPECT_EQ(fingerprint(*store, Parameters::shipped()), before);
}

TEST_F(TakeWeather, LaterDaysOfTheSameStationAreAdded) {
  take(book("Hulu", {1, 2}));
  EXPECT_EQ(take(book("Hulu", {3, 4}, make_date(2024, 1, 3))).added, 2);
  EXPECT_EQ(daily().days(), 4U);
}

TEST_F(TakeWeather, DaysThatAreThereAreRefusedWithoutAWordOnThem) {
  take(book("Hulu", {1, 2}));
  EXPECT_THROW(take(book("Hulu", {2, 3}, make_date(2024, 1, 2))), Error);
  EXPECT_EQ(daily().days(), 2U);
}

TEST_F(TakeWeather, ACorrectionChangesOnlyTheDaysThatDifferAndTellsTheirLine) {
  take(book("Hulu", {1, 2, 3}));
  const WeatherTaken taken = take(book("Hulu", {1, 20, kMissing, 4}), TakeDays::correct);
  EXPECT_EQ(taken.same, 1);
  EXPECT_EQ(taken.changed, 1);
  EXPECT_EQ(taken.added, 1);
  ASSERT_EQ(taken.findings.size(), 1U);
  EXPECT_EQ(taken.findings[0].where, "rain.csv:3");
  EXPECT_EQ(taken.findings[0].message.key, "plan.reading_corrected");
  EXPECT_EQ(daily().rain_mm, (std::vector<double>{1, 20, 3, 4}));
}

TEST_F(TakeWeather, TheOldValueStaysInTheLogOfChanges) {
  take(book("Hulu", {1, 2, 3}));
  take(book("Hulu", {1, 20, 3}), TakeDays::correct);
  store::LogQuery query;
  query.table = "weather_days";
  bool found = false;
  for (const store::LoggedChange& change : store->changes(query)) {
    found = found || (change.action == "update" &&
                      change.before_json.find("\"rain_mm\":2") != std::string::npos &&
                      change.after_json.find("\"rain_mm\":20") != std::string::npos);
  }
  EXPECT_TRUE(found);
}

TEST_F(TakeWeather, ANewLogInPlaceOfTheOldOneTakesAwayWhatItDoesNotHave) {
  take(book("Hulu", {1, 2, 3}));
  const WeatherTaken taken = take(book("Hulu", {1, 2.5}), TakeDays::replace);
  EXPECT_EQ(taken.removed, 1);
  EXPECT_EQ(taken.changed, 1);
  EXPECT_EQ(daily().rain_mm, (std::vector<double>{1, 2.5}));
}

TEST_F(TakeWeather, TheSameFileAgainChangesNothing) {
  climate::WeatherBook log = book("Hulu", {3, kMissing, kMissing, 4});
  log.daily.totals = {{make_date(2024, 1, 2), make_date(2024, 1, 3), 41}};
  take(log);
  const std::string before = fingerprint(*store, Parameters::shipped());
  const WeatherTaken taken = take(log, TakeDays::correct);
  EXPECT_EQ(taken.same, 2);
  EXPECT_EQ(taken.changed + taken.added, 0);
  EXPECT_TRUE(taken.findings.empty());
  EXPECT_EQ(fingerprint(*store, Parameters::shipped()), before);
}

TEST_F(TakeWeather, ACatchFoundLaterTakesTheRainOfTheDaysItCovers) {
  take(book("Hulu", {3, 0, 0, 41}));
  climate::WeatherBook log = book("Hulu", {3, kMissing, kMissing, kMissing});
  log.daily.totals = {{make_date(2024, 1, 2), make_date(2024, 1, 4), 41}};
  const WeatherTaken taken = take(log, TakeDays::correct);
  EXPECT_EQ(taken.findings.size(), 3U);
  EXPECT_EQ(daily().totals.size(), 1U);
  EXPECT_NO_THROW(climate::check(load_programme(*store).weather.value()));
}

TEST_F(TakeWeather, ReadingsFoundLaterTakeTheCatchAway) {
  climate::WeatherBook log = book("Hulu", {3, kMissing, kMissing, kMissing});
  log.daily.totals = {{make_date(2024, 1, 2), make_date(2024, 1, 4), 41}};
  take(log);
  const WeatherTaken taken = take(book("Hulu", {3, 1, 40, 0}), TakeDays::correct);
  EXPECT_TRUE(daily().totals.empty());
  ASSERT_EQ(taken.findings.size(), 1U);
  EXPECT_EQ(taken.findings[0].message.key, "plan.total_gone");
}

TEST_F(TakeWeather, TemperaturesOfAnotherBookJoinTheRainOfTheStation) {
  take(book("Hulu", {1, 2}));
  climate::WeatherBook warm = book("Hulu", {kMissing, kMissing});
  warm.daily.tmax_c = {31, 32};
  take(warm, TakeDays::correct);
  EXPECT_EQ(daily().tmax_c, (std::vector<double>{31, 32}));
  EXPECT_EQ(daily().rain_mm, (std::vector<double>{1, 2}));
}

TEST_F(TakeWeather, WhatChangedStandsAmongTheFindingsOfTheImport) {
  take(book("Hulu", {1, 2}));
  take(book("Hulu", {1, 9}), TakeDays::correct);
  const auto imports = store->rows("imports");
  ASSERT_FALSE(imports.empty());
  EXPECT_NE(store::text_of(imports.back(), "findings").find("plan.reading_corrected"),
            std::string::npos);
}

ReadFile read_log(const std::string& text, const TakeOptions& options) {
  return read_to_take("weather", TakeSource::upload("book.csv", text), options);
}

TEST_F(TakeWeather, AMatrixInInchesGoesFromTheBookIntoTheProgramme) {
  TakeOptions options;
  options.units = {"rain=inch"};
  options.year = 2024;
  const ReadFile read =
      read_log("Stasiun: Hulu\nTgl,Jan,Feb,Mar\n1,1,0,2\n2,,0,0\n3,3 (2 hari),0,0\n", options);
  read.keep(*store, kTester);
  const climate::WeatherBook kept = load_programme(*store).weather.value();
  EXPECT_EQ(kept.station.name, "Hulu");
  EXPECT_NEAR(kept.daily.rain_mm[0], 25.4, 1e-9);
  ASSERT_EQ(kept.daily.totals.size(), 1U);
  EXPECT_NEAR(kept.daily.totals[0].total_mm, 76.2, 1e-9);
}

TEST_F(TakeWeather, ACorrectedFileSaysAfterKeepingWhatItChanged) {
  TakeOptions options;
  options.station = "Hulu";
  read_log("date,rain\n2024-01-01,1\n2024-01-02,2\n", options).keep(*store, kTester);
  options.correct = true;
  const ReadFile again = read_log("date,rain\n2024-01-01,1\n2024-01-02,20\n", options);
  const Message kept = again.keep(*store, kTester);
  EXPECT_EQ(kept.key, "plan.take.weather_corrected");
  ASSERT_EQ(again.changes->size(), 1U);
  EXPECT_EQ(again.changes->front().where, "book.csv:3");
}

TEST_F(TakeWeather, ReplacingAndCorrectingAtOnceIsRefused) {
  TakeOptions options;
  options.replace = options.correct = true;
  EXPECT_THROW(read_log("date,rain\n2024-01-01,1\n", options), Error);
}

}  // namespace
}  // namespace wildling::plan
