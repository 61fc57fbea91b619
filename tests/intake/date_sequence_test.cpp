#include "intake/date_sequence.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "base/files.hpp"
#include "intake/weather_log.hpp"

namespace wildling::intake {
namespace {

using Days = std::vector<std::optional<Date>>;

Days run(Date first, int count) {
  Days days;
  for (int i = 0; i < count; ++i) days.emplace_back(first + std::chrono::days(i));
  return days;
}

std::vector<std::size_t> rows_of(const Days& days) {
  std::vector<std::size_t> rows;
  for (const OutOfPlace& fault : dates_out_of_place(days)) rows.push_back(fault.row);
  return rows;
}

TEST(DateSequence, AWrongYearIsFoundWithTheRowsAroundIt) {
  Days days = run(make_date(2023, 12, 25), 20);
  days[9] = make_date(2023, 1, 3);
  const auto faults = dates_out_of_place(days);
  ASSERT_EQ(faults.size(), 1U);
  EXPECT_EQ(faults[0].row, 9U);
  EXPECT_EQ(faults[0].before, make_date(2024, 1, 2));
  EXPECT_EQ(faults[0].after, make_date(2024, 1, 4));
}

TEST(DateSequence, AGoodRowBetweenTwoWrongOnesIsKept) {
  Days days = run(make_date(2023, 12, 25), 20);
  days[9] = make_date(2023, 1, 3);
  days[11] = make_date(2023, 1, 5);
  EXPECT_EQ(rows_of(days), (std::vector<std::size_t>{9, 11}));
}

TEST(DateSequence, AYearTooLateIsFoundToo) {
  Days days = run(make_date(2023, 3, 1), 20);
  days[5] = make_date(2032, 3, 6);
  EXPECT_EQ(rows_of(days), (std::vector<std::size_t>{5}));
}

TEST(DateSequence, ALogThatRunsBackwardIsJudgedTheSameWay) {
  Days days = run(make_date(2023, 3, 1), 20);
  std::reverse(days.begin(), days.end());
  days[5] = make_date(2013, 3, 15);
  EXPECT_EQ(rows_of(days), (std::vector<std::size_t>{5}));
}

TEST(DateSequence, SwappedRowsRepeatedDaysGapsAndMovedBlocksAreLeftAlone) {
  Days swapped = run(make_date(2023, 3, 1), 20);
  std::swap(swapped[4], swapped[5]);
  EXPECT_TRUE(rows_of(swapped).empty());
  Days repeated = run(make_date(2023, 3, 1), 60);
  const Days again = run(make_date(2023, 3, 1), 30);
  repeated.insert(repeated.end(), again.begin(), again.end());
  EXPECT_TRUE(rows_of(repeated).empty());
  Days gap = run(make_date(2020, 3, 1), 5);
  const Days later = run(make_date(2023, 3, 1), 5);
  gap.insert(gap.end(), later.begin(), later.end());
  EXPECT_TRUE(rows_of(gap).empty());
  Days sheets = run(make_date(2023, 3, 1), 30);
  const Days earlier = run(make_date(2021, 3, 1), 300);
  sheets.insert(sheets.end(), earlier.begin(), earlier.end());
  EXPECT_TRUE(rows_of(sheets).empty());
}

TEST(DateSequence, RowsWithoutADateAreSkipped) {
  Days days = run(make_date(2023, 3, 1), 20);
  days[3].reset();
  days[8] = make_date(2022, 3, 9);
  EXPECT_EQ(rows_of(days), (std::vector<std::size_t>{8}));
}

RC_GTEST_PROP(DateSequence, ALogInOrderHasNoRowOutOfPlace, ()) {
  const auto steps = *rc::gen::container<std::vector<int>>(rc::gen::inRange(0, 400));
  Days days;
  Date day = make_date(2001, 1, 1);
  for (const int step : steps) days.emplace_back(day += std::chrono::days(step));
  RC_ASSERT(dates_out_of_place(days).empty());
}

// Scott & Bruna (2022): see tests/reference/weather_dates/README.md.
TEST(DateSequence, ThreeRowsOfARealBookAreSetAsideAsItsAuthorsCorrectedThem) {
  const WeatherFile file =
      read_weather_bytes(read_file(WILDLING_REFERENCE "/weather_dates/porto_excerpt.csv"),
                         "porto.csv", {.columns = {{"date", "DATA"}, {"rain", "CHUVA"}}});
  std::vector<std::string> days;
  for (const Finding& finding : file.findings) {
    if (finding.message.key != "intake.date_out_of_place") continue;
    EXPECT_EQ(finding.severity, Severity::set_aside);
    days.push_back(iso_date(std::get<Date>(finding.message.arguments.at("day"))));
  }
  EXPECT_EQ(days, (std::vector<std::string>{"1993-10-20", "1993-01-05", "1993-01-07"}));
}

}  // namespace
}  // namespace wildling::intake
