#include <gtest/gtest.h>

#include "base/error.hpp"
#include "field_book.hpp"
#include "field_reply_checks.hpp"

namespace wildling::plan {
namespace {

const Entries kWeek = {{"from", {"2025-10-01"}}, {"to", {"2025-10-31"}}};

class FieldDiary : public testing::Test {
 protected:
  FieldYear year;
  store::Store& store = *year.store;
  std::string block = first_block(store).code;

  Message work(const std::string& who, const std::string& day, const std::string& hours,
               Entries more = {}) {
    Entries entries = {
        {"who", {who}}, {"day", {day}}, {"block", {block}}, {"job", {"plant"}}, {"hours", {hours}}};
    for (auto& [name, texts] : more) entries[name] = texts;
    return write(store, "work", entries, make_date(2025, 10, 20));
  }

  void wage(const std::string& amount, const std::string& from) {
    write(store, "wage", {{"per-day", {amount}}, {"from", {from}}});
  }

  double total(const Reply& reply) { return std::get<double>(reply.answer.arguments.at("amount")); }

  std::int64_t aside(const Reply& reply) {
    return std::get<std::int64_t>(reply.answer.arguments.at("aside"));
  }
};

TEST_F(FieldDiary, EightHoursArePaidAsOneDay) {
  wage("100000", "2025-10-01");
  EXPECT_EQ(work("Rini (invented)", "2025-10-06", "8").key, "fieldbook.kept.work");
  EXPECT_DOUBLE_EQ(total(ask(store, "pay", kWeek)), 100000);
}

TEST_F(FieldDiary, WithoutAWageALineIsKeptAndNotPaid) {
  const Message said = work("Rini (invented)", "2025-10-06", "8");
  EXPECT_EQ(said.key, "fieldbook.aside_line.no_wage");
  expect_sentence(said);
  const Reply reply = ask(store, "pay", kWeek);
  EXPECT_EQ(aside(reply), 1);
  EXPECT_EQ(total(reply), 0);
  expect_sound(reply);
}

TEST_F(FieldDiary, TheShippedWageIsInventedAndPaysNobody) {
  EXPECT_EQ(Parameters::shipped().at("tending.wage_per_day").origin, Origin::assumed);
  work("Rini (invented)", "2025-10-06", "8");
  take_parameter(store, "tending.wage_per_day", 120000, Origin::told, "office", kTester);
  EXPECT_DOUBLE_EQ(total(ask(store, "pay", kWeek)), 120000);
}

TEST_F(FieldDiary, ThirtyHoursAreKeptAndSetAside) {
  wage("100000", "2025-10-01");
  const Message said = work("Rini (invented)", "2025-10-06", "30");
  EXPECT_EQ(said.key, "fieldbook.aside_line.hours");
  expect_sentence(said);
  EXPECT_EQ(store.count("diary_lines"), 1);
}

TEST_F(FieldDiary, CorrectingALineWritesOverIt) {
  wage("100000", "2025-10-01");
  work("Rini (invented)", "2025-10-06", "30");
  work("Rini (invented)", "2025-10-06", "4", {{"correct", {"yes"}}});
  EXPECT_EQ(store.count("diary_lines"), 1);
  EXPECT_DOUBLE_EQ(total(ask(store, "pay", kWeek)), 50000);
}

TEST_F(FieldDiary, AnUnknownBlockIsKeptAndSetAside) {
  wage("100000", "2025-10-01");
  EXPECT_EQ(work("Rini (invented)", "2025-10-06", "8", {{"block", {"B99"}}}).key,
            "fieldbook.aside_line.block_unknown");
}

TEST_F(FieldDiary, ARoundBeforePlantingIsSetAside) {
  wage("100000", "2025-10-01");
  EXPECT_EQ(work("Rini (invented)", "2025-10-06", "8", {{"job", {"ring"}}}).key,
            "fieldbook.aside_line.before_planting");
}

TEST_F(FieldDiary, ARiseOfTheWageHoldsFromItsDayOn) {
  wage("100000", "2025-10-01");
  wage("120000", "2025-10-08");
  work("Rini (invented)", "2025-10-07", "8");
  work("Rini (invented)", "2025-10-08", "8");
  EXPECT_DOUBLE_EQ(total(ask(store, "pay", kWeek)), 220000);
}

TEST_F(FieldDiary, PayAddsUpTheSameOverPeopleBlocksAndJobs) {
  wage("100000", "2025-10-01");
  write(store, "wage",
        {{"who", {"Sari (invented)"}}, {"per-day", {"130000"}}, {"from", {"2025-10-01"}}});
  work("Rini (invented)", "2025-10-06", "8", {{"sex", {"woman"}}});
  work("Sari (invented)", "2025-10-06", "7", {{"sex", {"woman"}}});
  work("Adi (invented)", "2025-10-06", "6", {{"sex", {"man"}}});
  work("Adi (invented)", "2025-10-07", "3", {{"job", {"dig_pits"}}});
  const Reply reply = ask(store, "pay", kWeek);
  expect_sound(reply);
  for (const auto& [name, column] :
       {std::pair<std::string, std::size_t>{"people", 3}, {"block", 2}, {"job", 2}}) {
    double sum = 0;
    for (const auto& row : table_of(reply, name).rows) sum += number_in(row[column]);
    EXPECT_NEAR(sum, total(reply), 1e-6) << name;
  }
}

TEST_F(FieldDiary, DaysOfWomenAndMenAreCountedApart) {
  wage("100000", "2025-10-01");
  work("Rini (invented)", "2025-10-06", "8", {{"sex", {"woman"}}});
  work("Adi (invented)", "2025-10-06", "4", {{"sex", {"man"}}});
  const Message said = ask(store, "pay", kWeek).parts.at(0).sentences.at(0);
  EXPECT_DOUBLE_EQ(std::get<double>(said.arguments.at("women")), 1);
  EXPECT_DOUBLE_EQ(std::get<double>(said.arguments.at("men")), 0.5);
}

TEST_F(FieldDiary, ACrewsQuantityIsSharedByItsPeople) {
  wage("100000", "2025-10-01");
  write(store, "work",
        {{"who", {"Rini (invented)", "Adi (invented)"}},
         {"day", {"2025-10-06"}},
         {"block", {block}},
         {"job", {"plant"}},
         {"hours", {"8"}},
         {"quantity", {"180"}}},
        make_date(2025, 10, 20));
  const auto rates = rates_of(load_field_book(store));
  ASSERT_EQ(rates.size(), 1U);
  EXPECT_DOUBLE_EQ(rates[0].own, 90);
}

TEST_F(FieldDiary, TheUsedRateIsTheDocumentedShrinkage) {
  for (int i = 6; i < 12; ++i)
    work("Rini (invented)", "2025-10-" + std::string(i < 10 ? "0" : "") + std::to_string(i), "8",
         {{"quantity", {"130"}}});
  const Reply reply = ask(store, "rates", {}, make_date(2025, 10, 20));
  expect_sound(reply);
  const auto& row = table_of(reply, "rates").rows.at(0);
  const Parameters parameters = Parameters::shipped();
  const double weight = parameters.value("tending.diary.book_days");
  const double book = parameters.value("tending.rate.plant");
  EXPECT_DOUBLE_EQ(number_in(row[2]), book);
  EXPECT_DOUBLE_EQ(number_in(row[3]), 130);
  EXPECT_NEAR(number_in(row[8]), (6 * 130 + weight * book) / (6 + weight), 1e-9);
}

TEST_F(FieldDiary, APeriodThatEndsBeforeItBeginsIsRefused) {
  EXPECT_THROW(ask(store, "pay", {{"from", {"2025-10-08"}}, {"to", {"2025-10-01"}}}), Error);
}

TEST_F(FieldDiary, RepliesWithoutAnyLineSaySo) {
  for (const char* name : {"pay", "rates", "settle", "due"}) expect_sound(ask(store, name, {}));
}

TEST_F(FieldDiary, ThePlaceOfAnIncidentIsKeptInATableOfItsOwn) {
  write(store, "trouble",
        {{"kind", {"near_miss"}}, {"what", {"a branch fell"}}, {"place", {"north path"}}});
  ASSERT_EQ(store.count("troubles"), 1);
  const std::vector<store::Row> troubles = store.rows("troubles");
  for (const auto& [column, value] : troubles.front()) {
    const auto* text = std::get_if<std::string>(&value);
    EXPECT_TRUE(text == nullptr || text->find("north path") == std::string::npos) << column;
  }
  EXPECT_EQ(store::text_of(store.rows("trouble_places").front(), "place"), "north path");
}

}  // namespace
}  // namespace wildling::plan
