// Today's verdict: one closed gate is enough, the spade overrides the balance, and what is not
// known is said.
#include <gtest/gtest.h>

#include "plan/sheet_kinds.hpp"
#include "weather_programme.hpp"

namespace wildling::plan {
namespace {

// Opened once and copied by each test that changes something: a store cannot be copied, so it is
// made anew.
class Today : public testing::Test {
 protected:
  Rehearsal outside{Seed{1}};
  std::unique_ptr<store::Store> store = weather_programme(outside);

  std::string verdict_of(const Reply& reply, const std::string& block) {
    for (const Table& table : reply.tables) {
      if (table.name != "blocks") continue;
      for (const auto& row : table.rows) {
        if (std::get<std::string>(row[0].value) == block)
          return std::get<Message>(row[2].value).key;
      }
    }
    return "no such block";
  }

  std::string verdict(Entries entries = {}, Date today = kToday) {
    return verdict_of(asked(*store, "today", std::move(entries), today), "B1");
  }

  void look_at_b1(Entries entries, Date day = kToday) {
    entries["block"] = {"B1"};
    entries["day"] = {iso_date(day)};
    note("look").keep(*store, entries, kToday, kTester);
  }

  static bool says(const Reply& reply, const std::string& key) {
    for (const LetterPart& part : reply.parts) {
      for (const Message& sentence : part.sentences) {
        if (sentence.key == key) return true;
      }
    }
    return false;
  }
};

TEST_F(Today, PlantsWhenEveryGateIsOpen) {
  open_everything(*store);
  EXPECT_EQ(verdict(), "weather.verdict.plant");
}

TEST_F(Today, SaysInHowManyBlocksFirst) {
  open_everything(*store);
  const Reply reply = asked(*store, "today");
  EXPECT_EQ(reply.answer.key, "weather.today.plant");
  EXPECT_EQ(std::get<std::int64_t>(reply.answer.arguments.at("of")),
            static_cast<std::int64_t>(store->count("blocks")));
}

class OneGate : public Today, public testing::WithParamInterface<const char*> {};

TEST_P(OneGate, AloneClosesTheVerdict) {
  open_everything(*store);
  look_at_b1({{GetParam(), {std::string(GetParam()) == "soil" ? "dry" : "no"}}});
  EXPECT_NE(verdict(), "weather.verdict.plant");
}

INSTANTIATE_TEST_SUITE_P(Gates, OneGate,
                         testing::Values("soil", "strip-cleared", "pits-dug", "stock-ready",
                                         "pit-drains", "river-not-rising", "crew-and-way-in"));

TEST_F(Today, DoesNotPlantWithoutConsent) {
  open_everything(*store);
  GateUpdate no;
  no.consent = ground::Answer::no;
  no.who = "village (invented)";
  take_answers(*store, "B1", no, kTester);
  EXPECT_NE(verdict(), "weather.verdict.plant");
}

TEST_F(Today, TheSpadeOverridesTheBalanceOfTheLog) {
  open_everything(*store);
  const auto with_moist = asked(*store, "today", {{"block", {"B1"}}});
  look_at_b1({{"soil", {"dry"}}});
  const auto with_dry = asked(*store, "today", {{"block", {"B1"}}});
  EXPECT_LT(with_dry.workings.find("weather/outlook/dry/ball")->value,
            with_moist.workings.find("weather/outlook/moist_to_bottom/ball")->value);
}

TEST_F(Today, SoilPokedThreeDaysAgoCountsAsNotPoked) {
  open_everything(*store, kToday - std::chrono::days(3));
  EXPECT_NE(verdict(), "weather.verdict.plant");
}

TEST_F(Today, ALookOlderThanAWeekCountsAsNone) {
  take_answers(*store, "", all_open(), kTester);
  look_at_b1(good_look(kToday), kToday - std::chrono::days(8));
  const Reply reply = asked(*store, "today", {{"block", {"B1"}}});
  EXPECT_EQ(reply.workings.find("weather/block/B1/gate/pits")->value, 0);
}

TEST_F(Today, NamesTheCheapestLookThatWouldSettleIt) {
  take_answers(*store, "", all_open(), kTester);
  EXPECT_TRUE(says(asked(*store, "today"), "weather.settle"));
}

TEST_F(Today, GivesNoAdviceFromALogThatEndedLongAgo) {
  open_everything(*store);
  const Date later = kToday + std::chrono::days(74);
  take_answers(*store, "", all_open(), kTester);
  Entries look = good_look(later);
  look["block"] = {"B1"};
  note("look").keep(*store, look, later, kTester);
  const Reply reply = asked(*store, "today", {{"block", {"B1"}}}, later);
  EXPECT_EQ(reply.answer.key, "climate.log_old");
  EXPECT_EQ(std::get<std::int64_t>(reply.answer.arguments.at("days")), 74);
}

TEST_F(Today, NeverUsesTheBalanceOnPeat) {
  open_everything(*store);
  GateUpdate peat;
  peat.drained_peat = ground::Answer::yes;
  peat.who = "manager (invented)";
  take_answers(*store, "B1", peat, kTester);
  const Reply reply = asked(*store, "today", {{"block", {"B1"}}});
  EXPECT_TRUE(says(reply, "weather.wet_ground"));
  EXPECT_EQ(reply.workings.find("weather/block/B1/gate/soil"), nullptr);
}

TEST_F(Today, NamesTheGaugesDistanceOnLinesAboutRain) {
  climate::WeatherBook far = eleven_years();
  far.station.name = "Office";
  far.station.distance_km = 14;
  take(*store, far);
  const Reply reply = asked(*store, "today", {{"station", {"Office"}}});
  EXPECT_NE(all_words(reply, Language::en).find("read at Office, 14 km away"), std::string::npos);
}

TEST_F(Today, SaysTwoOfTwoYearsWithLimitsAndNoPercentagesOtherwise) {
  auto poor = invented_programme(outside, 0);
  climate::WeatherBook book = invented_rain(1000);
  for (std::size_t i = 500; i < 505; ++i) book.daily.rain_mm[i] = std::nan("");
  take(*poor, book);
  open_everything(*poor, book.daily.last());
  const Reply reply = asked(*poor, "today", {}, book.daily.last());
  EXPECT_NE(all_words(reply, Language::en).find("2 of 2 past years (34-100 %)"), std::string::npos)
      << all_words(reply, Language::en).substr(0, 3000);
}

TEST_F(Today, TheManagerRaisesTheFireClass) {
  note("fire-word")
      .keep(*store, {{"class", {"extreme"}}, {"why", {"smoke seen"}}}, kToday, kTester);
  EXPECT_EQ(asked(*store, "fire").answer.key, "climate.fire_extreme");
}

TEST_F(Today, TheManagerCannotLowerTheFireClass) {
  auto dry = invented_programme(outside, 0);
  climate::WeatherBook book = eleven_years();
  for (std::size_t i = book.daily.days() - 40; i < book.daily.days(); ++i)
    book.daily.rain_mm[i] = 0;
  take(*dry, book);
  ASSERT_EQ(asked(*dry, "fire").answer.key, "climate.fire_extreme");
  note("fire-word").keep(*dry, {{"class", {"high"}}, {"why", {"looks fine"}}}, kToday, kTester);
  EXPECT_EQ(asked(*dry, "fire").answer.key, "climate.fire_extreme");
}

TEST_F(Today, EldersWetMonthsNameTheSeasonWhereThereIsNoLog) {
  auto none = invented_programme(outside, 0);
  note("wet-months")
      .keep(*none, {{"months", {"11 12 1 2"}}, {"told-by", {"elders (invented)"}}}, kToday,
            kTester);
  EXPECT_EQ(asked(*none, "season").answer.key, "weather.season.wet_months_told");
}

TEST_F(Today, KnowsNothingOfDaysAfterToday) {
  const Date then = make_date(2020, 6, 1);
  const Reply before = asked(*store, "water", {}, then);
  auto cut = invented_programme(outside, 0);
  climate::WeatherBook book = eleven_years();
  const auto days = static_cast<std::size_t>((then - book.daily.first).count()) + 1;
  for (auto* column : {&book.daily.rain_mm, &book.daily.tmax_c, &book.daily.tmin_c,
                       &book.daily.rh_max_pct, &book.daily.rh_min_pct})
    column->resize(days);
  take(*cut, book);
  EXPECT_EQ(reply_text(asked(*cut, "water", {}, then)), reply_text(before));
}

TEST_F(Today, TheWaitingPageNamesBlocksThatWereNotPlanted) {
  open_everything(*store);
  look_at_b1({{"soil", {"dry"}}});
  const auto page = std::get<WaitingPage>(sheet_kind("waiting").fill(*store, {}, kToday));
  EXPECT_EQ(page.blocks, std::vector<std::string>{"B1"});
}

TEST_F(Today, TheWaitingPageIsRefusedWhenNobodyWaited) {
  open_everything(*store);
  EXPECT_THROW((void)sheet_kind("waiting").fill(*store, {}, kToday), Error);
}

}  // namespace
}  // namespace wildling::plan
