// What the ends of a log, its gaps, leap years and the turn of the year do to the window.
#include <algorithm>
#include <limits>
#include <random>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "base/words.hpp"
#include "climate/planting_window.hpp"

namespace wildling::climate {
namespace {

constexpr double kMissing = std::numeric_limits<double>::quiet_NaN();

const Parameters& shipped() {
  static const Parameters parameters = Parameters::shipped();
  return parameters;
}

// Invented: 12 mm every third day from `first` to the day before `end`.
WeatherBook wet_book(Date first, Date end) {
  WeatherBook book;
  book.station.name = "invented";
  book.daily.first = first;
  for (Date d = first; d < end; d += std::chrono::days(1))
    book.daily.rain_mm.push_back((d - first).count() % 3 == 0 ? 12 : 0);
  return book;
}

void blank(WeatherBook& book, Date from, int days) {
  const auto begin = static_cast<std::ptrdiff_t>((from - book.daily.first).count());
  std::fill_n(book.daily.rain_mm.begin() + begin, days, kMissing);
}

const Message* caveat(const PlantingWindow& window, const char* key) {
  const auto found = std::find_if(window.caveats.begin(), window.caveats.end(),
                                  [&](const Message& m) { return m.key == key; });
  return found == window.caveats.end() ? nullptr : &*found;
}

// March 2023 to December 2024.
WeatherBook twenty_two_months() {
  return wet_book(make_date(2023, 3, 1), make_date(2025, 1, 1));
}

TEST(WindowLog, ALogWithoutGapsIsNotSaidToHaveGaps) {
  const WindowResult result = planting_windows(twenty_two_months(), shipped());
  for (const PeriodRecord& p : result.periods) EXPECT_TRUE(p.years_failed.empty()) << p.period;
  EXPECT_EQ(caveat(result.window, "climate.years_with_gaps"), nullptr);
}

// 30 days before 1 April 2023 are there, 60 days after 10 November 2024 are not.
TEST(WindowLog, TwentyTwoMonthsJudgeTwoYearsFromAprilToOctoberOnly) {
  const WindowResult result = planting_windows(twenty_two_months(), shipped());
  for (int p = 0; p < 36; ++p) {
    const int years = p >= 9 && p <= 29 ? 2 : 1;
    EXPECT_EQ(result.periods[static_cast<std::size_t>(p)].years_judged, years) << p;
  }
}

// Ten blank days from 1 August 2024 leave more than six missing for plantings of 9 June to
// 3 September.
TEST(WindowLog, TwentyTwoMonthsWithAGapSayTwoOfTwoOutsideTheGap) {
  WeatherBook book = twenty_two_months();
  blank(book, make_date(2024, 8, 1), 10);
  const WindowResult result = planting_windows(book, shipped());
  for (int p = 9; p <= 29; ++p) {
    const PeriodRecord& record = result.periods[static_cast<std::size_t>(p)];
    const bool in_gap = p >= 15 && p <= 24;
    EXPECT_EQ(record.years_judged, in_gap ? 1 : 2) << p;
    EXPECT_EQ(record.years_failed, in_gap ? std::vector<int>{2024} : std::vector<int>{}) << p;
  }
  const PlantingWindow& window = result.window;
  ASSERT_TRUE(window.found);
  EXPECT_EQ(window.good_years, 2);
  EXPECT_EQ(window.of_years, 2);
  EXPECT_TRUE((window.first_period >= 9 && window.last_period <= 14) ||
              (window.first_period >= 25 && window.last_period <= 29));
}

TEST(WindowLog, TwoOfTwoYearsCarryTheirInterval) {
  const PlantingWindow window = planting_windows(twenty_two_months(), shipped()).window;
  const Message* few = caveat(window, "climate.window_few_years");
  ASSERT_NE(few, nullptr);
  EXPECT_EQ(std::get<std::int64_t>(few->arguments.at("good")), 2);
  EXPECT_EQ(std::get<std::int64_t>(few->arguments.at("of")), 2);
  EXPECT_NEAR(std::get<double>(few->arguments.at("low")), 3.42, 0.005);
}

TEST(WindowLog, TwentyTwoMonthsWithAGapEveryMonthOfOneYearAreRefused) {
  WeatherBook book = twenty_two_months();
  for (unsigned month = 1; month <= 12; ++month) blank(book, make_date(2024, month, 5), 8);
  const PlantingWindow window = planting_windows(book, shipped()).window;
  EXPECT_FALSE(window.enough_data);
  EXPECT_FALSE(window.found);
  ASSERT_EQ(window.refused.size(), 2U);
  EXPECT_EQ(window.refused[0].key, "climate.window_log_short");
  EXPECT_EQ(std::get<std::int64_t>(window.refused[0].arguments.at("years")), 1);
  EXPECT_EQ(window.refused[1].key, "climate.safe_act_today");
}

// 2 November 2024 is the last planting whose 60 days end on 31 December.
TEST(WindowLog, TheEndOfTheLogIsSaidWithTheFirstPlantingNotJudged) {
  const PlantingWindow window = planting_windows(twenty_two_months(), shipped()).window;
  const Message* end = caveat(window, "climate.window_log_end");
  ASSERT_NE(end, nullptr);
  EXPECT_EQ(std::get<Date>(end->arguments.at("from")), make_date(2024, 11, 3));
  EXPECT_EQ(Words(Language::en).text(*end),
            "Plantings from 3 November 2024 on are not judged yet: the log ends before their 60 "
            "days are over.");
}

// Blank days at the end are gaps of that year, not the end of the log.
TEST(WindowLog, BlankDaysAtTheEndAreGaps) {
  WeatherBook book = twenty_two_months();
  blank(book, make_date(2024, 12, 1), 31);
  const WindowResult result = planting_windows(book, shipped());
  EXPECT_EQ(result.periods[29].years_failed, std::vector<int>{2024});
}

// Ball full but for seven days that end on `last`.
std::vector<PeriodCounts> counts_with_one_spell(Date last) {
  const Date first = make_date(2012, 1, 1);
  std::vector<double> ball(366, 1.0);
  for (int back = 0; back < 7; ++back)
    ball[static_cast<std::size_t>((last - first).count() - back)] = 0;
  return count_periods(first, ball, std::vector<char>(ball.size(), 0), 0.5, WindowRules{});
}

// Only a seedling planted on 29 February sees 28 April as its sixtieth day.
TEST(WindowLog, The29thOfFebruaryIsAPlantingDay) {
  const auto counts = counts_with_one_spell(make_date(2012, 4, 28));
  EXPECT_EQ(counts[5].judged, std::vector<int>{2012});
  EXPECT_TRUE(counts[5].good.empty());
}

TEST(WindowLog, ASpellThatEndsADayAfterTheSixtyDaysDoesNotCount) {
  const auto counts = counts_with_one_spell(make_date(2012, 4, 29));
  EXPECT_EQ(counts[5].good, std::vector<int>{2012});
}

// Rain from October to April only.
TEST(WindowLog, ARainySeasonOverNewYearGivesOneWindowOverNewYear) {
  WeatherBook book = wet_book(make_date(2010, 1, 1), make_date(2021, 1, 1));
  for (std::size_t i = 0; i < book.daily.days(); ++i) {
    const unsigned month = month_of(book.daily.day(i));
    if (month >= 5 && month <= 9) book.daily.rain_mm[i] = 0;
  }
  const PlantingWindow window = planting_windows(book, shipped()).window;
  ASSERT_TRUE(window.found);
  EXPECT_FALSE(window.whole_year_passes);
  EXPECT_GE(window.first_period, 27);  // October
  EXPECT_LE(window.last_period, 8);    // March
  EXPECT_LT(window.last_period, window.first_period);
  EXPECT_EQ(window.good_years, window.of_years);
  EXPECT_EQ(window.of_years, 10);  // ten turns of the year in eleven years
}

// Evaporation is the same in both. Holds while it stays below about 10 mm a day (TEW - REW of the
// shipped hole); above that a wetter store may end the day drier.
RC_GTEST_PROP(WindowLogProperty, MoreRainNeverLowersAPeriodsCount, ()) {
  std::mt19937 draw(*rc::gen::arbitrary<std::uint32_t>());
  const auto one_in = [&](std::uint64_t n) { return draw() % n == 0; };
  const std::uint64_t dryness = 3 + draw() % 10;
  WeatherBook less = wet_book(make_date(2015, 1, 1), make_date(2018, 6, 1));
  for (double& mm : less.daily.rain_mm) {
    mm = one_in(dryness) ? static_cast<double>(draw() % 300) / 10 : 0;
    if (one_in(60)) mm = kMissing;
  }
  WeatherBook more = less;
  for (double& mm : more.daily.rain_mm) {
    if (one_in(9)) mm += static_cast<double>(draw() % 200) / 10;
  }
  const auto before = planting_windows(less, shipped()).periods;
  const auto after = planting_windows(more, shipped()).periods;
  for (std::size_t p = 0; p < before.size(); ++p) {
    RC_ASSERT(after[p].years_judged == before[p].years_judged);
    RC_ASSERT(after[p].years_without_killing_spell >= before[p].years_without_killing_spell);
    RC_ASSERT(after[p].years_without_killing_spell_low >=
              before[p].years_without_killing_spell_low);
  }
}

}  // namespace
}  // namespace wildling::climate
