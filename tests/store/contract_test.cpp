// One suite for every store: what holds for the file holds in memory, and will have to hold for any
// other.
#include <cmath>
#include <limits>

#include <gtest/gtest.h>

#include "helpers.hpp"

namespace wildling::store {
namespace {

enum class Kind { file, memory };

class Contract : public testing::TestWithParam<Kind> {
 protected:
  Contract() {
    store_ = GetParam() == Kind::file ? create_file(folder_.file("demo.gpkg"), outside_)
                                      : in_memory(outside_);
  }

  std::string add_site(const std::string& code) {
    return store_->apply(act({RowChange::insert("sites", site(code))})).row_uids.at(0);
  }

  Applied take_in_weather() {
    ChangeSet changes = act({RowChange::insert("stations", {{"name", "Station"}}, "5747")});
    changes.import = weather_file();
    for (const char* day : {"2026-01-01", "2026-01-02", "2026-01-03"}) {
      changes.rows.push_back(RowChange::insert(
          "weather_days", {{"station_uid", "5747"}, {"day", day}, {"rain_mm", 1.5}}));
    }
    return store_->apply(changes);
  }

  Folder folder_;
  Rehearsal outside_{Seed{7}};
  std::unique_ptr<Store> store_;
};

INSTANTIATE_TEST_SUITE_P(Stores, Contract, testing::Values(Kind::file, Kind::memory),
                         [](const auto& each) {
                           return each.param == Kind::file ? "File" : "Memory";
                         });

// ---- rows

TEST_P(Contract, GivesBackWhatWasInserted) {
  const std::string uid = add_site("L-014");
  const Row row = store_->row("sites", uid).value();
  EXPECT_EQ(text_of(row, "code"), "L-014");
  EXPECT_EQ(real_of(row, "vertex_error_m"), 5.0);
  EXPECT_EQ(blob_of(row, "geom"), square(117, -1));
  EXPECT_TRUE(is_null(row, "note"));
}

TEST_P(Contract, SaysWhoMadeARowWhenAndFromWhichFile) {
  ChangeSet changes = act({RowChange::insert("sites", site("A"))});
  changes.source_file = "walk.gpx";
  const Row row = store_->row("sites", store_->apply(changes).row_uids.at(0)).value();
  EXPECT_EQ(text_of(row, "who"), "Sari");
  EXPECT_EQ(text_of(row, "source_file"), "walk.gpx");
  EXPECT_EQ(text_of(row, "changed_utc").size(), 24U);
  EXPECT_EQ(integer_of(row, "row_version"), 1);
}

TEST_P(Contract, KeepsEveryBitOfARealNumber) {
  for (const double value : {0.1, 1e300, 5e-324, -1.0 / 3, 4503599627370497.5, 3.0}) {
    store_->apply(act({RowChange::insert(
        "parameter_overrides",
        {{"key", std::to_string(value)}, {"value", value}, {"origin", "told"}})}));
    const auto rows = store_->rows("parameter_overrides", Filter{}.by("id", true));
    EXPECT_EQ(std::get<double>(cell(rows.front(), "value")), value);
  }
}

TEST_P(Contract, StoresNanAsMissing) {
  const auto uid = store_->apply(
      act({RowChange::insert("stations", {{"name", "S"}, {"elevation_m", std::nan("")}})}));
  EXPECT_TRUE(is_null(store_->row("stations", uid.row_uids.at(0)).value(), "elevation_m"));
}

TEST_P(Contract, ReadsAWholeNumberInARealColumnAsReal) {
  const auto uid = store_->apply(
      act({RowChange::insert("stations", {{"name", "S"}, {"elevation_m", from(12)}})}));
  const Row row = store_->row("stations", uid.row_uids.at(0)).value();
  EXPECT_EQ(cell(row, "elevation_m"), Value(12.0));
}

TEST_P(Contract, UpdatesOnlyTheNamedCells) {
  const std::string uid = add_site("A");
  store_->apply(act({RowChange::update("sites", uid, 1, {{"note", "steep path"}})}));
  const Row row = store_->row("sites", uid).value();
  EXPECT_EQ(text_of(row, "note"), "steep path");
  EXPECT_EQ(text_of(row, "code"), "A");
  EXPECT_EQ(integer_of(row, "row_version"), 2);
}

TEST_P(Contract, RemovesARow) {
  const std::string uid = add_site("A");
  store_->apply(act({RowChange::remove("sites", uid, 1)}));
  EXPECT_FALSE(store_->row("sites", uid));
}

TEST_P(Contract, NeverGivesAnIdTwice) {
  const std::string first = add_site("A");
  const auto id = integer_of(store_->row("sites", first).value(), "id");
  store_->apply(act({RowChange::remove("sites", first, 1)}));
  EXPECT_GT(integer_of(store_->row("sites", add_site("B")).value(), "id"), id);
}

// ---- filters

TEST_P(Contract, FiltersAndOrdersRows) {
  take_in_weather();
  const auto rows = store_->rows("weather_days", Filter{}
                                                     .with("station_uid", "5747")
                                                     .with("day", Compare::at_least, "2026-01-02")
                                                     .by("day", true));
  ASSERT_EQ(rows.size(), 2U);
  EXPECT_EQ(text_of(rows[0], "day"), "2026-01-03");
  EXPECT_EQ(date_of(rows[1], "day"), make_date(2026, 1, 2));
}

TEST_P(Contract, FindsRowsWithAndWithoutAValue) {
  take_in_weather();
  EXPECT_EQ(store_->count("weather_days", Filter{}.with("tmax_c", Compare::null)), 3);
  EXPECT_EQ(store_->count("weather_days", Filter{}.with("rain_mm", Compare::not_null)), 3);
  EXPECT_EQ(store_->count("weather_days", Filter{}.with("tmax_c", Value())),
            0);  // null equals nothing
  EXPECT_EQ(store_->count("weather_days", Filter{}.with("rain_mm", Compare::not_equal, 1.5)), 0);
}

TEST_P(Contract, GivesOnlyTheColumnsAskedFor) {
  add_site("A");
  const auto rows = store_->rows("sites", Filter{}.only({"code"}));
  EXPECT_EQ(rows, (std::vector<Row>{{{"code", "A"}}}));
}

TEST_P(Contract, LetsACallbackReadAgain) {
  add_site("A");
  add_site("B");
  std::int64_t seen = 0;
  store_->for_each("sites", {}, [&](const Row&) { seen += store_->count("sites"); });
  EXPECT_EQ(seen, 4);
}

// ---- refusals

TEST_P(Contract, RefusesValuesThatDoNotFitTheirColumn) {
  const auto key = [&](const char* column, const Value& value) {
    Row row = site("A");
    row[column] = value;
    return refusal([&] { store_->apply(act({RowChange::insert("sites", row)})); });
  };
  EXPECT_EQ(key("code", Value()), "store.value_missing");
  EXPECT_EQ(key("code", 5.0), "store.value_unfit");
  EXPECT_EQ(key("note", std::string("bad \xff byte")), "store.value_unfit");
  EXPECT_EQ(key("note", std::string("nul\0", 4)), "store.value_unfit");
  EXPECT_EQ(key("note", std::string("\xed\xa0\x80")),
            "store.value_unfit");  // a surrogate is no character
  EXPECT_EQ(key("vertex_error_m", "5"), "store.value_unfit");
  EXPECT_EQ(key("vertex_error_m", std::numeric_limits<double>::infinity()), "store.value_unfit");
  EXPECT_EQ(key("geom", Blob{1, 2, 3}), "store.geometry_faulty");
  EXPECT_EQ(key("geom", encode(Position{1, 2})), "store.value_unfit");
  EXPECT_EQ(key("no_such_column", 1.0), "store.unknown_column");
  EXPECT_EQ(key("row_version", from(9)), "store.unknown_column");
  EXPECT_EQ(store_->count("sites"), 0);
}

TEST_P(Contract, RefusesDatesThatAreNoDays) {
  for (const char* day : {"2026-02-30", "2026-2-3", "03.02.2026", ""}) {
    const Row row = {{"block_uid", "b"}, {"gate", "consent"}, {"answer", "yes"}, {"day", day}};
    EXPECT_EQ(refusal([&] { store_->apply(act({RowChange::insert("gate_answers", row)})); }),
              "store.value_unfit")
        << day;
  }
}

TEST_P(Contract, RefusesASecondRowWithTheSameCode) {
  add_site("A");
  const std::string other = add_site("B");
  EXPECT_EQ(refusal([&] { add_site("A"); }), "store.value_taken");
  EXPECT_EQ(refusal([&] {
              store_->apply(act({RowChange::update("sites", other, 1, {{"code", "A"}})}));
            }),
            "store.value_taken");
}

TEST_P(Contract, RefusesToChangeItsOwnLogAndPlans) {
  EXPECT_THROW(store_->apply(act({RowChange::insert("changes", {})})), Error);
  EXPECT_THROW(store_->apply(act({RowChange::insert("plan_results", {})})), Error);
}

TEST_P(Contract, RefusesAChangeWithoutAName) {
  ChangeSet changes = act({});
  changes.who = "";
  EXPECT_EQ(refusal([&] { store_->apply(changes); }), "store.add_who");
}

TEST_P(Contract, RefusesAnUpdateOfAVersionThatIsNoLongerThere) {
  const std::string uid = add_site("A");
  store_->apply(act({RowChange::update("sites", uid, 1, {{"note", "first"}})}));
  try {
    store_->apply(act({RowChange::update("sites", uid, 1, {{"note", "second"}})}));
    FAIL() << "the second writer overwrote the first";
  } catch (const Error& error) {
    EXPECT_EQ(http_status(error.kind()), 412);
    EXPECT_EQ(std::get<std::string>(error.message().arguments.at("rows")), "sites A");
  }
  EXPECT_EQ(text_of(store_->row("sites", uid).value(), "note"), "first");
}

TEST_P(Contract, RefusesAnUpdateOfARowThatIsGone) {
  EXPECT_EQ(refusal([&] { store_->apply(act({RowChange::update("sites", "nobody", 1, {})})); }),
            "store.row_missing");
}

TEST_P(Contract, LeavesNothingOfAChangeSetThatFails) {
  const auto before = content(*store_, true);
  ChangeSet changes =
      act({RowChange::insert("sites", site("A")), RowChange::insert("sites", site("A"))});
  changes.import = weather_file();
  EXPECT_EQ(refusal([&] { store_->apply(changes); }), "store.value_taken");
  EXPECT_EQ(content(*store_, true), before);
}

// ---- log and undo

TEST_P(Contract, LogsWhatAChangeDid) {
  const std::string uid = add_site("A");
  const auto set = store_->apply(act({RowChange::update("sites", uid, 1, {{"note", "new"}})}));
  const auto lines = store_->changes(
      {.set_uid = set.uid, .table = {}, .row_uid = {}, .after_number = 0, .at_most = 9});
  ASSERT_EQ(lines.size(), 1U);
  EXPECT_EQ(lines[0].action, "update");
  EXPECT_NE(lines[0].before_json.find("\"note\":null"), std::string::npos);
  EXPECT_NE(lines[0].after_json.find("\"note\":\"new\""), std::string::npos);
  EXPECT_EQ(lines[0].after_json.find("geom"), std::string::npos);  // only what changed
}

TEST_P(Contract, ListsTheChangesOfOneRowNewestFirst) {
  const std::string a = add_site("A");
  add_site("B");
  store_->apply(act({RowChange::update("sites", a, 1, {{"note", "x"}})}));
  LogQuery of_a;
  of_a.table = "sites";
  of_a.row_uid = a;
  const auto sets = store_->change_sets(of_a);
  ASSERT_EQ(sets.size(), 2U);
  EXPECT_GT(sets[0].number, sets[1].number);
  LogQuery since;
  since.after_number = sets[0].number;
  EXPECT_TRUE(store_->change_sets(since).empty());
}

TEST_P(Contract, UndoesAnInsertAnUpdateAndARemoval) {
  const std::string uid = add_site("A");
  const auto empty = content(*store_);
  const auto set = store_->apply(
      act({RowChange::update("sites", uid, 1, {{"note", "x"}, {"geom", square(10, 10)}}),
           RowChange::insert("sites", site("B")), RowChange::remove("sites", uid, 2)}));
  store_->undo(set.uid, "Sari", "page");
  EXPECT_EQ(content(*store_), empty);
}

TEST_P(Contract, GivesARestoredRowANewVersion) {
  const std::string uid = add_site("A");
  const auto removal = store_->apply(act({RowChange::remove("sites", uid, 1)}));
  store_->undo(removal.uid, "Sari", "page");
  EXPECT_EQ(integer_of(store_->row("sites", uid).value(), "row_version"), 3);
}

TEST_P(Contract, RefusesAnUndoThatALaterChangeTouchedAndNamesTheRow) {
  const std::string uid = add_site("A");
  const auto first = store_->apply(act({RowChange::update("sites", uid, 1, {{"note", "x"}})}));
  store_->apply(act({RowChange::update("sites", uid, 2, {{"name", "y"}})}));
  try {
    store_->undo(first.uid, "Sari", "page");
    FAIL();
  } catch (const Error& error) {
    EXPECT_EQ(error.kind(), ErrorKind::conflict);
    EXPECT_EQ(std::get<std::string>(error.message().arguments.at("rows")), "sites A");
  }
}

TEST_P(Contract, UndoesAnEarlierChangeOnceTheLaterOneIsUndone) {
  const std::string uid = add_site("A");
  const auto before = content(*store_);
  const auto first = store_->apply(act({RowChange::update("sites", uid, 1, {{"note", "x"}})}));
  const auto second = store_->apply(act({RowChange::remove("sites", uid, 2)}));
  store_->undo(second.uid, "Sari", "page");
  store_->undo(first.uid, "Sari", "page");
  EXPECT_EQ(content(*store_), before);
}

TEST_P(Contract, UndoesAnUndo) {
  const auto set = store_->apply(act({RowChange::insert("sites", site("A"))}));
  const auto with_site = content(*store_);
  const auto undo = store_->undo(set.uid, "Sari", "page");
  EXPECT_EQ(store_->count("sites"), 0);
  store_->undo(undo.uid, "Sari", "page");
  EXPECT_EQ(content(*store_), with_site);
  EXPECT_FALSE(store_->change_sets().back().undone);
}

TEST_P(Contract, RefusesToUndoTwice) {
  const auto set = store_->apply(act({RowChange::insert("sites", site("A"))}));
  store_->undo(set.uid, "Sari", "page");
  EXPECT_EQ(refusal([&] { store_->undo(set.uid, "Sari", "page"); }), "store.set_undone_already");
  EXPECT_EQ(refusal([&] { store_->undo("nobody", "Sari", "page"); }), "store.set_unknown");
}

// ---- imports

TEST_P(Contract, CountsTheRowsOfAnImportInsteadOfLoggingEach) {
  const auto set = take_in_weather();
  const auto lines = store_->changes(
      {.set_uid = set.uid, .table = {}, .row_uid = {}, .after_number = 0, .at_most = 99});
  ASSERT_EQ(lines.size(), 3U);  // the import, the station, the days
  EXPECT_EQ(lines[2].action, "counted insert");
  EXPECT_EQ(lines[2].rows, 3);
  const Row import = store_->row("imports", set.import_uid).value();
  EXPECT_EQ(text_of(import, "sha256"), std::string(64, 'a'));
}

TEST_P(Contract, MarksEveryRowOfAnImport) {
  const auto set = take_in_weather();
  EXPECT_EQ(store_->count("weather_days", Filter{}.with("import_uid", set.import_uid)), 3);
  EXPECT_EQ(store_->count("weather_days", Filter{}.with("source_file", "rain.csv")), 3);
}

TEST_P(Contract, UndoesAnImport) {
  const auto set = take_in_weather();
  const auto undo = store_->undo(set.uid, "Sari", "page");
  EXPECT_TRUE(content(*store_).empty());
  EXPECT_EQ(refusal([&] { store_->undo(undo.uid, "Sari", "page"); }), "store.import_undo_undone");
}

TEST_P(Contract, RefusesToUndoAnImportWhoseRowWasCorrected) {
  const auto set = take_in_weather();
  const Row day = store_->rows("weather_days", Filter{}.with("day", "2026-01-02")).at(0);
  const auto correction = store_->apply(
      act({RowChange::update("weather_days", text_of(day, "uid"), 1, {{"rain_mm", 99.0}})}));
  EXPECT_EQ(refusal([&] { store_->undo(set.uid, "Sari", "page"); }), "store.undo_refused");
  store_->undo(correction.uid, "Sari", "page");
  EXPECT_EQ(refusal([&] { store_->undo(set.uid, "Sari", "page"); }), "");
}

TEST_P(Contract, LogsADayEnteredByHandLikeAnyRow) {
  const auto set = store_->apply(
      act({RowChange::insert("weather_days", {{"station_uid", "s"}, {"day", "2026-01-01"}})}));
  EXPECT_EQ(store_->changes().at(0).action, "insert");
  store_->undo(set.uid, "Sari", "page");
  EXPECT_EQ(store_->count("weather_days"), 0);
}

// ---- derived tables

DerivedRows results_of(const std::string& plan, int count) {
  DerivedRows rows;
  rows.table = "plan_results";
  rows.columns = {"plan_uid", "name", "content"};
  rows.replaces = Filter{}.with("plan_uid", plan);
  rows.write = [plan, count](RowSink& sink) {
    for (int i = 0; i < count; ++i)
      sink.add(std::vector<Value>{plan, "part " + std::to_string(i), "{}"});
  };
  return rows;
}

TEST_P(Contract, ReplacesOnlyTheDerivedRowsThatTheFilterNames) {
  ChangeSet changes = act({});
  changes.derived = {results_of("p1", 3), results_of("p2", 2)};
  store_->apply(changes);
  changes.derived = {results_of("p1", 1)};
  store_->apply(changes);
  EXPECT_EQ(store_->count("plan_results", Filter{}.with("plan_uid", "p1")), 1);
  EXPECT_EQ(store_->count("plan_results", Filter{}.with("plan_uid", "p2")), 2);
}

TEST_P(Contract, KeepsAPlansBytesPerBlock) {
  Blob species(1000, 3);
  species[500] = 255;
  ChangeSet changes = act({});
  DerivedRows rows;
  rows.table = "plan_blocks";
  rows.columns = {"plan_uid", "block_uid", "block_code",   "grid",
                  "species",  "places",    "species_bytes"};
  rows.write = [&](RowSink& sink) {
    sink.add(std::vector<Value>{"p", "b", "B3", "{}", "[]", from(1000), species});
    sink.add(std::vector<Value>{"p", "c", "B4", "{}", "[]", from(0), Blob{}});
  };
  changes.derived = {rows};
  store_->apply(changes);
  const auto found = store_->rows("plan_blocks");
  EXPECT_EQ(blob_of(found.at(0), "species_bytes"), species);
  EXPECT_EQ(cell(found.at(1), "species_bytes"), Value(Blob{}));  // empty is not missing
}

TEST_P(Contract, LeavesDerivedRowsAloneWhenTheirWriterFails) {
  ChangeSet changes = act({});
  changes.derived = {results_of("p1", 3)};
  store_->apply(changes);
  const auto before = content(*store_, true);
  changes.derived[0].write = [](RowSink& sink) {
    sink.add(std::vector<Value>{"p1", "x", "{}"});
    sink.add(std::vector<Value>{"p1", Value(), "{}"});
  };
  EXPECT_EQ(refusal([&] { store_->apply(changes); }), "store.value_missing");
  EXPECT_EQ(content(*store_, true), before);
}

TEST_P(Contract, RefusesToUndoComputedResults) {
  ChangeSet changes = act({});
  changes.derived = {results_of("p1", 1)};
  const auto set = store_->apply(changes);
  EXPECT_EQ(refusal([&] { store_->undo(set.uid, "Sari", "page"); }), "store.set_wrote_results");
}

TEST_P(Contract, RefusesTheSameDerivedRowTwice) {
  ChangeSet changes = act({});
  changes.derived = {results_of("p1", 1)};
  changes.derived[0].write = [](RowSink& sink) {
    for (int i = 0; i < 2; ++i) sink.add(std::vector<Value>{"p1", "same", "{}"});
  };
  EXPECT_EQ(refusal([&] { store_->apply(changes); }), "store.value_taken");
}

// ---- the whole

TEST_P(Contract, CountsCommittedChanges) {
  const auto before = store_->data_version();
  add_site("A");
  EXPECT_EQ(store_->data_version(), before + 1);
  EXPECT_THROW(add_site("A"), Error);
  EXPECT_EQ(store_->data_version(), before + 1);
}

TEST_P(Contract, CopiesItselfIntoAFileThatHoldsTheSame) {
  add_site("A");
  take_in_weather();
  ChangeSet changes = act({});
  changes.derived = {results_of("p1", 3)};
  store_->apply(changes);
  store_->backup_to(folder_.file("copy.gpkg"));
  const auto copy = open_file(folder_.file("copy.gpkg"), OpenMode::read_only, outside_);
  EXPECT_EQ(content(*copy, true), content(*store_, true));
  EXPECT_TRUE(copy->damage().empty());
  EXPECT_EQ(refusal([&] { store_->backup_to(folder_.file("copy.gpkg")); }), "base.file_exists");
  EXPECT_EQ(refusal([&] { store_->backup_to(folder_.file("copy.gpkg"), true); }), "");
}

}  // namespace
}  // namespace wildling::store
