#pragma once
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "store/changes.hpp"
#include "store/filter.hpp"
#include "store/geometry.hpp"
#include "store/table.hpp"

namespace wildling::store {

/// A table with its columns in the file's order.
struct Table {
  TableDef def;
  std::vector<Column> columns;

  explicit Table(TableDef definition);
  /// Empty when there is no such column.
  [[nodiscard]] const Column* find(std::string_view column) const;
  /// @throws Error{internal} when there is no such column
  [[nodiscard]] const Column& at(std::string_view column) const;
};

/// The tables of a programme by name.
class Tables {
 public:
  explicit Tables(std::vector<TableDef> definitions);
  /// @throws Error{internal} when there is no such table
  [[nodiscard]] const Table& at(std::string_view name) const;

  [[nodiscard]] const std::vector<TableDef>& definitions() const { return definitions_; }

 private:
  std::vector<TableDef> definitions_;
  std::map<std::string, Table, std::less<>> tables_;
};

/// What changed in a table during one transaction, for the extents a GIS reads.
struct Touched {
  bool rows_went = false;
  bool only_new = false;  ///< no row is older than this transaction
  std::optional<Envelope> added = {};

  void add(const Envelope& box);
};

/// All that a database must do to hold a programme; the log, undo and checks stand above it
/// (act.hpp). Filters and rows are checked before they arrive. Errors of the database are thrown as
/// Error{io} or Error{input}.
class Backend {
 public:
  Backend() = default;
  Backend(const Backend&) = delete;
  Backend& operator=(const Backend&) = delete;
  virtual ~Backend() = default;

  /// Starts a transaction that writes; the others follow it.
  virtual void begin() = 0;
  /// When it returns, all is on the disk. When it throws, rollback() must follow.
  virtual void commit() = 0;
  virtual void rollback() noexcept = 0;

  virtual void select(const Table& table, const Filter& filter,
                      const std::function<void(const Row&)>& take) = 0;
  virtual std::int64_t count(const Table& table, const Filter& filter) = 0;

  /// A column that `row` leaves out is null; without `id` a new one is given, never used before.
  /// @return the id
  virtual std::int64_t insert(const Table& table, const Row& row) = 0;
  /// Sets the cells that `row` names.
  virtual void update(const Table& table, std::int64_t id, const Row& row) = 0;
  virtual void remove(const Table& table, std::int64_t id) = 0;
  /// @return how many rows went
  virtual std::int64_t remove_where(const Table& table, const Filter& filter) = 0;
  /// Takes rows until it is destroyed.
  virtual std::unique_ptr<RowSink> bulk(const Table& table,
                                        const std::vector<std::string>& columns) = 0;
  /// Called once per changed table before commit().
  virtual void finish(const Table& table, const Touched& touched, const std::string& now_utc) = 0;

  virtual void backup_to(const std::string& path, bool overwrite) = 0;
  virtual std::vector<std::string> damage() = 0;
};

}  // namespace wildling::store
