// Monthly totals of real logs against the tables their keepers made themselves.
#include <cmath>
#include <map>

#include <gtest/gtest.h>

#include "base/csv.hpp"
#include "base/files.hpp"
#include "intake/weather_log.hpp"

namespace wildling::intake {
namespace {

std::string reference(const std::string& name) {
  std::string path = WILDLING_REFERENCE "/";
  path += name;
  return path;
}

std::string month_of_day(Date day) {
  std::string month = iso_date(day);
  month.resize(7);
  return month;
}

// A catch of several days counts for the month it was emptied in, as the keepers count it.
std::map<std::string, double> monthly(const climate::DailyWeather& daily) {
  std::map<std::string, double> sums;
  for (std::size_t i = 0; i < daily.days(); ++i) {
    if (!std::isnan(daily.rain_mm[i])) sums[month_of_day(daily.day(i))] += daily.rain_mm[i];
  }
  for (const climate::RainTotal& total : daily.totals)
    sums[month_of_day(total.last)] += total.total_mm;
  return sums;
}

TEST(KeepersTotals, EveryMonthOfBarroColoradoIslandIsTheKeepers) {
  const auto ours = monthly(read_weather(reference("bci/daily_rain.csv")).daily);
  const CsvTable keepers = parse_csv_table(read_file(reference("bci/monthly_totals.csv")));
  ASSERT_EQ(keepers.rows.size(), 36U);
  for (const CsvRow& row : keepers.rows) {
    const auto year = static_cast<int>(*parse_integer(row.cells[0]));
    const auto number = static_cast<unsigned>(*parse_integer(row.cells[1]));
    const std::string month = month_of_day(make_date(year, number, 1));
    EXPECT_NEAR(ours.at(month), *parse_number(row.cells[2]), 0.0006) << month;
  }
}

// The keepers' totals of February to April 2019 count days that stand twice in their file two
// times: 39.116 mm in February and 101.600 mm in April; once each they are the half.
TEST(KeepersTotals, DaysThatStandTwiceCountOnceWhereTheKeepersCountedThemTwice) {
  WeatherOptions options;
  options.columns = {{"rain", "ra"}, {"date", "date"}};
  const WeatherFile file = read_weather(reference("weather_logs/bci_2019_excerpt.csv"), options);
  const auto ours = monthly(file.daily);
  EXPECT_NEAR(ours.at("2019-02"), 39.116 / 2, 0.0006);
  std::size_t conflicts = 0;
  for (const Finding& finding : file.findings)
    conflicts += finding.message.key == "intake.day_conflict" ? 1U : 0U;
  EXPECT_GT(conflicts, 0U);  // 21 and 22 April carry two share-outs of one catch: neither is used
  EXPECT_NEAR(ours.at("2019-04"), 0, 0.0006);
}

// Where a month differs, the reason and what the reader said.
const std::map<std::string, std::string> kExplained = {
    // 147.2 mm on 24 March, after half a year in which nobody came: longer than a catch may be
    {"1998-03", "intake.catch_begins_unknown"},
    // the month's sum, 152.6 mm, stands among the days on 22 October
    {"1998-10", "intake.sum_among_days"}};

TEST(KeepersTotals, MonthsOfAForestGaugeAreTheKeepersButWhereItIsExplained) {
  const WeatherFile file = read_weather(reference("bdffp_rain/gaviao_1996_1998.csv"));
  const auto ours = monthly(file.daily);
  const CsvTable keepers = parse_csv_table(read_file(reference("bdffp_rain/gaviao_monthly.csv")));
  ASSERT_EQ(keepers.rows.size(), 36U);
  EXPECT_GT(file.daily.totals.size(), 20U);
  for (const CsvRow& row : keepers.rows) {
    const std::string& month = row.cells[0];
    const auto found = ours.find(month);
    const double mm = found == ours.end() ? 0 : found->second;
    const bool equal = std::abs(mm - parse_number(row.cells[1]).value_or(0)) <= 0.06;
    EXPECT_EQ(equal, kExplained.count(month) == 0)
        << month << " ours " << mm << " keepers " << row.cells[1];
  }
}

}  // namespace
}  // namespace wildling::intake
