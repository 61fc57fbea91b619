#include "climate/breaks.hpp"

#include <cmath>
#include <limits>

#include <gtest/gtest.h>

#include "base/random.hpp"
#include "base/words.hpp"
#include "climate/climate_workings.hpp"
#include "climate/fill.hpp"
#include "climate/quality_workings.hpp"

namespace wildling::climate {
namespace {

constexpr double kMissing = std::numeric_limits<double>::quiet_NaN();

const Parameters& shipped() {
  static const Parameters parameters = Parameters::shipped();
  return parameters;
}

DailyWeather invented(int years, std::uint64_t seed = 5) {
  DailyWeather daily;
  daily.first = make_date(1990, 1, 1);
  Stream luck(Seed{seed}, Purpose{"breaks test"}, 0);
  for (Date d = daily.first; d < make_date(1990 + years, 1, 1); d += std::chrono::days(1)) {
    const double season = std::cos(6.283 * day_of_year(d) / 365.25);
    daily.rain_mm.push_back(luck.uniform() < 0.5 + 0.1 * season ? 0.2 + 13 * luck.gamma(0.8) : 0);
    daily.tmax_c.push_back(31 + season + 1.3 * luck.normal());
    daily.tmin_c.push_back(23 + 0.7 * luck.normal());
  }
  return daily;
}

const BreakResult& named(const std::vector<BreakResult>& all, const std::string& name) {
  for (const BreakResult& result : all) {
    if (break_name(result) == name) return result;
  }
  throw std::runtime_error("no break result " + name);
}

TEST(Breaks, ANewGaugeIsFoundWithItsMonthAndItsFactor) {
  DailyWeather daily = invented(24);
  const Date changed = make_date(2003, 7, 1);
  for (std::size_t i = 0; i < daily.days(); ++i) {
    if (daily.day(i) >= changed) daily.rain_mm[i] *= 0.8;
  }
  const auto all = breaks(daily, shipped());
  const BreakResult& rain = named(all, "rain_amount");
  EXPECT_EQ(rain.verdict, BreakVerdict::yes);
  EXPECT_NEAR(rain.size, 0.8, 0.05);
  EXPECT_LT(rain.low, 0.8);
  EXPECT_GT(rain.high, 0.8);
  EXPECT_LE(std::abs((rain.from - changed).count()), 366);  // a month's mean is fifteen showers
  EXPECT_NE(named(all, "tmax").verdict, BreakVerdict::yes);
}

TEST(Breaks, AShiftOfTemperatureIsFoundWithItsDateAndSize) {
  DailyWeather daily = invented(20);
  const Date moved = make_date(2001, 4, 1);
  for (std::size_t i = 0; i < daily.days(); ++i) {
    if (daily.day(i) >= moved) daily.tmin_c[i] += 0.6;
  }
  const auto all = breaks(daily, shipped());
  const BreakResult& tmin = named(all, "tmin");
  EXPECT_EQ(tmin.verdict, BreakVerdict::yes);
  EXPECT_EQ(tmin.from, moved);
  EXPECT_NEAR(tmin.size, 0.6, 0.08);
}

TEST(Breaks, SmallRainThatIsNoLongerWrittenShowsInTheWetDays) {
  DailyWeather daily = invented(20);
  for (std::size_t i = 0; i < daily.days(); ++i) {
    if (daily.day(i) >= make_date(2000, 1, 1) && daily.rain_mm[i] < 4) daily.rain_mm[i] = 0;
  }
  const auto all = breaks(daily, shipped());
  EXPECT_EQ(named(all, "rain_days").verdict, BreakVerdict::yes);
  EXPECT_LT(named(all, "rain_days").size, 0);
}

TEST(Breaks, AreRareInHonestLogs) {
  int found = 0;
  for (std::uint64_t seed = 1; seed <= 30; ++seed) {
    for (const BreakResult& result : breaks(invented(15, seed), shipped()))
      found += result.verdict == BreakVerdict::yes ? 1 : 0;
  }
  EXPECT_LE(found, 4);  // 120 tests at 1 in 100
}

TEST(Breaks, UnderTenYearsNothingIsSaid) {
  for (const BreakResult& result : breaks(invented(6), shipped())) {
    EXPECT_EQ(result.verdict, BreakVerdict::cannot_tell);
    EXPECT_EQ(result.first_line.key, "climate.break_refused");
  }
}

TEST(Breaks, GapsDoNotMakeABreak) {
  DailyWeather daily = invented(16);
  for (std::size_t i = 2000; i < 3000; ++i) daily.tmax_c[i] = daily.rain_mm[i] = kMissing;
  for (const BreakResult& result : breaks(daily, shipped()))
    EXPECT_NE(result.verdict, BreakVerdict::yes) << break_name(result);
}

TEST(QualityWorkings, EveryNodeHolds) {
  DailyWeather daily = invented(14);
  daily.tmax_c[400] = 51;
  Workings workings;
  Station station;
  station.source = "invented log";
  add_quality_workings(workings, station, quality_flags(daily, shipped()),
                       weekday_bias(daily, shipped()), breaks(daily, shipped()));
  const FilledLog filled = fill_gaps(daily, nullptr, shipped());
  add_fill_workings(workings, station, filled);
  EXPECT_NE(workings.find("climate/quality/break/tmin/t"), nullptr);
  EXPECT_NE(workings.find("climate/quality/weekday/wet_p"), nullptr);
  EXPECT_EQ(nodes_that_do_not_hold(workings, formulas()), std::vector<std::string>{});
}

TEST(QualityWords, EverySentenceIsThereInBothLanguages) {
  DailyWeather daily = invented(24);
  for (std::size_t i = 5000; i < daily.days(); ++i) {
    daily.rain_mm[i] = daily.rain_mm[i] < 4 ? 0 : 0.7 * daily.rain_mm[i];
    daily.tmax_c[i] += 2;
  }
  daily.tmin_c[100] = 8;
  for (std::size_t i = 0; i < 31; ++i) daily.rain_mm[365 + i] = 0;
  Workings workings;
  const auto all = breaks(daily, shipped());
  const auto flags = quality_flags(daily, shipped());
  add_quality_workings(workings, {}, flags, weekday_bias(daily, shipped()), all);
  add_fill_workings(workings, {}, fill_gaps(daily, nullptr, shipped()));
  for (const Language language : {Language::en, Language::id}) {
    const Words words(language);
    std::vector<Message> messages;
    for (const BreakResult& result : all) messages.push_back(result.first_line);
    for (const BreakResult& result : breaks(invented(3), shipped()))
      messages.push_back(result.first_line);
    for (const Flag& flag : flags) messages.push_back(flag.message);
    for (const WorkingsNode& node : workings.nodes()) messages.push_back(node.label);
    for (const FilledColumn& column : fill_gaps(daily, nullptr, shipped()).columns)
      messages.push_back(column.first_line);
    for (const Message& message : messages) {
      const std::string sentence = words.text(message);
      EXPECT_EQ(sentence.find_first_of("[{"), std::string::npos) << sentence;
    }
  }
}

TEST(Steps, ALeapThatTheLogDoesNotKnowIsFlaggedOnce) {
  DailyWeather daily = invented(3);
  daily.tmin_c[500] = 5;
  int steps = 0;
  for (const Flag& flag : quality_flags(daily, shipped())) steps += flag.first == 500 ? 1 : 0;
  EXPECT_GE(steps, 1);
  DailyWeather shifted = invented(3);
  for (std::size_t i = 700; i < shifted.days(); ++i) shifted.tmin_c[i] += 9.5;
  int leaps = 0;
  for (const Flag& flag : quality_flags(shifted, shipped())) {
    if (flag.check != Check::step) continue;
    ++leaps;
    EXPECT_EQ(flag.first, 700U);
  }
  EXPECT_EQ(leaps, 1);
}

TEST(DryMonths, AMonthOfZerosIsFlaggedWhereThisMonthAlwaysBroughtRain) {
  DailyWeather daily = invented(7);
  const std::size_t begin = *daily.index(make_date(1993, 11, 1));
  for (std::size_t i = begin; i < begin + 30; ++i) daily.rain_mm[i] = 0;
  std::vector<std::size_t> found;
  for (const Flag& flag : quality_flags(daily, shipped())) {
    if (flag.check == Check::dry_month) found.push_back(flag.first);
  }
  EXPECT_EQ(found, std::vector<std::size_t>{begin});
}

TEST(DryMonths, AreNotFlaggedWhereADrySeasonIsUsual) {
  DailyWeather daily = invented(7);
  for (std::size_t i = 0; i < daily.days(); ++i) {
    if (month_of(daily.day(i)) == 8) daily.rain_mm[i] = year_of(daily.day(i)) % 2 == 0 ? 0 : 0.4;
  }
  for (const Flag& flag : quality_flags(daily, shipped())) EXPECT_NE(flag.check, Check::dry_month);
}

TEST(Fill, GapsOfTemperatureUpToThreeDaysAreBridgedAndLongerOnesStay) {
  DailyWeather daily = invented(1);
  daily.tmin_c[10] = 20;
  daily.tmin_c[14] = 24;
  for (std::size_t i = 11; i < 14; ++i) daily.tmin_c[i] = kMissing;
  for (std::size_t i = 20; i < 24; ++i) daily.tmin_c[i] = kMissing;
  const FilledLog log = fill_gaps(daily, nullptr, shipped());
  const FilledColumn& tmin = log.columns[2];
  EXPECT_EQ(tmin.column, Column::tmin);
  EXPECT_NEAR(tmin.values[12], 22, 1e-12);
  EXPECT_EQ(tmin.filled_days, 3U);
  EXPECT_EQ(tmin.missing_days, 4U);
  EXPECT_NEAR(tmin.share, 3.0 / 365, 1e-12);
}

TEST(Fill, RainIsNeverBridgedAndNeverFilledWithoutANeighbour) {
  DailyWeather daily = invented(1);
  daily.rain_mm[50] = kMissing;
  EXPECT_EQ(fill_gaps(daily, nullptr, shipped()).columns[0].filled_days, 0U);
}

TEST(Fill, RainComesFromTheNeighbourInTheMonthsRatio) {
  DailyWeather near = invented(4);
  DailyWeather daily = near;
  for (double& mm : daily.rain_mm) mm *= 1.5;
  std::size_t wet = 100;
  while (near.rain_mm[wet] == 0) ++wet;
  daily.rain_mm[wet] = kMissing;
  const FilledLog log = fill_gaps(daily, &near, shipped());
  EXPECT_NEAR(log.columns[0].values[wet], 1.5 * near.rain_mm[wet], 1e-9);
  EXPECT_EQ(log.columns[0].filled_days, 1U);
}

TEST(Fill, ACatchOfSeveralDaysIsSharedAsTheNeighboursDaysWentAndKeepsItsSum) {
  DailyWeather near = invented(4);
  DailyWeather daily = near;
  near.rain_mm[200] = 10;
  near.rain_mm[201] = 0;
  near.rain_mm[202] = 30;
  for (std::size_t i = 200; i < 203; ++i) daily.rain_mm[i] = kMissing;
  daily.totals = {{daily.day(200), daily.day(202), 20}};
  const FilledColumn rain = fill_gaps(daily, &near, shipped()).columns[0];
  EXPECT_NEAR(rain.values[200], 5, 1e-12);
  EXPECT_NEAR(rain.values[201], 0, 1e-12);
  EXPECT_NEAR(rain.values[202], 15, 1e-12);
  EXPECT_EQ(rain.method[200], FillMethod::total_shared);
  EXPECT_TRUE(std::isnan(fill_gaps(daily, nullptr, shipped()).columns[0].values[200]));
}

}  // namespace
}  // namespace wildling::climate
