#include "climate/log_age.hpp"

#include <limits>

#include <gtest/gtest.h>

namespace wildling::climate {
namespace {

DailyWeather ten_days() {
  DailyWeather daily;
  daily.first = make_date(2026, 1, 1);
  daily.rain_mm.assign(10, 1.0);
  return daily;
}

TEST(LogAge, AnOldLogSaysHowManyDaysAndGivesNoAdvice) {
  const auto message = no_advice_for(ten_days(), make_date(2026, 3, 25), Parameters::shipped());
  ASSERT_TRUE(message);
  EXPECT_EQ(*message, say("climate.log_old", {{"days", std::int64_t{74}}}));
}

TEST(LogAge, BlankDaysAtTheEndDoNotMakeItYounger) {
  DailyWeather daily = ten_days();
  daily.rain_mm.insert(daily.rain_mm.end(), 60, std::numeric_limits<double>::quiet_NaN());
  EXPECT_EQ(last_rain_reading(daily), make_date(2026, 1, 10));
}

TEST(LogAge, AFreshLogGivesAdvice) {
  EXPECT_FALSE(no_advice_for(ten_days(), make_date(2026, 1, 12), Parameters::shipped()));
}

TEST(LogAge, ALogFromTheFutureIsRefused) {
  EXPECT_EQ(no_advice_for(ten_days(), make_date(2025, 12, 1), Parameters::shipped())->key,
            "climate.log_ends_later");
}

}  // namespace
}  // namespace wildling::climate
