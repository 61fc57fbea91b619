#include <set>

#include <gtest/gtest.h>

#include "base/error.hpp"
#include "export/rules.hpp"
#include "field_book.hpp"
#include "field_reply_checks.hpp"
#include "plan/chat_text.hpp"
#include "plan/field/sheets.hpp"
#include "plan/field/typed.hpp"

namespace wildling::plan {
namespace {

const Date kToday = make_date(2025, 10, 5);

class FieldTomorrow : public testing::Test {
 protected:
  FieldYear year;
  store::Store& store = *year.store;
  FirstBlock first = first_block(store);

  void send(const std::string& leader, const std::string& job = "plant") {
    write(store, "send",
          {{"leader", {leader}},
           {"block", {first.code}},
           {"job", {job}},
           {"people", {"12"}},
           {"place", {"depot (invented)"}},
           {"hour", {"06:30"}}},
          kToday);
  }

  std::vector<TomorrowSheet> sheets() { return tomorrow_sheets(store, {}, kToday); }
};

TEST_F(FieldTomorrow, EachLeaderHasASheetWithTheRowsOfTheBlock) {
  send("Adi (invented)");
  send("Rini (invented)", "dig_pits");
  const auto all = sheets();
  ASSERT_EQ(all.size(), 2U);
  EXPECT_EQ(all[0].tasks.at(0).rows.size(), first.sheet.rows.size());
  EXPECT_NE(all[0].tasks[0].slip_number, all[1].tasks[0].slip_number);
}

TEST_F(FieldTomorrow, RowsThatAcceptedSlipsReportAreNotPlantedAgain) {
  send("Adi (invented)");
  std::vector<std::string> species;
  for (const SheetSpecies& one : first.sheet.species)
    species.push_back(one.code + "=" + std::to_string(one.to_load));
  write(store, "dispatch", {{"block", {first.code}}, {"species", species}}, kToday);
  write(store, "slip",
        {{"number", {"1"}},
         {"block", {first.code}},
         {"people", {"9"}},
         {"hours", {"7"}},
         {"rows-done", {"1-3"}}},
        kToday);
  const TomorrowTask task = sheets().at(0).tasks.at(0);
  EXPECT_EQ(task.rows.size(), first.sheet.rows.size() - 3);
  int left = 0, placed = 0, in_three = 0;
  for (const SheetSpecies& one : task.species) left += one.to_plant;
  for (const SheetRow& row : first.sheet.rows) placed += row.count;
  for (std::size_t i = 0; i < 3; ++i) in_three += first.sheet.rows[i].count;
  EXPECT_EQ(left, placed - in_three);
}

TEST_F(FieldTomorrow, TheChatTextHasUnderFiveHundredCharactersInBothLanguages) {
  send(std::string(200, 'n'));
  for (const Language language : {Language::en, Language::id}) {
    const std::string text = chat_text(sheets().at(0), Words(language));
    EXPECT_LT(text.size(), 500U);
    EXPECT_EQ(text.find('['), std::string::npos) << text;
  }
}

TEST_F(FieldTomorrow, TheReplyShowsTasksAndTextsAndOpens) {
  send("Adi (invented)");
  write(store, "tool", {{"tool", {"hoe"}}, {"needed", {"12"}}, {"there", {"9"}}}, kToday);
  const Reply reply = ask(store, "tomorrow", {}, kToday);
  expect_sound(reply);
  EXPECT_EQ(table_of(reply, "tasks").rows.size(), 1U);
  EXPECT_EQ(table_of(reply, "texts").rows.size(), 2U);
}

TEST_F(FieldTomorrow, ARoundIsCountedByTheTreesThatWerePlanted) {
  write(
      store, "work",
      {{"who", {"Rini (invented)"}}, {"block", {first.code}}, {"job", {"plant"}}, {"hours", {"8"}}},
      kToday);
  send("Adi (invented)", "ring");
  const auto days = sheets().at(0).tasks.at(0).person_days;
  ASSERT_TRUE(days.has_value());
  EXPECT_GT(*days, 0);
}

TEST_F(FieldTomorrow, ABlockThatIsUnknownIsRefused) {
  EXPECT_THROW(tomorrow_sheets(store, {{}, {"B99"}, ""}, kToday), Error);
}

TEST_F(FieldTomorrow, DryMonthsAddTheFireCautions) {
  write(store, "send", {{"block", {first.code}}, {"job", {"ring"}}, {"day", {"2025-07-10"}}},
        make_date(2025, 7, 9));
  const auto all = tomorrow_sheets(store, {}, make_date(2025, 7, 9));
  const auto has = [&](const char* key) {
    return std::any_of(all[0].cautions.begin(), all[0].cautions.end(),
                       [&](const Message& m) { return m.key == key; });
  };
  EXPECT_TRUE(has("fieldbook.caution.cut_grass"));
  EXPECT_TRUE(has("fieldbook.caution.late_clearing"));
  EXPECT_TRUE(has("fieldbook.caution.mulch_off"));
}

TEST_F(FieldTomorrow, TheWalkSheetListsBlocksAlsoBeforeAnythingIsPlanted) {
  const WalkSheet sheet = walk_sheet(store, {}, kToday);
  EXPECT_EQ(sheet.lines.size(), load_programme(store).blocks.size());
}

TEST_F(FieldTomorrow, TheWeekOfPayRunsFromMondayToSunday) {
  const PayList list = pay_lists(store, {make_date(2025, 10, 8), {}, ""}, kToday).at(0);
  EXPECT_EQ(list.first, make_date(2025, 10, 6));
  EXPECT_EQ(list.days, 7);
}

TEST(FieldTomorrowOnHold, ABlockWithoutConsentIsNamedAsNotTomorrow) {
  FieldYear year(false);
  std::string closed;
  for (const ground::Block& block : load_programme(*year.store).blocks) {
    if (block.gates.consent.answer != ground::Answer::yes) closed = block.code;
  }
  const auto all = tomorrow_sheets(*year.store, {{}, {closed}, ""}, kToday);
  EXPECT_FALSE(all.at(0).tasks.at(0).gates.open);
  EXPECT_TRUE(all[0].tasks[0].rows.empty());
  EXPECT_TRUE(all[0].tasks[0].species.empty());
}

TEST(FieldWords, EveryFieldAndChoiceHasItsLabelInBothLanguages) {
  const auto key = [](std::string prefix, std::string name) {
    std::replace(name.begin(), name.end(), '-', '_');
    return prefix + name;
  };
  for (const Language language : {Language::en, Language::id}) {
    const Words words(language);
    const auto check = [&](const std::vector<Field>& fields) {
      for (const Field& field : fields) {
        EXPECT_TRUE(words.has(key("field.", field.name))) << field.name;
        for (const std::string& choice : field.choices)
          EXPECT_TRUE(words.has(key("choice.", choice))) << choice;
      }
    };
    for (const Question& question : field_questions()) {
      EXPECT_TRUE(words.has("ask." + question.name)) << question.name;
      check(question.fields);
    }
    for (const Note& note : field_notes()) {
      EXPECT_TRUE(words.has("note." + note.name)) << note.name;
      check(note.fields);
    }
  }
}

TEST(FieldTables, WhatIsMarkedSensitiveIsAKindThatExportsLeaveOut) {
  std::set<std::string> kinds, marked;
  for (const auto kind : {exports::Sensitive::names, exports::Sensitive::incident_places})
    kinds.emplace(exports::sensitive_name(kind));
  for (const store::TableDef& table :
       store::tables_of(store::shipped_schema(), store::newest_version(store::shipped_schema()))) {
    for (const store::Column& column : table.columns) {
      if (column.sensitive.empty()) continue;
      EXPECT_TRUE(kinds.contains(column.sensitive)) << table.name << "." << column.name;
      marked.insert(table.name + "." + column.name);
    }
  }
  for (const char* column :
       {"diary_lines.worker", "wages.worker", "slips.leader", "trouble_places.place"})
    EXPECT_TRUE(marked.contains(column)) << column;
}

TEST(Typed, CountsAreReadWithCodesAndNames) {
  const Counts counts = read_counts("dead", "A=12, Shorea leprosula = 4");
  ASSERT_EQ(counts.size(), 2U);
  EXPECT_EQ(counts[0], (std::pair<std::string, std::int64_t>{"A", 12}));
  EXPECT_EQ(counts[1], (std::pair<std::string, std::int64_t>{"Shorea leprosula", 4}));
}

TEST(Typed, RowsAreReadAsNumbersAndStretches) {
  EXPECT_EQ(read_rows("rows-done", "1-3,7"), (std::vector<int>{1, 2, 3, 7}));
}

TEST(Typed, WhatCannotBeReadIsRefusedWithAnExample) {
  for (const char* text : {"", "A", "A=", "=3", "A=x", "A=1,,B=2", "A=99999999999999999999"})
    EXPECT_THROW(read_counts("dead", text), Error) << text;
  for (const char* text : {"", "A=1", ":A=1", "x:A=1", "1:"})
    EXPECT_THROW(read_row("row", text), Error) << text;
  for (const char* text : {"", "3-1", "x", "1-", "1-999999999"})
    EXPECT_THROW(read_rows("rows-done", text), Error) << text;
}

}  // namespace
}  // namespace wildling::plan
