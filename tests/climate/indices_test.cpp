#include "climate/indices.hpp"

#include <cmath>
#include <sstream>

#include <gtest/gtest.h>

#include "base/random.hpp"
#include "climate/paired.hpp"
#include "climate/rain_runs.hpp"
#include "stat/student.hpp"
#include "table.hpp"

namespace wildling::climate {
namespace {

const Parameters& shipped() {
  static const Parameters parameters = Parameters::shipped();
  return parameters;
}

std::vector<double> list(const std::string& text) {
  std::vector<double> values;
  std::stringstream stream(text);
  for (std::string cell; std::getline(stream, cell, ';');) {
    if (const auto value = parse_number(cell)) values.push_back(*value);
  }
  return values;
}

using Values = std::map<std::string, double>;
using Words = std::map<std::string, std::string>;

Values etccdi(const std::string& name, const std::vector<double>& v) {
  const std::size_t half = v.size() / 2;
  const std::span<const double> all(v), one = all.first(half), two = all.subspan(half);
  const auto runs = [&](RunCredit credit) {
    return Values{{"CWD_period1", longest_run(at_least(v, 1), 0, half, credit)},
                  {"CWD_period2", longest_run(at_least(v, 1), half, v.size(), credit)}};
  };
  if (name == "prcptot")
    return {{"PRCPTOT_period1", rain_on_wet_days_mm(one, 1)},
            {"PRCPTOT_period2", rain_on_wet_days_mm(two, 1)}};
  if (name == "sdii")
    return {{"SDII_period1", rain_per_wet_day_mm(one, 1)},
            {"SDII_period2", rain_per_wet_day_mm(two, 1)}};
  if (name == "cwd_spells_cut") return runs(RunCredit::cut);
  if (name == "cwd_spells_may_span") return runs(RunCredit::at_end);
  if (name == "days_over_threshold")
    return {{"count_p1", days_at_least(one, 2)}, {"count_p2", days_at_least(two, 2)}};
  Values r = {{"Rx1day_p1", wettest_run(v, 0, half, 1).rain_mm},
              {"Rx1day_p2", wettest_run(v, half, v.size(), 1).rain_mm},
              {"Rx5day_end_p1", wettest_run(v, 0, half, 5).rain_mm},
              {"Rx5day_end_p2", wettest_run(v, half, v.size(), 5).rain_mm}};
  r["Rx5day_centre_p1"] =
      wettest_run(v, 0, half + 2, 5).rain_mm;  // by the middle day: windows end two days later
  r["Rx5day_centre_p2"] = wettest_run(v, half + 2, v.size(), 5).rain_mm;
  return r;
}

Values dry(const std::string& name, const std::vector<double>& v) {
  if (name == "frequency_sum_vs_max") {
    return {{"events_sum", dry_events(v, 3, 1, DryWindow::sum).events},
            {"events_max", dry_events(v, 3, 1, DryWindow::every_day).events}};
  }
  const DryEvents sum = dry_events(v, 7, 3, DryWindow::sum),
                  every = dry_events(v, 7, 3, DryWindow::every_day);
  return {{"events_sum", sum.events},
          {"days_sum", sum.days},
          {"days_max", every.days},
          {"longest_sum", sum.longest},
          {"longest_max", every.longest}};
}

TEST(RainIndices, EveryPublishedCaseIsMet) {
  std::map<std::string, std::vector<double>> inputs;
  int checked = 0;
  const CsvTable table = reference_table("rain_chain/data.csv");
  for (const CsvRow& row : table.rows) {
    const std::string name = row.cells[0].substr(row.cells[0].find('/') + 1);
    const bool spells = row.cells[0].starts_with("dry-spell/") && name != "cdd_run_cut_at_month";
    if (!spells && !row.cells[0].starts_with("etccdi/")) continue;
    if (row.cells[1] == "in" && (row.cells[2] == "daily" || row.cells[2] == "data"))
      inputs[name] = list(row.cells[3]);
    if (row.cells[1] != "out") continue;
    const Values values = spells ? dry(name, inputs.at(name)) : etccdi(name, inputs.at(name));
    ASSERT_TRUE(values.contains(row.cells[2])) << name << " " << row.cells[2];
    EXPECT_NEAR(values.at(row.cells[2]), *parse_number(row.cells[3]),
                *parse_number(row.cells[5]) + 1e-12)
        << name << " " << row.cells[2];
    ++checked;
  }
  EXPECT_EQ(checked, 28);
}

// xclim's test of the longest dry run: 10 mm all year, days 6 to 35 dry.
TEST(RainIndices, ADryRunIsCutAtTheMonthOrCreditedToItsStart) {
  std::vector<double> rain(365, 10);
  for (std::size_t i = 5; i < 35; ++i) rain[i] = 0;
  EXPECT_EQ(longest_run(below(rain, 1), 0, 31, RunCredit::cut), 26);
  EXPECT_EQ(longest_run(below(rain, 1), 0, 31, RunCredit::at_start), 30);
}

// Barro Colorado Island (tests/reference/bci): figures computed independently from the same days.
TEST(YearIndices, MeetTheFiguresOfBarroColorado) {
  std::map<int, DailyWeather> years;
  const CsvTable table = reference_table("bci/daily_rain.csv");
  for (const CsvRow& row : table.rows) {
    const Date day = *parse_iso_date(row.cells[0]);
    DailyWeather& daily = years[year_of(day)];
    daily.first = make_date(year_of(day), 1, 1);
    daily.rain_mm.push_back(*parse_number(row.cells[1]));
  }

  struct Printed {
    int year;
    double total, prcptot, rx1day, rx5day;
    int r10, r20, cdd, cwd;
  };

  for (const Printed& p : {Printed{1972, 2282.444, 2261.362, 80.518, 168.656, 72, 36, 16, 9},
                           Printed{1997, 1698.889, 1677.752, 94.862, 164.466, 44, 29, 40, 8},
                           Printed{2010, 4136.042, 4112.907, 221.078, 391.915, 98, 59, 13, 11}}) {
    const YearIndices y = year_indices(years.at(p.year), shipped()).front();
    EXPECT_TRUE(y.judged);
    EXPECT_NEAR(y.total_mm, p.total, 5e-4);
    EXPECT_NEAR(y.prcptot_mm, p.prcptot, 5e-4);
    EXPECT_NEAR(y.rx1day_mm, p.rx1day, 5e-4);
    EXPECT_NEAR(y.rx5day_mm, p.rx5day, 5e-4);
    EXPECT_EQ(y.r10, p.r10);
    EXPECT_EQ(y.r20, p.r20);
    EXPECT_EQ(y.cdd, p.cdd);
    EXPECT_EQ(y.cwd, p.cwd);
  }
}

DailyWeather drying(int years, double change_per_year) {
  DailyWeather daily;
  daily.first = make_date(1991, 1, 1);
  Stream luck(Seed{11}, Purpose{"indices test"}, 0);
  for (Date d = daily.first; d < make_date(1991 + years, 1, 1); d += std::chrono::days(1)) {
    const double mean = 14 + change_per_year * (year_of(d) - 1991);
    daily.rain_mm.push_back(luck.uniform() < 0.5 ? mean * luck.gamma(0.9) : 0);
  }
  return daily;
}

TEST(Trends, AreRefusedUnderTenYears) {
  for (const TrendResult& r : trends(year_indices(drying(9, -1), shipped()), shipped())) {
    ASSERT_TRUE(r.refused);
    EXPECT_EQ(r.first_line.key, "climate.trend_refused");
  }
}

TEST(Trends, FindAStrongDryingAndNoneWhereThereIsNone) {
  EXPECT_EQ(trends(year_indices(drying(25, -0.25), shipped()), shipped())[0].verdict,
            TrendVerdict::falling);
  const TrendResult none = trends(year_indices(drying(25, 0), shipped()), shipped())[0];
  EXPECT_TRUE(none.verdict == TrendVerdict::no_change || none.verdict == TrendVerdict::cannot_tell);
}

TEST(Trends, DateTheYearOfANewGauge) {
  DailyWeather daily = drying(24, 0);
  for (std::size_t i = 0; i < daily.days(); ++i) {
    if (year_of(daily.day(i)) >= 2003) daily.rain_mm[i] *= 1.4;
  }
  EXPECT_EQ(trends(year_indices(daily, shipped()), shipped())[0].break_after_year, 2002);
}

TEST(YearIndices, AYearWithGapsIsNotJudged) {
  DailyWeather daily = drying(3, 0);
  for (std::size_t i = 400; i < 430; ++i) daily.rain_mm[i] = std::nan("");
  const auto years = year_indices(daily, shipped());
  EXPECT_TRUE(years[0].judged);
  EXPECT_FALSE(years[1].judged);
  EXPECT_EQ(years[1].missing_days, 30);
}

WeatherBook thermometer(double shift, int days) {
  WeatherBook book;
  book.daily.first = make_date(2025, 1, 1);
  Stream luck(Seed{2}, Purpose{"paired test"}, 0);
  for (int i = 0; i < days; ++i) {
    book.daily.rain_mm.push_back(0);
    book.daily.tmax_c.push_back(32 + luck.normal() - shift);
    book.daily.tmin_c.push_back(23);
  }
  return book;
}

TEST(PairedStations, FindTheCoolingWithAnIntervalThatHoldsIt) {
  const PairedResult r = paired_stations(thermometer(0, 200), thermometer(2.5, 200), shipped());
  ASSERT_TRUE(r.tmax_c);
  EXPECT_EQ(r.first_line.key, "climate.paired_cooler");
  EXPECT_NEAR(r.tmax_c->mean, 2.5, 1e-9);  // the same luck at both
  EXPECT_FALSE(r.vpd_kpa);                 // no humidity was read
}

TEST(PairedStations, AreRefusedOnAFewWeeks) {
  EXPECT_TRUE(paired_stations(thermometer(0, 30), thermometer(2, 30), shipped()).refused);
}

// Student (1908), any table: t(0.975) for 1, 5 and 30 degrees of freedom.
TEST(Student, MeetsThePrintedTable) {
  EXPECT_NEAR(stat::student_quantile(0.975, 1), 12.706, 5e-4);
  EXPECT_NEAR(stat::student_quantile(0.975, 5), 2.571, 5e-4);
  EXPECT_NEAR(stat::student_quantile(0.025, 30), -2.042, 5e-4);
}

}  // namespace
}  // namespace wildling::climate
