#include "store/sqlite_backend.hpp"

#include <algorithm>
#include <array>

#include <fmt/format.h>
#include <sqlite3.h>

#include "base/error.hpp"
#include "store/copy.hpp"

namespace wildling::store {
namespace {

const char* operator_of(Compare compare) {
  switch (compare) {
    case Compare::equal:
      return "= ?";
    case Compare::not_equal:
      return "<> ?";
    case Compare::less:
      return "< ?";
    case Compare::at_most:
      return "<= ?";
    case Compare::more:
      return "> ?";
    case Compare::at_least:
      return ">= ?";
    case Compare::null:
      return "IS NULL";
    case Compare::not_null:
      return "IS NOT NULL";
  }
  return "IS NULL";
}

void bind_all(Statement& statement, const Filter& filter) {
  int position = 0;
  for (const Condition& condition : filter.where) {
    const bool valued =
        condition.compare != Compare::null && condition.compare != Compare::not_null;
    if (valued) statement.bind(++position, condition.value);
  }
}

std::string quoted(const std::string& name) {
  return '"' + name + '"';
}

/// What SQLite stores as a whole number in a real column is a real all the same.
Value as_column(Value value, ColumnType type) {
  if (type != ColumnType::real) return value;
  const auto* whole = std::get_if<std::int64_t>(&value);
  return whole == nullptr ? value : Value(static_cast<double>(*whole));
}

std::string insert_sql(const Table& table, const std::vector<std::string>& columns) {
  std::string marks;
  for (std::size_t i = 0; i < columns.size(); ++i) marks += i == 0 ? "?" : ", ?";
  return fmt::format("INSERT INTO \"{}\" (\"{}\") VALUES ({})", table.def.name,
                     fmt::join(columns, "\", \""), marks);
}

class SqliteSink : public RowSink {
 public:
  SqliteSink(Connection& connection, const std::string& sql) : statement_(connection, sql) {}

  void add(std::span<const Value> values) override {
    int position = 0;
    for (const Value& value : values) statement_.bind(++position, value);
    statement_.step();
    statement_.reset();
  }

 private:
  Statement statement_;
};

}  // namespace

// ---- SqliteWriter

std::int64_t SqliteWriter::insert(const Table& table, const Row& row) {
  std::vector<std::string> columns;
  for (const Column& column : table.columns) columns.push_back(column.name);
  const Connection::Borrowed statement(connection_, insert_sql(table, columns));
  int position = 0;
  for (const std::string& column : columns) statement->bind(++position, cell(row, column));
  statement->step();
  return sqlite3_last_insert_rowid(connection_.handle());
}

void SqliteWriter::update(const Table& table, std::int64_t id, const Row& row) {
  std::string cells;
  for (const auto& each : row) cells += (cells.empty() ? "" : ", ") + quoted(each.first) + " = ?";
  const Value which = id;
  const Connection::Borrowed statement(
      connection_, fmt::format("UPDATE \"{}\" SET {} WHERE id = ?", table.def.name, cells));
  int position = 0;
  for (const auto& each : row) statement->bind(++position, each.second);
  statement->bind(++position, which);
  statement->step();
}

void SqliteWriter::set_extent(const std::string& table, const std::optional<Envelope>& box) {
  const auto side = [&](double Envelope::*which) { return box ? Value((*box).*which) : Value(); };
  connection_.run(
      "UPDATE gpkg_contents SET min_x = ?, max_x = ?, min_y = ?, max_y = ? WHERE table_name = ?",
      {side(&Envelope::min_lon_deg), side(&Envelope::max_lon_deg), side(&Envelope::min_lat_deg),
       side(&Envelope::max_lat_deg), table});
}

void SqliteWriter::finish(const Table& table, const Touched& touched, const std::string& now_utc) {
  connection_.run("UPDATE gpkg_contents SET last_change = ? WHERE table_name = ?",
                  {now_utc, table.def.name});
  if (table.def.geometry == GeometryType::none || (!touched.rows_went && !touched.added)) return;
  if (touched.rows_went && table.def.kind != TableKind::derived) {
    set_extent(
        table.def.name,
        box_in(fmt::format("SELECT min(ST_MinX(geom)), max(ST_MaxX(geom)), min(ST_MinY(geom)), "
                           "max(ST_MaxY(geom)) FROM \"{}\"",
                           table.def.name)));
    return;
  }
  // A derived table that keeps some of its old rows keeps their extent: it may be too wide, never
  // too narrow.
  Touched all = touched;
  const auto old = box_in(
      fmt::format("SELECT min_x, max_x, min_y, max_y FROM gpkg_contents WHERE table_name = '{}'",
                  table.def.name));
  if (old && !touched.only_new) all.add(*old);
  set_extent(table.def.name, all.added);
}

std::optional<Envelope> SqliteWriter::box_in(const std::string& sql) {
  const Connection::Borrowed statement(connection_, sql);
  if (!statement->step()) return std::nullopt;
  std::array<double, 4> side{};
  for (int i = 0; i < 4; ++i) {
    const Value value = as_column(statement->value(i), ColumnType::real);
    const auto* real = std::get_if<double>(&value);
    if (real == nullptr) return std::nullopt;
    side.at(static_cast<std::size_t>(i)) = *real;
  }
  return Envelope{side[0], side[1], side[2], side[3]};
}

// ---- SqliteBackend

SqliteBackend::SqliteBackend(std::unique_ptr<Connection> connection, std::unique_ptr<FileLock> lock)
    : lock_(std::move(lock)), connection_(std::move(connection)), writer_(*connection_) {}

SqliteBackend::~SqliteBackend() {
  if (lock_ == nullptr) return;
  try {
    // Fails when another program still reads the file; then the file stays as it is, complete with
    // its -wal file.
    connection_->be_patient_ms(200);
    connection_->run("PRAGMA wal_checkpoint(TRUNCATE)");
    connection_->run("PRAGMA journal_mode=DELETE");
  } catch (const Error&) {
    return;
  }
}

void SqliteBackend::begin() {
  connection_->run("BEGIN IMMEDIATE");
}

void SqliteBackend::commit() {
  connection_->run("COMMIT");
}

void SqliteBackend::rollback() noexcept {
  try {
    if (connection_->in_transaction()) connection_->run("ROLLBACK");
  } catch (const Error&) {
    return;  // a rollback that fails leaves a transaction that the next opening rolls back
  }
}

const std::set<std::string>& SqliteBackend::present(const Table& table) {
  auto [known, is_new] = present_.try_emplace(table.def.name);
  if (is_new) {
    Statement statement(*connection_,
                        fmt::format("SELECT name FROM pragma_table_info('{}')", table.def.name));
    while (statement.step()) known->second.insert(statement.text(0));
  }
  return known->second;
}

std::string SqliteBackend::where(const Table& table, const Filter& filter) {
  const auto& columns = present(table);
  std::string sql;
  for (const Condition& condition : filter.where) {
    const std::string name = columns.contains(condition.column) ? quoted(condition.column) : "NULL";
    sql += fmt::format("{} {} {}", sql.empty() ? " WHERE" : " AND", name,
                       operator_of(condition.compare));
  }
  return sql;
}

void SqliteBackend::select(const Table& table, const Filter& filter,
                           const std::function<void(const Row&)>& take) {
  const auto& columns = present(table);
  if (columns.empty()) return;  // an older file
  std::vector<const Column*> wanted;
  std::string names;
  for (const Column& column : table.columns) {
    const auto& only = filter.columns;
    if (!only.empty() && std::find(only.begin(), only.end(), column.name) == only.end()) continue;
    wanted.push_back(&column);
    names += (names.empty() ? "" : ", ") +
             (columns.contains(column.name) ? quoted(column.name) : "NULL");
  }
  std::string order;
  for (const Order& each : filter.order) {
    if (!columns.contains(each.column)) continue;
    order += fmt::format("{}{}, ", quoted(each.column), each.falling ? " DESC" : "");
  }
  std::string sql = fmt::format("SELECT {} FROM \"{}\"{} ORDER BY {}id", names, table.def.name,
                                where(table, filter), order);
  if (filter.at_most)
    sql += fmt::format(" LIMIT {}", std::min<std::size_t>(*filter.at_most, INT64_MAX));
  const Connection::Borrowed statement(*connection_, sql);
  bind_all(*statement, filter);
  while (statement->step()) {
    Row row;
    for (std::size_t i = 0; i < wanted.size(); ++i) {
      row.emplace(wanted[i]->name,
                  as_column(statement->value(static_cast<int>(i)), wanted[i]->type));
    }
    take(row);
  }
}

std::int64_t SqliteBackend::count(const Table& table, const Filter& filter) {
  if (present(table).empty()) return 0;
  Statement statement(*connection_, fmt::format("SELECT count(*) FROM \"{}\"{}", table.def.name,
                                                where(table, filter)));
  bind_all(statement, filter);
  statement.step();
  return statement.integer(0);
}

void SqliteBackend::remove(const Table& table, std::int64_t id) {
  connection_->run(fmt::format("DELETE FROM \"{}\" WHERE id = ?", table.def.name), {id});
}

std::int64_t SqliteBackend::remove_where(const Table& table, const Filter& filter) {
  Statement statement(*connection_,
                      fmt::format("DELETE FROM \"{}\"{}", table.def.name, where(table, filter)));
  bind_all(statement, filter);
  statement.step();
  return sqlite3_changes64(connection_->handle());
}

std::unique_ptr<RowSink> SqliteBackend::bulk(const Table& table,
                                             const std::vector<std::string>& columns) {
  return std::make_unique<SqliteSink>(*connection_, insert_sql(table, columns));
}

void SqliteBackend::backup_to(const std::string& path, bool overwrite) {
  make_file(path, overwrite, [&](Connection& to) { copy_database(*connection_, to); });
}

std::vector<std::string> SqliteBackend::damage() {
  std::vector<std::string> found;
  try {
    Statement statement(*connection_, "PRAGMA integrity_check(100)");
    while (statement.step()) {
      if (statement.text(0) != "ok") found.push_back(statement.text(0));
    }
  } catch (const Error& error) {
    found.emplace_back(error.what());  // so damaged that the check itself ends
  }
  return found;
}

}  // namespace wildling::store
