// Random acts and undos: the file and the in-memory store stay equal, and undoing everything leads
// back to the start.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "helpers.hpp"

namespace wildling::store {
namespace {

/// A short random life of a programme, told by numbers so that it can be repeated on any store.
struct Step {
  int kind = 0;    ///< 0 insert, 1 update, 2 remove, 3 import of days, 4 undo
  int which = 0;   ///< row or set it concerns
  int amount = 0;  ///< value, number of rows
};

std::vector<Row> all_editable(const Store& store) {
  std::vector<Row> found;
  for (const char* table : {"sites", "settings", "weather_days"}) {
    for (Row row : store.rows(table)) {
      row["table"] = std::string(table);
      found.push_back(std::move(row));
    }
  }
  return found;
}

ChangeSet import_of_days(int which, int amount) {
  ChangeSet changes = act({});
  changes.import = weather_file();
  for (int i = 0; i <= amount % 4; ++i) {
    changes.rows.push_back(
        RowChange::insert("weather_days", {{"station_uid", "s" + std::to_string(which)},
                                           {"day", "2026-01-0" + std::to_string(i + 1)},
                                           {"rain_mm", amount / 3.0}}));
  }
  return changes;
}

RowChange change_of(const Row& row, const Step& step) {
  const std::string table = text_of(row, "table");
  const std::string uid = text_of(row, "uid");
  const std::int64_t version = integer_of(row, "row_version").value();
  if (step.kind == 2) return RowChange::remove(table, uid, version);
  if (table == "sites") {
    return RowChange::update(
        table, uid, version,
        {{"vertex_error_m", step.amount / 7.0}, {"geom", square(step.amount, 0)}});
  }
  if (table == "settings")
    return RowChange::update(table, uid, version, {{"value", std::to_string(step.amount)}});
  return RowChange::update(table, uid, version, {{"rain_mm", step.amount / 3.0}});
}

void carry_out(Store& store, const Step& step) {
  if (step.kind == 4) {
    const auto sets = store.change_sets();
    if (!sets.empty())
      store.undo(sets[static_cast<std::size_t>(step.which) % sets.size()].uid, "Sari", "page");
    return;
  }
  if (step.kind == 3) {
    store.apply(import_of_days(step.which, step.amount));
    return;
  }
  const auto rows = all_editable(store);
  if (step.kind == 0 || rows.empty()) {
    const std::string code = std::to_string(step.which);
    store.apply(act({RowChange::insert("sites", site(code, step.amount, -1)),
                     RowChange::insert("settings", {{"key", code}, {"value", "v"}})}));
    return;
  }
  store.apply(act({change_of(rows[static_cast<std::size_t>(step.which) % rows.size()], step)}));
}

std::vector<Step> steps() {
  const auto step = rc::gen::build<Step>(rc::gen::set(&Step::kind, rc::gen::inRange(0, 5)),
                                         rc::gen::set(&Step::which, rc::gen::inRange(0, 12)),
                                         rc::gen::set(&Step::amount, rc::gen::inRange(0, 100)));
  return *rc::gen::resize(25, rc::gen::container<std::vector<Step>>(step));
}

RC_GTEST_PROP(Undo, KeepsFileAndMemoryEqual, ()) {
  const Folder folder(fast_place());
  Rehearsal outside_file{Seed{1}};
  Rehearsal outside_memory{Seed{1}};
  const auto file = create_file(folder.file("a.gpkg"), outside_file);
  const auto memory = in_memory(outside_memory);
  for (const Step& step : steps()) {
    const auto in_file = refusal([&] { carry_out(*file, step); });
    const auto in_memory_too = refusal([&] { carry_out(*memory, step); });
    RC_ASSERT(in_file == in_memory_too);
  }
  RC_ASSERT(content(*file, true) == content(*memory, true));
}

RC_GTEST_PROP(Undo, OfEverythingInReverseLeadsBackToTheStart, ()) {
  Rehearsal outside{Seed{1}};
  const auto store = in_memory(outside);
  std::vector<std::string> done;
  std::vector<std::map<std::string, std::vector<Row>>> states = {content(*store)};
  for (Step step : steps()) {
    step.kind %= 4;
    try {
      carry_out(*store, step);
    } catch (const Error&) {
      continue;  // a code that exists already
    }
    done.push_back(store->change_sets().front().uid);
    states.push_back(content(*store));
  }
  while (!done.empty()) {
    states.pop_back();
    store->undo(done.back(), "Sari", "page");
    done.pop_back();
    RC_ASSERT(content(*store) == states.back());
  }
}

}  // namespace
}  // namespace wildling::store
