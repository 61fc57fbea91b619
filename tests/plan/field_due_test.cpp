#include <gtest/gtest.h>

#include "base/error.hpp"
#include "field_book.hpp"
#include "field_reply_checks.hpp"

namespace wildling::plan {
namespace {

const Date kToday = make_date(2026, 1, 20);

class FieldDue : public testing::Test {
 protected:
  FieldYear year;
  store::Store& store = *year.store;
  std::string block = first_block(store).code;

  void diary(const std::string& job, const std::string& day) {
    write(store, "work",
          {{"who", {"Rini (invented)"}},
           {"block", {block}},
           {"job", {job}},
           {"hours", {"8"}},
           {"day", {day}}},
          kToday);
  }

  void walk(const std::string& day, Entries more) {
    Entries entries = {{"block", {block}}, {"day", {day}}, {"cover", {"running_grass"}}};
    for (auto& [name, texts] : more) entries[name] = texts;
    write(store, "walk", entries, kToday);
  }

  Reply due(Date today = kToday) { return ask(store, "due", {}, today); }

  std::optional<Date> due_day(const Reply& reply) {
    const Cell& cell = table_of(reply, "due").rows.at(0).at(2);
    const auto* day = std::get_if<Date>(&cell.value);
    return day == nullptr ? std::nullopt : std::optional<Date>(*day);
  }
};

TEST_F(FieldDue, NothingIsDueBeforePlantingIsOnRecord) {
  EXPECT_EQ(due().answer.key, "fieldbook.due.nothing_planted");
}

TEST_F(FieldDue, APlantedBlockThatNobodyWalkedAsksForTheWalk) {
  diary("plant", "2025-10-06");
  const Reply reply = due();
  EXPECT_EQ(reply.answer.key, "fieldbook.due.cannot_tell");
  expect_sound(reply);
}

TEST_F(FieldDue, AWalkOlderThanTwoWeeksTellsNothing) {
  diary("plant", "2025-10-06");
  walk("2026-01-02", {{"picture", {"1"}}});
  EXPECT_EQ(due().answer.key, "fieldbook.due.cannot_tell");
}

TEST_F(FieldDue, CoverAboveTheTreesIsDueAtOnce) {
  diary("plant", "2025-10-06");
  walk("2026-01-19", {{"picture", {"4"}}});
  const Reply reply = due();
  EXPECT_EQ(reply.answer.key, "fieldbook.due.now");
  EXPECT_GT(std::get<double>(reply.answer.arguments.at("trees")), 0);
  expect_sound(reply);
}

TEST_F(FieldDue, LowCoverIsDueLaterThanHighCover) {
  diary("plant", "2025-10-06");
  walk("2026-01-18", {{"picture", {"2"}}});
  const auto high = due_day(due());
  walk("2026-01-18", {{"picture", {"1"}}});
  const auto low = due_day(due());
  ASSERT_TRUE(high && low);
  EXPECT_LT(*high, *low);
}

TEST_F(FieldDue, AHeightByTheStickCountsBeforeThePicture) {
  diary("plant", "2025-10-06");
  walk("2026-01-19", {{"picture", {"4"}}, {"height", {"12"}}});
  EXPECT_EQ(due().answer.key, "fieldbook.due.next");
}

TEST_F(FieldDue, ARoundAfterTheWalkStartsTheCoverAgain) {
  diary("plant", "2025-10-06");
  walk("2026-01-15", {{"picture", {"4"}}});
  diary("ring", "2026-01-18");
  const Reply reply = due();
  EXPECT_NE(reply.answer.key, "fieldbook.due.now");
  EXPECT_EQ(number_in(table_of(reply, "due").rows.at(0).at(9)), 2);
  expect_sound(reply);
}

TEST_F(FieldDue, TenClimbedTreesInTenAreDueWhateverTheCover) {
  diary("plant", "2025-10-06");
  walk("2026-01-19", {{"height", {"12"}}, {"climbed", {"10"}}});
  EXPECT_EQ(due().answer.key, "fieldbook.due.now");
}

TEST_F(FieldDue, WhatIsDatedLaterIsNotKnownYet) {
  diary("plant", "2025-10-06");
  walk("2026-01-19", {{"picture", {"4"}}});
  EXPECT_EQ(due(make_date(2026, 1, 10)).answer.key, "fieldbook.due.cannot_tell");
  EXPECT_EQ(due(make_date(2025, 9, 1)).answer.key, "fieldbook.due.nothing_planted");
}

TEST_F(FieldDue, RingsAndWhatTheyLeaveMakeTheWholeGround) {
  diary("plant", "2025-10-06");
  walk("2026-01-19", {{"picture", {"4"}}});
  const Reply reply = due();
  const WorkingsNode* left = reply.workings.find("field/rings/left");
  const WorkingsNode* density = reply.workings.find("field/rings/per_ha");
  ASSERT_TRUE(left != nullptr && density != nullptr);
  EXPECT_NEAR(left->value + tending::ring_share(density->value, 1), 1, 1e-12);
}

TEST_F(FieldDue, AWalkInTheFutureIsRefused) {
  EXPECT_THROW(walk("2026-02-20", {{"picture", {"1"}}}), Error);
}

TEST_F(FieldDue, AWalkWithoutPictureOrHeightIsRefused) {
  EXPECT_THROW(walk("2026-01-19", {}), Error);
}

TEST_F(FieldDue, TheSameBlockAndDayAgainCorrectsTheWalk) {
  walk("2026-01-19", {{"picture", {"4"}}});
  walk("2026-01-19", {{"picture", {"2"}}});
  EXPECT_EQ(store.count("walks"), 1);
}

TEST_F(FieldDue, ThePicturesStandForRisingSharesOfTheTreesHeight) {
  const Parameters parameters = Parameters::shipped();
  for (int picture = 2; picture <= 4; ++picture)
    EXPECT_GT(picture_share(picture, parameters), picture_share(picture - 1, parameters));
  EXPECT_EQ(picture_share(3, parameters), 1);
}

TEST_F(FieldDue, NotesDoNotMakeThePlanStale) {
  diary("plant", "2025-10-06");
  walk("2026-01-19", {{"picture", {"4"}}});
  EXPECT_FALSE(is_stale(store, load_plan(store)));
}

}  // namespace
}  // namespace wildling::plan
