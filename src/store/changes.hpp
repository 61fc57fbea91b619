#pragma once
#include <cstdint>
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "store/filter.hpp"
#include "store/value.hpp"

namespace wildling::store {

enum class Action { insert, update, remove };

/// One change of one row of a features or attributes table.
struct RowChange {
  Action action = Action::insert;
  std::string table;
  std::string uid = {};  ///< insert: may be empty (the store gives one) or a Store::new_uid() that
                         ///< other rows name
  std::int64_t row_version = 0;  ///< update and remove: the version that was read
  Row values = {};               ///< insert: own columns and `geom`; update: those that change

  static RowChange insert(std::string table, Row values, std::string uid = {});
  static RowChange update(std::string table, std::string uid, std::int64_t row_version, Row values);
  static RowChange remove(std::string table, std::string uid, std::int64_t row_version);
};

/// The file that a change set takes in; becomes a row of `imports`, and every row that the set
/// inserts carries its uid.
struct Import {
  std::string kind;       ///< "boundary", "weather", "species"
  std::string file_name;  ///< name without folder
  std::string sha256;     ///< of the file's bytes
  std::int64_t bytes = 0;
  std::int64_t records_read = 0;
  std::int64_t records_kept = 0;
  std::int64_t records_set_aside = 0;
  std::string findings_json = {};  ///< JSON list of findings
  std::string uid = {};            ///< may be empty (the store gives one)
};

/// Takes rows of a derived table; add() may be called millions of times.
class RowSink {
 public:
  RowSink() = default;
  RowSink(const RowSink&) = delete;
  RowSink& operator=(const RowSink&) = delete;
  virtual ~RowSink() = default;

  /// `values` in the order of DerivedRows::columns; copied or written before it returns, so buffers
  /// can be reused.
  virtual void add(std::span<const Value> values) = 0;
};

/// Rows of a derived table: those that match `replaces` go, those that `write` adds come.
struct DerivedRows {
  std::string table;
  std::vector<std::string>
      columns;  ///< what `write` gives per row, in this order; `geom` among them if there is one
  Filter replaces = {};  ///< conditions only; an empty filter replaces the whole table
  std::function<void(RowSink&)> write = {};  ///< empty = add nothing. Must not call the store.
};

/// One act of a user: all of it or nothing.
struct ChangeSet {
  std::string who;   ///< name of the person, not empty
  std::string why;   ///< "new boundary of block B3"
  std::string face;  ///< "command line", "page"
  std::string source_file = {};
  std::vector<RowChange> rows = {};  ///< applied in order; a row may occur more than once
  std::optional<Import> import = {};
  std::vector<DerivedRows> derived = {};  ///< after the rows, in the same transaction
};

/// What apply() did.
struct Applied {
  std::string uid;                         ///< of the change set; undo() takes it
  std::vector<std::string> row_uids = {};  ///< one per ChangeSet::rows, same order
  std::string import_uid = {};             ///< empty without an import
};

/// One act in the log.
struct LoggedSet {
  std::int64_t number = 0;  ///< rises by time
  std::string uid, who, made_utc, why, face, source_file;
  std::string import_uid;  ///< empty = no import
  std::string undoes;      ///< uid of the set that this one undid, or empty
  bool undone = false;     ///< an undo of it is in force
};

/// One line of the log.
struct LoggedChange {
  std::string set_uid;
  std::string table;
  std::string row_uid;  ///< empty for counted and derived
  std::string
      action;  ///< "insert", "update", "remove", "counted insert", "counted remove", "derived"
  std::int64_t rows = 1;
  std::string
      before_json;  ///< empty for insert; for update the columns that changed, else the whole row
  std::string after_json;  ///< empty for remove
};

/// Which part of the log; empty fields do not restrict.
struct LogQuery {
  std::string set_uid = {};
  std::string table = {};
  std::string row_uid = {};
  std::int64_t after_number = 0;  ///< only sets with a higher number
  std::size_t at_most = 1000;
};

}  // namespace wildling::store
