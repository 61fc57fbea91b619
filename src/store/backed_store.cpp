#include "store/backed_store.hpp"

#include "store/act.hpp"
#include "store/fit.hpp"

namespace wildling::store {

BackedStore::BackedStore(Opened opened, const Schema& schema, Outside& outside)
    : opened_(std::move(opened)),
      tables_(tables_of(schema, newest_version(schema))),
      outside_(outside) {}

void BackedStore::for_each(std::string_view table, const Filter& filter,
                           const std::function<void(const Row&)>& take) const {
  const Guard guard(mutex_);
  const Table& known = tables_.at(table);
  check_filter(known, filter);
  opened_.backend->select(known, filter, take);
}

std::int64_t BackedStore::count(std::string_view table, const Filter& filter) const {
  const Guard guard(mutex_);
  const Table& known = tables_.at(table);
  check_filter(known, filter);
  return opened_.backend->count(known, filter);
}

void BackedStore::refuse_writing(const std::string& who) const {
  if (opened_.read_only) throw Error(ErrorKind::usage, "", say("store.read_only"));
  if (who.empty()) throw Error(ErrorKind::usage, "", say("store.add_who"));
}

void BackedStore::together(const std::function<void()>& work) {
  opened_.backend->begin();
  try {
    work();
    opened_.backend->commit();
  } catch (...) {
    opened_.backend->rollback();
    throw;
  }
}

Applied BackedStore::apply(const ChangeSet& changes) {
  const Guard guard(mutex_);
  refuse_writing(changes.who);
  Applied applied;
  Act::Who who{changes.who, changes.why, changes.face, changes.source_file, "", ""};
  if (changes.import) {
    who.import_uid = changes.import->uid.empty() ? outside_.new_uid() : changes.import->uid;
    if (who.source_file.empty()) who.source_file = changes.import->file_name;
    applied.import_uid = who.import_uid;
  }
  together([&] {
    Act act(*opened_.backend, tables_, outside_, who);
    applied.uid = act.uid();
    if (changes.import) act.import(*changes.import);
    for (const RowChange& change : changes.rows) {
      std::string uid = change.uid;
      if (change.action == Action::insert) uid = act.insert(change);
      if (change.action == Action::update) act.update(change);
      if (change.action == Action::remove) act.remove(change);
      applied.row_uids.push_back(std::move(uid));
    }
    for (const DerivedRows& rows : changes.derived) act.derive(rows);
    act.finish();
  });
  return applied;
}

std::int64_t BackedStore::data_version() const {
  std::int64_t version = 0;
  for_each("programme_state", Filter{}.with("name", "data_version"),
           [&](const Row& row) { version = integer_of(row, "value").value_or(0); });
  return version;
}

std::string BackedStore::new_uid() {
  const Guard guard(mutex_);
  return outside_.new_uid();
}

void BackedStore::backup_to(const std::string& path, bool overwrite) const {
  const Guard guard(mutex_);
  opened_.backend->backup_to(path, overwrite);
}

std::vector<std::string> BackedStore::damage() const {
  const Guard guard(mutex_);
  return opened_.backend->damage();
}

}  // namespace wildling::store
