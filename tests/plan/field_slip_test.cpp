#include <gtest/gtest.h>

#include "base/error.hpp"
#include "field_book.hpp"
#include "field_reply_checks.hpp"

namespace wildling::plan {
namespace {

using Strings = std::vector<std::string>;

class FieldSlip : public testing::Test {
 protected:
  FieldYear year;
  store::Store& store = *year.store;
  FirstBlock first = first_block(store);

  void send_all() {
    Strings species;
    for (const SheetSpecies& one : first.sheet.species)
      species.push_back(one.code + "=" + std::to_string(one.to_load));
    write(store, "dispatch", {{"block", {first.code}}, {"species", species}});
  }

  Entries slip(const std::string& number, Entries more) {
    Entries entries = {
        {"number", {number}}, {"block", {first.code}}, {"people", {"6"}}, {"hours", {"7"}}};
    for (auto& [name, texts] : more) entries[name] = texts;
    return entries;
  }

  std::string state_of(const std::string& number) {
    const auto rows = store.rows("slips", store::Filter{}.with("number", store::Value{number}));
    return rows.empty() ? "" : store::text_of(rows.front(), "state");
  }

  std::string all_rows() { return "1-" + std::to_string(first.sheet.rows.size()); }

  /// Set aside with a sentence in both languages, and every line of it still there.
  void expect_aside(const Entries& entries, const std::string& key) {
    const Message said = write(store, "slip", entries);
    EXPECT_EQ(said.key, key);
    expect_sentence(said);
    EXPECT_EQ(state_of(entries.at("number").front()), "aside");
    EXPECT_EQ(store.count("slips"), 1);
    EXPECT_GT(store.count("slip_lines") + (entries.contains("row") ? 0 : 1), 0);
    const Reply reply = ask(store, "settle", {});
    expect_sound(reply);
    EXPECT_EQ(table_of(reply, "aside").rows.size(), 1U);
    for (const auto& row : reply.tables) {
      if (row.name == "rows") ADD_FAILURE() << "a slip set aside was counted";
    }
  }
};

TEST_F(FieldSlip, RowsPlantedAsPrintedAndWhatIsLeftOverCloseTheAccount) {
  send_all();
  Strings returned;
  for (const SheetSpecies& one : first.sheet.species)
    returned.push_back(one.code + "=" + std::to_string(one.to_load - one.to_plant));
  const Message said =
      write(store, "slip", slip("1", {{"rows-done", {all_rows()}}, {"returned", returned}}));
  EXPECT_EQ(said.key, "fieldbook.kept.slip");
  const Reply reply = ask(store, "settle", {});
  EXPECT_EQ(reply.answer.key, "fieldbook.settle.closed");
  expect_sound(reply);
}

TEST_F(FieldSlip, ACodeOfTheSheetAndTheNameMeanTheSameSpecies) {
  send_all();
  const std::string code = first.sheet.species.front().code;
  write(store, "slip", slip("1", {{"planted", {code + "=1"}}}));
  write(store, "slip", slip("2", {{"planted", {first.species + "=1"}}}));
  const tending::Ledger ledger = settle_book(load_field_book(store)).ledger;
  EXPECT_EQ(ledger.accounts.at(first.code).at(first.species).planted, 2);
}

TEST_F(FieldSlip, WhatWasTypedComesBackInTheReply) {
  send_all();
  const SheetRow& row = first.sheet.rows.at(first.sheet.rows.size() / 2);
  const std::string code = first.sheet.species.front().code;
  write(store, "slip",
        slip("1", {{"row", {std::to_string(row.number) + ":" + code + "=2"}},
                   {"dead", {code + "=3"}},
                   {"checked", {"50"}},
                   {"faults", {"4"}}}));
  const Reply reply = ask(store, "settle", {});
  const Table& rows = table_of(reply, "rows");
  ASSERT_EQ(rows.rows.size(), 1U);
  EXPECT_EQ(number_in(rows.rows[0][1]), row.number);
  EXPECT_EQ(number_in(rows.rows[0][2]), row.count);
  EXPECT_EQ(number_in(rows.rows[0][3]), 2);
  EXPECT_EQ(number_in(rows.rows[0][4]), row.count - 2);
  ASSERT_EQ(reply.parts.size(), 1U);
  EXPECT_EQ(reply.parts[0].sentences[0].arguments.at("faults"), Argument(std::int64_t{4}));
  expect_sound(reply);
}

TEST_F(FieldSlip, EveryAccountIsSentLessPlantedDeadAndReturned) {
  send_all();
  const std::string code = first.sheet.species.front().code;
  write(store, "slip", slip("1", {{"rows-done", {"1-3"}}, {"dead", {code + "=1"}}}));
  const Reply reply = ask(store, "settle", {});
  for (const auto& row : table_of(reply, "ledger").rows) {
    EXPECT_EQ(number_in(row[6]),
              number_in(row[2]) - number_in(row[3]) - number_in(row[4]) - number_in(row[5]));
  }
}

TEST_F(FieldSlip, MorePlantedThanWasSentIsSetAside) {
  expect_aside(slip("1", {{"row", {"1:" + first.sheet.species.front().code + "=1"}}}),
               "fieldbook.aside.more_than_dispatched");
}

TEST_F(FieldSlip, TheMissingDispatchSettlesASlipThatWasSetAside) {
  write(store, "slip", slip("1", {{"rows-done", {"1-2"}}}));
  EXPECT_EQ(state_of("1"), "aside");
  send_all();
  EXPECT_EQ(state_of("1"), "kept");
  EXPECT_TRUE(settle_book(load_field_book(store)).ledger.set_aside.empty());
}

TEST_F(FieldSlip, MoreThanTwentyFourHoursAreSetAside) {
  Entries entries = slip("1", {{"row", {"1:" + first.sheet.species.front().code + "=1"}}});
  entries["hours"] = {"30"};
  expect_aside(entries, "fieldbook.aside.hours");
}

TEST_F(FieldSlip, AnUnknownBlockIsSetAside) {
  Entries entries = slip("1", {{"row", {"1:" + first.sheet.species.front().code + "=1"}}});
  entries["block"] = {"B99"};
  expect_aside(entries, "fieldbook.aside.block_unknown");
}

TEST_F(FieldSlip, AnUnknownSpeciesIsSetAsideUnderTheNameThatWasWritten) {
  send_all();
  expect_aside(slip("1", {{"row", {"1:Quercus nowhere=1"}}}), "fieldbook.aside.species_unknown");
  EXPECT_EQ(store::text_of(store.rows("slip_lines").front(), "species"), "Quercus nowhere");
}

TEST_F(FieldSlip, ARowThatTheSheetDoesNotHaveIsSetAside) {
  send_all();
  expect_aside(slip("1", {{"row", {"9999:" + first.sheet.species.front().code + "=1"}}}),
               "fieldbook.aside.row_unknown");
}

TEST_F(FieldSlip, MoreInARowThanItHasPlacesIsSetAside) {
  send_all();
  const std::string count = std::to_string(first.sheet.rows.front().count + 1);
  expect_aside(slip("1", {{"row", {"1:" + first.sheet.species.front().code + "=" + count}}}),
               "fieldbook.aside.row_full");
}

TEST_F(FieldSlip, ARoundBeforeAnythingWasPlantedIsSetAside) {
  expect_aside(slip("1", {{"job", {"ring"}}}), "fieldbook.aside.before_planting");
}

TEST_F(FieldSlip, ANegativeNumberIsSetAside) {
  send_all();
  expect_aside(slip("1", {{"row", {"1:" + first.sheet.species.front().code + "=-3"}}}),
               "fieldbook.aside.negative");
}

TEST_F(FieldSlip, TheSameNumberAgainCorrectsASlipSetAside) {
  send_all();
  Entries entries = slip("1", {{"rows-done", {"1-2"}}});
  entries["hours"] = {"70"};
  write(store, "slip", entries);
  entries["hours"] = {"7"};
  EXPECT_EQ(write(store, "slip", entries).key, "fieldbook.kept.slip");
  EXPECT_EQ(store.count("slips"), 1);
  EXPECT_EQ(state_of("1"), "kept");
}

TEST_F(FieldSlip, AKeptSlipIsWrittenOverOnlyWhenSaidSo) {
  send_all();
  const std::string code = first.sheet.species.front().code;
  write(store, "slip", slip("1", {{"planted", {code + "=1"}}}));
  const Entries again = slip("1", {{"planted", {code + "=2"}}});
  EXPECT_THROW(write(store, "slip", again), Error);
  Entries corrected = again;
  corrected["correct"] = {"yes"};
  write(store, "slip", corrected);
  const tending::Ledger ledger = settle_book(load_field_book(store)).ledger;
  EXPECT_EQ(ledger.accounts.at(first.code).at(first.species).planted, 2);
}

TEST_F(FieldSlip, OneSlipIsOneActThatCanBeTakenBack) {
  send_all();
  write(store, "slip", slip("1", {{"rows-done", {"1-3"}}}));
  const auto sets = store.change_sets();
  store.undo(sets.front().uid, "tester", "test");
  EXPECT_EQ(store.count("slips"), 0);
  EXPECT_EQ(store.count("slip_lines"), 0);
}

TEST(FieldSlipOnHold, ASlipForABlockWithoutConsentIsSetAside) {
  FieldYear year(false);
  std::string closed;
  for (const ground::Block& block : load_programme(*year.store).blocks) {
    if (block.gates.consent.answer != ground::Answer::yes) closed = block.code;
  }
  ASSERT_FALSE(closed.empty());
  const FirstBlock first = first_block(*year.store);
  const std::string code = first.sheet.species.front().code;
  EXPECT_EQ(write(*year.store, "dispatch", {{"block", {closed}}, {"species", {code + "=9"}}}).key,
            "fieldbook.kept.dispatch_no_consent");
  const Message said = write(*year.store, "slip",
                             {{"number", {"1"}},
                              {"block", {closed}},
                              {"people", {"2"}},
                              {"hours", {"6"}},
                              {"planted", {code + "=9"}}});
  EXPECT_EQ(said.key, "fieldbook.aside.no_consent");
  expect_sentence(said);
  expect_sound(ask(*year.store, "settle", {}));
}

}  // namespace
}  // namespace wildling::plan
