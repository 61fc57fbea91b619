#include <cmath>
#include <limits>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "base/error.hpp"
#include "climate/pit_balance.hpp"
#include "climate/planting_window.hpp"
#include "stat/interval.hpp"

namespace wildling::climate {
namespace {

constexpr double kMissing = std::numeric_limits<double>::quiet_NaN();

// `years` of invented rain: 12 mm every third day, none from day 180 to day 250 of each year.
WeatherBook dry_season_book(int years) {
  WeatherBook book;
  book.station.name = "invented";
  book.daily.first = make_date(2010, 1, 1);
  for (Date d = book.daily.first; d < make_date(2010 + years, 1, 1); d += std::chrono::days(1)) {
    const int j = day_of_year(d);
    book.daily.rain_mm.push_back(j >= 180 && j <= 250 ? 0 : (j % 3 == 0 ? 12 : 0));
  }
  return book;
}

const Parameters& shipped() {
  static const Parameters parameters = Parameters::shipped();
  return parameters;
}

TEST(PlantingWindow, ADrySeasonFailsThePeriodsWhoseSixtyDaysReachIntoIt) {
  const WindowResult result = planting_windows(dry_season_book(11), shipped());
  ASSERT_TRUE(result.window.found);
  EXPECT_EQ(result.periods[18].years_without_killing_spell, 0);  // 1-10 July
  EXPECT_EQ(result.periods[0].years_without_killing_spell, result.periods[0].years_judged);
  EXPECT_EQ(result.periods[12].years_judged, 11);
  EXPECT_EQ(result.periods[12].years_without_killing_spell,
            0);  // 1 May + 60 days touches the spell
}

TEST(PlantingWindow, IsOfPeriodsThatAllPass) {
  const WindowResult result = planting_windows(dry_season_book(11), shipped());
  int p = result.window.first_period;
  while (true) {
    const PeriodRecord& r = result.periods[static_cast<std::size_t>(p)];
    EXPECT_GE(r.years_without_killing_spell * result.window.of_years,
              result.window.good_years * r.years_judged);
    if (p == result.window.last_period) break;
    p = (p + 1) % 36;
  }
}

TEST(PlantingWindow, MayCrossNewYear) {
  std::vector<PeriodRecord> periods(36);
  for (int p = 0; p < 36; ++p) {
    periods[static_cast<std::size_t>(p)].period = p;
    periods[static_cast<std::size_t>(p)].years_judged = 11;
    periods[static_cast<std::size_t>(p)].years_without_killing_spell = p >= 33 || p <= 3 ? 10 : 4;
  }
  const PlantingWindow window = choose_window(periods, WindowRules{});
  EXPECT_EQ(window.first_period, 33);
  EXPECT_EQ(window.last_period, 3);
  EXPECT_EQ(window.good_years, 10);
  EXPECT_EQ(window.of_years, 11);
}

TEST(PlantingWindow, PrefersTheBestRecordThatHoldsForAMonth) {
  std::vector<PeriodRecord> periods(36);
  for (int p = 0; p < 36; ++p) {
    auto& r = periods[static_cast<std::size_t>(p)];
    r.period = p;
    r.years_judged = 10;
    r.years_without_killing_spell = p == 20 ? 10 : (p >= 8 && p <= 10 ? 9 : 7);
  }
  const PlantingWindow window = choose_window(periods, WindowRules{});
  EXPECT_EQ(window.first_period, 8);
  EXPECT_EQ(window.last_period, 10);
  EXPECT_TRUE(window.whole_year_passes);
}

TEST(PlantingWindow, IsWidenedByNeighboursThatAreNearlyAsGood) {
  std::vector<PeriodRecord> periods(36);
  for (int p = 0; p < 36; ++p) {
    auto& r = periods[static_cast<std::size_t>(p)];
    r.period = p;
    r.years_judged = 20;
    r.years_without_killing_spell = p >= 8 && p <= 10 ? 20 : (p >= 5 && p <= 12 ? 18 : 15);
  }
  const PlantingWindow window = choose_window(periods, WindowRules{});
  EXPECT_EQ(window.first_period, 5);
  EXPECT_EQ(window.last_period, 12);
  EXPECT_EQ(window.good_years, 18);
}

TEST(PlantingWindow, SaysTheSafeActWhenNoPeriodPasses) {
  WeatherBook book = dry_season_book(5);
  for (double& mm : book.daily.rain_mm) mm = 0;
  const PlantingWindow window = planting_windows(book, shipped()).window;
  EXPECT_TRUE(window.enough_data);
  EXPECT_FALSE(window.found);
  ASSERT_EQ(window.refused.size(), 2U);
  EXPECT_EQ(window.first_line.key, "climate.window_none");
  EXPECT_EQ(window.refused[1].key, "climate.safe_act_none");
}

TEST(PlantingWindow, RefusesALogOfOneYearAndSaysWhatToDoToday) {
  const PlantingWindow window = planting_windows(dry_season_book(1), shipped()).window;
  EXPECT_FALSE(window.enough_data);
  ASSERT_EQ(window.refused.size(), 2U);
  EXPECT_EQ(window.first_line.key, "climate.window_log_short");
}

TEST(PlantingWindow, FewYearsCarryTheirInterval) {
  const PlantingWindow window = planting_windows(dry_season_book(3), shipped()).window;
  ASSERT_TRUE(window.found);
  const auto few = std::find_if(window.caveats.begin(), window.caveats.end(), [](const Message& m) {
    return m.key == "climate.window_few_years";
  });
  EXPECT_NE(few, window.caveats.end());
}

TEST(PlantingWindow, AYearWithTooManyGapsIsCountedAsNotJudged) {
  WeatherBook book = dry_season_book(4);
  const auto march = static_cast<std::size_t>((make_date(2012, 3, 1) - book.daily.first).count());
  for (std::size_t i = march; i < march + 10; ++i) book.daily.rain_mm[i] = kMissing;
  const PeriodRecord march_first = planting_windows(book, shipped()).periods[6];
  EXPECT_EQ(march_first.years_failed, std::vector<int>{2012});
  EXPECT_EQ(march_first.years_judged, 3);
}

TEST(PlantingWindow, NamesAGaugeThatStandsFarAway) {
  WeatherBook book = dry_season_book(3);
  book.station.distance_km = 14;
  const PlantingWindow window = planting_windows(book, shipped()).window;
  EXPECT_EQ(window.caveats.end() != std::find_if(window.caveats.begin(), window.caveats.end(),
                                                 [](const Message& m) {
                                                   return m.key == "climate.rain_away" &&
                                                          std::get<double>(m.arguments.at("km")) ==
                                                              14;
                                                 }),
            true);
}

// The end of the assumed range that costs more water never has the better record.
TEST(PlantingWindow, RainAloneGivesBothEndsAndTheCautiousOneDecides) {
  const WindowResult result = planting_windows(dry_season_book(11), shipped());
  EXPECT_TRUE(result.et0_assumed);
  for (const PeriodRecord& p : result.periods) {
    EXPECT_LE(p.years_without_killing_spell, p.years_without_killing_spell_low);
  }
}

// Every judged year of every period, by walking each planting day forward.
bool killed_by_hand(const std::vector<double>& ball, std::size_t day, double below,
                    const WindowRules& rules) {
  int run = 0;
  for (int i = 0; i < rules.look_ahead_days; ++i) {
    run = ball[day + static_cast<std::size_t>(i)] < below ? run + 1 : 0;
    if (run >= rules.killing_days) return true;
  }
  return false;
}

RC_GTEST_PROP(PlantingWindowProperty, CountsEqualAWalkForwardFromEachDay, ()) {
  const int days = *rc::gen::inRange(500, 1300);
  std::vector<double> ball(static_cast<std::size_t>(days));
  double water = 0.5;
  for (double& b : ball) {
    water = *rc::gen::inRange(0, 8) == 0 ? 1.0 : water * 0.8;
    b = water;
  }
  const std::vector<char> missing(ball.size(), 0);
  const WindowRules rules;
  const Date first = make_date(2011, 2, 14);
  const auto counts = count_periods(first, ball, missing, 0.3, rules);
  for (int p = 0; p < 36; ++p) {
    for (const int year : counts[static_cast<std::size_t>(p)].judged) {
      const Date begin = ten_day_period_start(year, p);
      bool good = true;
      for (Date d = begin; ten_day_period(d) == p; d += std::chrono::days(1)) {
        good = good &&
               !killed_by_hand(ball, static_cast<std::size_t>((d - first).count()), 0.3, rules);
      }
      const auto& years = counts[static_cast<std::size_t>(p)].good;
      RC_ASSERT((std::find(years.begin(), years.end(), year) != years.end()) == good);
    }
  }
}

TEST(PitBalance, AnUnwateredBallFallsBelowTheKillingLimitInAWeekOrTwo) {
  DailyWeather daily;
  daily.first = make_date(2020, 1, 1);
  daily.rain_mm.assign(30, 0.0);
  const PitSettings pit = pit_settings(shipped());
  const PitSeries series = pit_balance(daily, std::vector<double>(30, 4.0), pit);
  EXPECT_GT(series.ball_mm[3], 0.2 * pit.ball_holds_mm);
  EXPECT_LT(series.ball_mm[13], 0.2 * pit.ball_holds_mm);
}

RC_GTEST_PROP(PitBalanceProperty, NoWaterIsMadeOrLost, ()) {
  const PitSettings pit = pit_settings(shipped());
  PitDay day{pit.ball_holds_mm * 0.4, pit.hole_holds_mm * 0.7};
  for (int i = 0; i < 200; ++i) {
    const double rain = *rc::gen::inRange(0, 60) - 30;
    const PitDay before = day;
    const PitFluxes f = pit_step(day, std::max(0.0, rain), 4.3, pit);
    const double a = pit.ball_area_share;
    const double in = f.rain_mm;  // over the whole hole: ball's footprint and the rest
    const double out = a * f.uptake_mm + f.evaporation_mm + f.percolation_mm;
    const double stored = a * (day.ball_mm - before.ball_mm) + (day.hole_mm - before.hole_mm);
    RC_ASSERT(std::abs(in - out - stored) < 1e-9);
    RC_ASSERT(day.ball_mm >= 0 && day.ball_mm <= pit.ball_holds_mm + 1e-12);
    RC_ASSERT(day.hole_mm >= 0 && day.hole_mm <= pit.hole_holds_mm + 1e-12);
  }
}

RC_GTEST_PROP(PitBalanceProperty, MoreRainNeverLeavesADrierBall, ()) {
  const PitSettings pit = pit_settings(shipped());
  PitDay less{pit.ball_holds_mm, pit.hole_holds_mm}, more = less;
  for (int i = 0; i < 200; ++i) {
    const double rain = std::max(0, *rc::gen::inRange(-20, 20));
    pit_step(less, rain, 4, pit);
    pit_step(more, rain + *rc::gen::inRange(0, 5), 4, pit);
    RC_ASSERT(more.ball_mm >= less.ball_mm - 1e-9);
  }
}

TEST(PitSettings, RefusesABallLargerThanTheHole) {
  Parameters parameters = Parameters::shipped();
  parameters.set("climate.ball.depth_m", 0.6, Origin::told, "", "");
  EXPECT_THROW(pit_settings(parameters), Error);
}

// Wilson (1927): 2 of 2 gives 0.342 to 1 at 95 %.
TEST(Wilson, TwoOfTwoIsThirtyFourToHundredPerCent) {
  EXPECT_NEAR(stat::wilson(2, 2).low, 0.342, 0.0005);
  EXPECT_DOUBLE_EQ(stat::wilson(2, 2).high, 1.0);
}

}  // namespace
}  // namespace wildling::climate
