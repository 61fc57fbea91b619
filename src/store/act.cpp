#include "store/act.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "base/error.hpp"
#include "store/fit.hpp"
#include "store/row_json.hpp"

namespace wildling::store {
namespace {

std::int64_t id_of(const Row& row) {
  return integer_of(row, "id").value_or(0);
}

std::int64_t version_of(const Row& row) {
  return integer_of(row, "row_version").value_or(0);
}

std::optional<Row> first_row(Backend& backend, const Table& table, Filter filter) {
  std::optional<Row> found;
  filter.at_most = 1;
  backend.select(table, filter, [&](const Row& row) {
    if (!found) found = row;
  });
  return found;
}

const Table& editable(const Tables& tables, const std::string& name) {
  const Table& table = tables.at(name);
  if (is_editable(table.def)) return table;
  throw Error(ErrorKind::internal, name, say("store.unknown_table", {{"table", name}}));
}

/// Columns of `cells` as they are in `old`, and what names the row.
Row part_of(const Row& old, const Row& cells) {
  Row part;
  for (const auto& [name, value] : cells) part[name] = cell(old, name);
  for (const char* name : {"id", "row_version"}) part[name] = cell(old, name);
  if (!is_null(old, "import_uid")) part["import_uid"] = cell(old, "import_uid");
  return part;
}

/// Checks what the caller adds to a derived table and passes it on.
class CheckedSink : public RowSink {
 public:
  using Unique = std::function<void(const Row&)>;

  CheckedSink(const Table& table, const DerivedRows& rows, RowSink& next, Touched& touched,
              Unique unique)
      : table_(table),
        names_(rows.columns),
        next_(next),
        touched_(touched),
        unique_(std::move(unique)) {
    for (const std::string& name : names_) columns_.push_back(&table.at(name));
    for (const Column& column : table.columns) {
      const bool given = std::find(names_.begin(), names_.end(), column.name) != names_.end();
      if (!given && column.name != "id") static_cast<void>(refitted(table, column, Value()));
    }
  }

  void add(std::span<const Value> values) override {
    if (values.size() != columns_.size()) {
      throw Error(ErrorKind::internal, table_.def.name,
                  say("store.schema_faulty", {{"table", table_.def.name}}));
    }
    bool as_given = true;
    for (std::size_t i = 0; i < values.size(); ++i) {
      auto other = refitted(table_, *columns_[i], values[i]);
      if (!other) continue;
      if (as_given) changed_.assign(values.begin(), values.end());
      as_given = false;
      changed_[i] = std::move(*other);
    }
    const std::span<const Value> fitting = as_given ? values : std::span<const Value>(changed_);
    note(fitting);
    next_.add(fitting);
    ++rows_;
  }

  [[nodiscard]] std::int64_t rows() const { return rows_; }

 private:
  void note(std::span<const Value> values) {
    Row row;
    for (std::size_t i = 0; i < values.size(); ++i) {
      if (columns_[i]->type == ColumnType::geometry && std::holds_alternative<Blob>(values[i])) {
        if (const auto box = envelope_of(std::get<Blob>(values[i]))) touched_.add(*box);
      }
      if (unique_ && columns_[i]->type != ColumnType::blob) row[names_[i]] = values[i];
    }
    if (unique_) unique_(row);
  }

  const Table& table_;
  const std::vector<std::string>& names_;
  std::vector<const Column*> columns_;
  RowSink& next_;
  Touched& touched_;
  Unique unique_;
  std::vector<Value> changed_;
  std::int64_t rows_ = 0;
};

bool has_unique(const Table& table) {
  return std::any_of(table.def.indexes.begin(), table.def.indexes.end(),
                     [](const Index& index) { return index.unique; });
}

}  // namespace

Act::Act(Backend& backend, const Tables& tables, Outside& outside, Who who)
    : backend_(backend),
      tables_(tables),
      outside_(outside),
      who_(std::move(who)),
      uid_(outside.new_uid()),
      now_(outside.now_utc()) {
  const Table& sets = tables_.at("change_sets");
  const auto or_null = [](const std::string& text) { return text.empty() ? Value() : Value(text); };
  const Row row = {{"who", who_.who},
                   {"why", who_.why},
                   {"face", who_.face},
                   {"source_file", or_null(who_.source_file)},
                   {"import_uid", or_null(who_.import_uid)},
                   {"undoes", or_null(who_.undoes)},
                   {"uid", uid_},
                   {"made_utc", now_}};
  number_ = backend_.insert(sets, fitted(sets, row, false));
}

std::string Act::insert(const RowChange& change) {
  const Table& table = editable(tables_, change.table);
  Row row = fitted(table, change.values, false);
  const std::string uid = change.uid.empty() ? outside_.new_uid() : change.uid;
  row["uid"] = uid;
  row["row_version"] = from(1);
  row["source_file"] = who_.source_file.empty() ? Value() : Value(who_.source_file);
  row["import_uid"] = who_.import_uid.empty() ? Value() : Value(who_.import_uid);
  put(table, std::move(row));
  return uid;
}

void Act::update(const RowChange& change) {
  const Table& table = editable(tables_, change.table);
  Row cells = fitted(table, change.values, true);
  const auto old = current(table, change.uid, change.row_version);
  if (!old) return;
  if (!who_.source_file.empty()) cells["source_file"] = who_.source_file;
  this->change(table, *old, std::move(cells));
}

void Act::remove(const RowChange& change) {
  const Table& table = editable(tables_, change.table);
  const auto old = current(table, change.uid, change.row_version);
  if (old) take_away(table, *old);
}

void Act::import(const Import& file) {
  RowChange change = RowChange::insert("imports", {{"kind", file.kind},
                                                   {"file_name", file.file_name},
                                                   {"sha256", file.sha256},
                                                   {"file_bytes", file.bytes},
                                                   {"records_read", file.records_read},
                                                   {"records_kept", file.records_kept},
                                                   {"records_set_aside", file.records_set_aside},
                                                   {"findings", file.findings_json}});
  change.uid = who_.import_uid;
  insert(change);
}

void Act::derive(const DerivedRows& rows) {
  const Table& table = tables_.at(rows.table);
  if (table.def.kind != TableKind::derived) {
    throw Error(ErrorKind::internal, rows.table,
                say("store.unknown_table", {{"table", rows.table}}));
  }
  check_filter(table, rows.replaces);
  Touched& touched = touched_[rows.table];
  if (backend_.remove_where(table, rows.replaces) > 0) touched.rows_went = true;
  if (!first_row(backend_, table, Filter{}.only({"id"}))) touched.only_new = true;
  std::int64_t added = 0;
  if (rows.write) {
    const auto bulk = backend_.bulk(table, rows.columns);
    CheckedSink::Unique unique;
    if (has_unique(table)) unique = [&](const Row& row) { check_unique(table, row, -1); };
    CheckedSink sink(table, rows, *bulk, touched, unique);
    rows.write(sink);
    added = sink.rows();
  }
  log(table, "", "derived", added, "", "");
}

void Act::take_back(const LoggedChange& line, const std::string& import_uid) {
  const Table& table = editable(tables_, line.table);
  if (line.action == "counted insert") {
    const auto gone = backend_.remove_where(table, Filter{}.with("import_uid", import_uid));
    touched_[line.table].rows_went = true;
    log(table, "", "counted remove", gone, "", "");
    return;
  }
  if (line.action == "remove") {
    put_back(table, from_json(line.before_json));
    return;
  }
  const auto old = first_row(backend_, table, Filter{}.with("uid", line.row_uid));
  if (!old) {
    missing_rows_.push_back(line.table + " " + line.row_uid);
  } else if (line.action == "insert") {
    take_away(table, *old);
  } else {
    Row cells = from_json(line.before_json);
    for (const char* kept : {"id", "row_version", "who", "changed_utc"}) cells.erase(kept);
    change(table, *old, std::move(cells));
  }
}

std::optional<Row> Act::current(const Table& table, const std::string& uid,
                                std::int64_t row_version) {
  auto row = first_row(backend_, table, Filter{}.with("uid", uid));
  if (!row) {
    missing_rows_.push_back(table.def.name + " " + uid);
  } else if (version_of(*row) != row_version) {
    changed_rows_.push_back(label_of(table, *row));
    row.reset();
  }
  return row;
}

void Act::check_unique(const Table& table, const Row& row, std::int64_t own_id) {
  for (const Index& index : table.def.indexes) {
    if (!index.unique) continue;
    Filter same;
    std::string values;
    for (const std::string& column : index.columns) {
      same = same.with(column, cell(row, column));
      values += (values.empty() ? "" : ", ") + column + " = " + shown(cell(row, column));
    }
    same.columns = {"id"};
    const auto other = first_row(backend_, table, same);
    if (other && id_of(*other) != own_id) {
      throw Error(ErrorKind::input, table.def.name,
                  say("store.value_taken", {{"table", table.def.name}, {"values", values}}));
    }
  }
}

void Act::put(const Table& table, Row row) {
  row["who"] = who_.who;
  row["changed_utc"] = now_;
  if (first_row(backend_, table, Filter{}.with("uid", cell(row, "uid")).only({"id"}))) {
    throw Error(ErrorKind::input, table.def.name,
                say("store.value_taken",
                    {{"table", table.def.name}, {"values", "uid = " + text_of(row, "uid")}}));
  }
  check_unique(table, row, -1);
  note_shape(table, row);
  row["id"] = backend_.insert(table, row);
  if (!table.def.logged && !who_.import_uid.empty() && who_.undoes.empty()) {
    ++counted_[table.def.name];
    return;
  }
  log(table, text_of(row, "uid"), "insert", 1, "", to_json(row));
}

void Act::change(const Table& table, const Row& old, Row cells) {
  cells["row_version"] = version_of(old) + 1;
  cells["who"] = who_.who;
  cells["changed_utc"] = now_;
  Row whole = old;
  for (const auto& [name, value] : cells) whole[name] = value;
  check_unique(table, whole, id_of(old));
  if (cells.contains("geom")) {
    touched_[table.def.name].rows_went = true;
    note_shape(table, cells);
  }
  touched_[table.def.name];
  backend_.update(table, id_of(old), cells);
  log(table, text_of(old, "uid"), "update", 1, to_json(part_of(old, cells)),
      to_json(part_of(whole, cells)));
}

void Act::take_away(const Table& table, const Row& old) {
  touched_[table.def.name].rows_went = true;
  backend_.remove(table, id_of(old));
  log(table, text_of(old, "uid"), "remove", 1, to_json(old), "");
}

void Act::put_back(const Table& table, const Row& before) {
  Row row = before;
  row["row_version"] = version_of(before) + 2;  // the removal was a version of its own
  put(table, std::move(row));
}

void Act::note_shape(const Table& table, const Row& row) {
  Touched& touched = touched_[table.def.name];
  const auto* blob = std::get_if<Blob>(&cell(row, "geom"));
  if (blob == nullptr) return;
  if (const auto box = envelope_of(*blob)) touched.add(*box);
}

void Act::log(const Table& table, const std::string& row_uid, const char* action, std::int64_t rows,
              const std::string& before, const std::string& after) {
  const auto or_null = [](const std::string& text) { return text.empty() ? Value() : Value(text); };
  backend_.insert(tables_.at("changes"), {{"set_number", number_},
                                          {"table_name", table.def.name},
                                          {"row_uid", or_null(row_uid)},
                                          {"action", std::string(action)},
                                          {"row_count", rows},
                                          {"before", or_null(before)},
                                          {"after", or_null(after)}});
}

void Act::count_commit() {
  const Table& table = tables_.at("programme_state");
  const auto counter = first_row(backend_, table, Filter{}.with("name", "data_version"));
  if (counter) {
    backend_.update(table, id_of(*counter),
                    {{"value", integer_of(*counter, "value").value_or(0) + 1}});
  } else {
    backend_.insert(table, {{"name", "data_version"}, {"value", from(1)}});
  }
}

void Act::refuse_conflicts() const {
  const bool missing = !missing_rows_.empty();
  const auto& rows = missing ? missing_rows_ : changed_rows_;
  if (rows.empty()) return;
  throw Error(ErrorKind::conflict, "",
              say(missing ? "store.row_missing" : "store.row_changed",
                  {{"count", static_cast<std::int64_t>(rows.size())},
                   {"rows", fmt::format("{}", fmt::join(rows, ", "))}}));
}

void Act::finish() {
  refuse_conflicts();
  for (const auto& [name, count] : counted_)
    log(tables_.at(name), "", "counted insert", count, "", "");
  count_commit();
  for (const auto& [name, touched] : touched_) backend_.finish(tables_.at(name), touched, now_);
}

}  // namespace wildling::store
