// Reading the log, and undo. A set is undone while an undo of it is in force: an undo that was
// itself undone does not count.
#include <algorithm>

#include <fmt/format.h>

#include "store/act.hpp"
#include "store/backed_store.hpp"
#include "store/fit.hpp"
#include "store/row_json.hpp"

namespace wildling::store {
namespace {

LoggedSet set_of(const Row& row) {
  LoggedSet set;
  set.number = integer_of(row, "id").value_or(0);
  set.uid = text_of(row, "uid");
  set.who = text_of(row, "who");
  set.made_utc = text_of(row, "made_utc");
  set.why = text_of(row, "why");
  set.face = text_of(row, "face");
  set.source_file = text_of(row, "source_file");
  set.import_uid = text_of(row, "import_uid");
  set.undoes = text_of(row, "undoes");
  return set;
}

/// Newest first, so that an undo is judged before what it undoes.
void mark_undone(std::vector<LoggedSet>& sets) {
  std::set<std::string> undone;
  for (LoggedSet& set : sets) {
    set.undone = undone.contains(set.uid);
    if (!set.undone && !set.undoes.empty()) undone.insert(set.undoes);
  }
}

const LoggedSet* find(const std::vector<LoggedSet>& sets, const std::string& uid) {
  const auto found =
      std::find_if(sets.begin(), sets.end(), [&](const LoggedSet& s) { return s.uid == uid; });
  return found == sets.end() ? nullptr : &*found;
}

/// True when `later` still has an effect beyond taking back something that is later than `target`
/// itself.
bool in_force(const LoggedSet& later, const LoggedSet& target, const std::vector<LoggedSet>& sets) {
  if (later.undone) return false;
  if (later.undoes.empty()) return true;
  const LoggedSet* taken_back = find(sets, later.undoes);
  return taken_back == nullptr || taken_back->number <= target.number;
}

bool of_import(const LoggedChange& line, const std::string& import_uid) {
  for (const std::string& json : {line.before_json, line.after_json}) {
    if (!json.empty() && text_of(from_json(json), "import_uid") == import_uid) return true;
  }
  return false;
}

}  // namespace

std::vector<LoggedSet> BackedStore::all_sets() const {
  std::vector<LoggedSet> sets;
  for_each("change_sets", Filter{}.by("id", true),
           [&](const Row& row) { sets.push_back(set_of(row)); });
  mark_undone(sets);
  return sets;
}

std::vector<LoggedChange> BackedStore::lines(const Filter& filter) const {
  std::map<std::int64_t, std::string> uids;
  std::vector<LoggedChange> found;
  std::vector<std::int64_t> numbers;
  for_each("changes", filter, [&](const Row& row) {
    LoggedChange line;
    line.table = text_of(row, "table_name");
    line.row_uid = text_of(row, "row_uid");
    line.action = text_of(row, "action");
    line.rows = integer_of(row, "row_count").value_or(0);
    line.before_json = text_of(row, "before");
    line.after_json = text_of(row, "after");
    found.push_back(std::move(line));
    numbers.push_back(integer_of(row, "set_number").value_or(0));
  });
  for (std::size_t i = 0; i < found.size(); ++i) {
    auto [known, is_new] = uids.try_emplace(numbers[i]);
    if (is_new) {
      const auto set = rows("change_sets", Filter{}.with("id", numbers[i]));
      if (!set.empty()) known->second = text_of(set.front(), "uid");
    }
    found[i].set_uid = known->second;
  }
  return found;
}

std::vector<LoggedSet> BackedStore::change_sets(const LogQuery& query) const {
  const Guard guard(mutex_);
  std::set<std::string> concerned;
  const bool by_row = !query.table.empty() || !query.row_uid.empty();
  if (by_row) {
    LogQuery all = query;
    all.at_most = static_cast<std::size_t>(-1);
    for (const LoggedChange& line : changes(all)) concerned.insert(line.set_uid);
  }
  std::vector<LoggedSet> found;
  for (LoggedSet& set : all_sets()) {
    if (found.size() >= query.at_most || set.number <= query.after_number) break;
    if (by_row && !concerned.contains(set.uid)) continue;
    if (query.set_uid.empty() || query.set_uid == set.uid) found.push_back(std::move(set));
  }
  return found;
}

std::vector<LoggedChange> BackedStore::changes(const LogQuery& query) const {
  const Guard guard(mutex_);
  Filter filter = Filter{}.by("set_number", true);
  if (!query.table.empty()) filter = filter.with("table_name", query.table);
  if (!query.row_uid.empty()) filter = filter.with("row_uid", query.row_uid);
  if (query.after_number > 0) filter = filter.with("set_number", Compare::more, query.after_number);
  if (!query.set_uid.empty()) {
    const auto set = rows("change_sets", Filter{}.with("uid", query.set_uid));
    if (set.empty()) return {};
    filter = filter.with("set_number", cell(set.front(), "id"));
  }
  filter.at_most = query.at_most;
  return lines(filter);
}

std::string BackedStore::known_as(const std::string& table, const std::string& row_uid) const {
  const auto now = row(table, row_uid);
  return now ? label_of(tables_.at(table), *now) : table + " " + row_uid;
}

std::set<std::string> BackedStore::touched_later(const LoggedSet& target,
                                                 const std::vector<LoggedChange>& own,
                                                 const std::vector<LoggedSet>& sets) const {
  std::set<std::string> force;
  for (const LoggedSet& set : sets) {
    if (set.number > target.number && in_force(set, target, sets)) force.insert(set.uid);
  }
  std::set<std::string> touched;
  std::set<std::pair<std::string, std::string>> seen;
  for (const LoggedChange& line : own) {
    if (!seen.insert({line.table, line.row_uid}).second) continue;
    Filter later =
        Filter{}.with("table_name", line.table).with("set_number", Compare::more, target.number);
    const bool counted = line.row_uid.empty();
    if (!counted) later = later.with("row_uid", line.row_uid);
    for (const LoggedChange& other : lines(later)) {
      if (!force.contains(other.set_uid) || other.row_uid.empty()) continue;
      if (!counted || of_import(other, target.import_uid))
        touched.insert(known_as(other.table, other.row_uid));
    }
  }
  return touched;
}

Applied BackedStore::undo(const std::string& set_uid, const std::string& who,
                          const std::string& face) {
  const Guard guard(mutex_);
  refuse_writing(who);
  const auto sets = all_sets();
  const LoggedSet* target = find(sets, set_uid);
  if (target == nullptr)
    throw Error(ErrorKind::input, "", say("store.set_unknown", {{"uid", set_uid}}));
  if (target->undone) throw Error(ErrorKind::usage, "", say("store.set_undone_already"));
  auto own = lines(Filter{}.with("set_number", target->number));
  for (const LoggedChange& line : own) {
    if (line.action == "derived") throw Error(ErrorKind::usage, "", say("store.set_wrote_results"));
    if (line.action == "counted remove")
      throw Error(ErrorKind::usage, "", say("store.import_undo_undone"));
  }
  const auto touched = touched_later(*target, own, sets);
  if (!touched.empty()) {
    throw Error(ErrorKind::conflict, "",
                say("store.undo_refused", {{"count", static_cast<std::int64_t>(touched.size())},
                                           {"rows", fmt::format("{}", fmt::join(touched, ", "))}}));
  }
  Applied applied;
  together([&] {
    Act act(*opened_.backend, tables_, outside_, {who, target->why, face, "", "", target->uid});
    applied.uid = act.uid();
    for (auto line = own.rbegin(); line != own.rend(); ++line) {
      act.take_back(*line, target->import_uid);
      applied.row_uids.push_back(line->row_uid);
    }
    act.finish();
  });
  return applied;
}

}  // namespace wildling::store
