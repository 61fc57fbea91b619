#include "tending/fire.hpp"

#include <gtest/gtest.h>

#include "base/error.hpp"
#include "invented.hpp"

namespace wildling::tending {
namespace {

TEST(FireCalendar, HasEveryStepBeforeTheDrySeasonAndInOrder) {
  const FireCalendar calendar =
      fire_calendar(make_date(2026, 11, 25), 3, normals_of(kSeasonal), shipped());
  ASSERT_EQ(calendar.seasons.size(), 3U);
  const FireSeason& first = calendar.seasons[0];
  EXPECT_EQ(iso_date(first.dry_from), "2027-06-01");
  EXPECT_EQ(iso_date(first.dry_to), "2027-09-30");
  for (std::size_t i = 1; i < first.days.size(); ++i)
    EXPECT_LE(first.days[i - 1].day, first.days[i].day);
  for (const FireDay& day : first.days) {
    const bool watch = day.step == FireStep::watch_begins || day.step == FireStep::watch_ends;
    EXPECT_TRUE(watch || day.day < first.dry_from);
  }
}

TEST(FireCalendar, MakesNoSeasonWhereNoMonthIsDry) {
  const FireCalendar wet =
      fire_calendar(make_date(2026, 11, 25), 3, normals_of(kEverWet), shipped());
  EXPECT_TRUE(wet.seasons.empty());
  EXPECT_EQ(wet.first_line.key, "tending.fire.no_dry_month");
  EXPECT_EQ(fire_calendar(make_date(2026, 11, 25), 3, {}, shipped()).first_line.key,
            "tending.fire.no_rain_figures");
}

TEST(FireCalendar, HoldsTheSeasonThatIsUnderWay) {
  const FireCalendar calendar =
      fire_calendar(make_date(2027, 7, 10), 1, normals_of(kSeasonal), shipped());
  EXPECT_EQ(iso_date(calendar.seasons.at(0).dry_from), "2027-06-01");
}

TEST(FirebreakWidth, StaysWithinThePublishedWidths) {
  EXPECT_DOUBLE_EQ(firebreak_width_m(0.1, shipped()), 4);
  EXPECT_DOUBLE_EQ(firebreak_width_m(1.4, shipped()), 14);
  EXPECT_DOUBLE_EQ(firebreak_width_m(5, shipped()), 20);
}

TEST(Watch, GrowsWithTheClassAndIsNeverAloneFromVeryHighOn) {
  for (int c = 1; c <= 3; ++c)
    EXPECT_GT(watch_for(c, shipped()).person_days, watch_for(c - 1, shipped()).person_days);
  EXPECT_GE(watch_for(2, shipped()).people, 2);
  EXPECT_THROW(watch_for(4, shipped()), Error);
}

TEST(AfterFire, CountsResproutsAtEightToTwelveWeeksAndRefillsInTheRains) {
  const AfterFire after = after_fire(make_date(2027, 6, 20), normals_of(kSeasonal), shipped());
  EXPECT_EQ(iso_date(after.count_from), "2027-08-15");
  EXPECT_EQ(iso_date(after.count_to), "2027-09-12");
  EXPECT_EQ(iso_date(after.refill_not_before), "2027-10-01");
}

}  // namespace
}  // namespace wildling::tending
