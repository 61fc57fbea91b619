#include "climate/quality.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include <gtest/gtest.h>

#include "base/random.hpp"
#include "table.hpp"

namespace wildling::climate {
namespace {

constexpr double kMissing = std::numeric_limits<double>::quiet_NaN();

const Parameters& shipped() {
  static const Parameters parameters = Parameters::shipped();
  return parameters;
}

DailyWeather extract(const std::string& name) {
  DailyWeather daily;
  std::vector<std::pair<Date, const CsvRow*>> days;
  const CsvTable table = reference_table("station_faults/data.csv");
  for (const CsvRow& row : table.rows) {
    if (row.cells[0] != name) continue;
    const int year = static_cast<int>(*parse_integer(row.cells[2]));
    days.push_back(
        {make_date(year, 1, 1) + std::chrono::days(*parse_integer(row.cells[3]) - 1), &row});
  }
  daily.first = days.front().first;
  const auto n = static_cast<std::size_t>((days.back().first - daily.first).count()) + 1;
  daily.rain_mm.assign(n, kMissing);
  daily.tmax_c = daily.tmin_c = daily.rain_mm;
  for (const auto& [day, row] : days) {
    const std::size_t i = *daily.index(day);
    daily.tmax_c[i] = *parse_number(row->cells[4]);
    daily.tmin_c[i] = *parse_number(row->cells[5]);
    daily.rain_mm[i] = *parse_number(row->cells[6]);
  }
  return daily;
}

bool has(const std::vector<Flag>& flags, Check check, Column column, const std::optional<Date>& day,
         const DailyWeather& daily) {
  return std::any_of(flags.begin(), flags.end(), [&](const Flag& f) {
    return f.check == check && f.column == column && (!day || daily.day(f.first) == *day);
  });
}

TEST(Quality, FindsTheSpikeOfSitiung1981) {
  const DailyWeather daily = extract("tmax_spike/Sitiung");
  EXPECT_TRUE(has(quality_flags(daily, shipped()), Check::gap, Column::tmax,
                  make_date(1981, 1, 1) + std::chrono::days(283), daily));
}

TEST(Quality, FindsTheLostDigitOfCarimagua1997) {
  const DailyWeather daily = extract("tmin_digit_lost/Carimagua");
  EXPECT_TRUE(has(quality_flags(daily, shipped()), Check::gap, Column::tmin,
                  make_date(1997, 1, 1) + std::chrono::days(265), daily));
}

TEST(Quality, FindsTheRepeatedDaysOfSitiungAndYurimaguas) {
  for (const char* name : {"constant_tmax_run/Sitiung", "constant_tmax_run/Yurimaguas"}) {
    const DailyWeather daily = extract(name);
    EXPECT_TRUE(has(quality_flags(daily, shipped()), Check::repeated, Column::tmax, {}, daily))
        << name;
  }
}

TEST(Quality, FindsTheCopiedYearOfYurimaguas) {
  const DailyWeather daily = extract("year_copied/Yurimaguas");
  EXPECT_TRUE(has(quality_flags(daily, shipped()), Check::same_year, Column::tmax, {}, daily));
}

DailyWeather invented(int years) {
  DailyWeather daily;
  daily.first = make_date(2001, 1, 1);
  Stream luck(Seed{5}, Purpose{"quality test"}, 0);
  for (Date d = daily.first; d < make_date(2001 + years, 1, 1); d += std::chrono::days(1)) {
    daily.rain_mm.push_back(luck.uniform() < 0.4 ? std::round(120 * luck.gamma(0.8)) / 10 : 0);
    daily.tmax_c.push_back(std::round(10 * (31 + 1.3 * luck.normal())) / 10);
    daily.tmin_c.push_back(std::round(10 * (23 + 0.7 * luck.normal())) / 10);
  }
  return daily;
}

TEST(Quality, LeavesAnHonestLogAlone) {
  EXPECT_TRUE(quality_flags(invented(8), shipped()).empty());
}

TEST(Quality, FlagsRainThatIsFarOutOfSeason) {
  DailyWeather daily = invented(8);
  daily.rain_mm[1000] = 520;
  EXPECT_TRUE(
      has(quality_flags(daily, shipped()), Check::outlier, Column::rain, daily.day(1000), daily) ||
      has(quality_flags(daily, shipped()), Check::gap, Column::rain, daily.day(1000), daily));
}

TEST(Quality, FlagsANightWarmerThanItsDay) {
  DailyWeather daily = invented(1);
  std::swap(daily.tmin_c[40], daily.tmax_c[40]);
  EXPECT_TRUE(
      has(quality_flags(daily, shipped()), Check::internal, Column::tmin, daily.day(40), daily));
}

TEST(Quality, NeverChangesTheLog) {
  const DailyWeather daily = extract("tmax_spike/Sitiung");
  DailyWeather copy = daily;
  quality_flags(copy, shipped());
  for (std::size_t i = 0; i < daily.days(); ++i) {
    EXPECT_TRUE(copy.tmax_c[i] == daily.tmax_c[i] || std::isnan(daily.tmax_c[i]));
  }
}

TEST(WeekdayBias, SeesAGaugeThatIsNotReadOnSundays) {
  DailyWeather daily = invented(3);
  for (std::size_t i = 1; i < daily.days(); ++i) {
    if (std::chrono::weekday(daily.day(i - 1)).c_encoding() != 0) continue;
    daily.rain_mm[i] += daily.rain_mm[i - 1];
    daily.rain_mm[i - 1] = 0;
  }
  const WeekdayBias bias = weekday_bias(daily, shipped());
  EXPECT_TRUE(bias.biased);
  EXPECT_EQ(bias.wet[0], 0);
}

TEST(WeekdayBias, IsQuietOnAnHonestLog) {
  EXPECT_FALSE(weekday_bias(invented(8), shipped()).biased);
}

}  // namespace
}  // namespace wildling::climate
