#include "nursery/calendar.hpp"

#include <gtest/gtest.h>

namespace wildling::nursery {
namespace {

const Parameters& shipped() {
  static const Parameters parameters = Parameters::shipped();
  return parameters;
}

const Season kSeason = {make_date(2027, 11, 10), make_date(2026, 9, 1)};

species::Species made_up() {
  species::Species s;
  s.scientific_name = "Madeupia inventa";
  s.nursery_months_min = 6;
  s.nursery_months_max = 9;
  s.days_to_germinate_last = 30;
  s.seed_storage = species::Storage::recalcitrant;
  return s;
}

Order with_facts(const species::Species& s) {
  Order order;
  order.facts = &s;
  return order;
}

TEST(DatesFromSeed, AreWorkedBackFromThePlantingDay) {
  const species::Species s = made_up();
  const Dates d = dates_from_seed(with_facts(s), kSeason, shipped());
  EXPECT_EQ(iso_date(d.dispatch), "2027-11-08");      // 2 days before
  EXPECT_EQ(iso_date(d.harden_from), "2027-09-27");   // 6 weeks before
  EXPECT_EQ(iso_date(d.start_by), "2027-02-08");      // 9 months before dispatch
  EXPECT_EQ(iso_date(d.start_latest), "2027-05-08");  // 6 months before dispatch
  EXPECT_EQ(iso_date(*d.prick_out), "2027-03-24");    // 30 + 14 days after sowing
  EXPECT_EQ(iso_date(d.collect_by), "2027-02-05");    // 3 days for cleaning
}

TEST(DatesFromSeed, FollowTheOrderOfTheWork) {
  const species::Species s = made_up();
  const Dates d = dates_from_seed(with_facts(s), kSeason, shipped());
  EXPECT_LT(d.collect_from, d.collect_by);
  EXPECT_LT(d.collect_by, d.start_by);
  EXPECT_LT(d.start_by, *d.prick_out);
  EXPECT_LT(*d.prick_out, d.harden_from);
  EXPECT_LT(d.harden_from, d.dispatch);
  EXPECT_LT(d.dispatch, d.planting);
}

TEST(DatesFromSeed, LetSeedThatKeepsBeCollectedAYearEarlier) {
  species::Species s = made_up();
  const Date moist = dates_from_seed(with_facts(s), kSeason, shipped()).collect_from;
  s.seed_storage = species::Storage::orthodox;
  const Date dry = dates_from_seed(with_facts(s), kSeason, shipped()).collect_from;
  EXPECT_NEAR(static_cast<double>((moist - dry).count()), 358, 2);
}

TEST(DatesFromSeed, NameTheFirstRipeDayThatHelps) {
  species::Species s = made_up();
  s.fruiting = species::Fruiting::months;
  s.fruiting_months = {1, 2};
  const Dates d = dates_from_seed(with_facts(s), kSeason, shipped());
  EXPECT_EQ(d.fruit, Fruit::fits);
  EXPECT_EQ(iso_date(*d.go_collecting), "2027-01-01");
}

TEST(DatesFromSeed, SayWhenNoRipeMonthFits) {
  species::Species s = made_up();
  s.fruiting = species::Fruiting::months;
  s.fruiting_months = {8};
  const Dates d = dates_from_seed(with_facts(s), kSeason, shipped());
  EXPECT_EQ(d.fruit, Fruit::misses);
  EXPECT_FALSE(d.go_collecting);
}

TEST(DatesFromSeed, TurnFromInTimeToHurryToTooLate) {
  const species::Species s = made_up();
  Season season = kSeason;
  EXPECT_EQ(dates_from_seed(with_facts(s), season, shipped()).timing, Timing::in_time);
  season.today = make_date(2027, 3, 1);
  EXPECT_EQ(dates_from_seed(with_facts(s), season, shipped()).timing, Timing::hurry);
  season.today = make_date(2027, 6, 1);
  EXPECT_EQ(dates_from_seed(with_facts(s), season, shipped()).timing, Timing::too_late);
}

TEST(DatesFromSeed, TakeLongerForLateSpeciesThanForPioneersWhenTheBookIsSilent) {
  species::Species late;
  late.group = species::Group::late;
  species::Species pioneer;
  pioneer.group = species::Group::pioneer;
  EXPECT_LT(dates_from_seed(with_facts(late), kSeason, shipped()).start_by,
            dates_from_seed(with_facts(pioneer), kSeason, shipped()).start_by);
}

}  // namespace
}  // namespace wildling::nursery
