#pragma once
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/error.hpp"
#include "base/outside.hpp"
#include "store/changes.hpp"
#include "store/filter.hpp"
#include "store/table.hpp"
#include "store/value.hpp"

namespace wildling::store {

/// A programme that is open. Calls from several threads wait for each other; callbacks run inside
/// the call and may read but not write. What apply() and undo() returned from is on the disk and
/// survives a crash and a power cut; what they threw from has left nothing.
class Store {
 public:
  Store() = default;
  Store(const Store&) = delete;
  Store& operator=(const Store&) = delete;
  virtual ~Store() = default;  ///< closes cleanly: one file, readable from a write-protected stick

  /// @throws Error{internal} for a table or column that the schema does not have (all readers)
  virtual void for_each(std::string_view table, const Filter& filter,
                        const std::function<void(const Row&)>& take) const = 0;
  [[nodiscard]] virtual std::int64_t count(std::string_view table,
                                           const Filter& filter = {}) const = 0;

  /// Rows of features and attributes hold id, uid, row_version, who, changed_utc, source_file and
  /// import_uid beside the table's own columns; rows of other tables hold id and their own.
  [[nodiscard]] std::vector<Row> rows(std::string_view table, const Filter& filter = {}) const;
  /// The row with this uid, if it exists.
  [[nodiscard]] std::optional<Row> row(std::string_view table, const std::string& uid) const;

  /// All of the change set or nothing.
  /// @throws Error{conflict} when a row is no longer at the version the change names, or is gone;
  ///         Error{usage} when the programme is open for reading only or `who` is empty;
  ///         Error{input} when a value does not fit its column or a unique value exists already;
  ///         Error{io} when the disk is full or fails
  virtual Applied apply(const ChangeSet& changes) = 0;

  /// Takes one change set back, as a new change set.
  /// @throws Error{conflict} naming the rows when a later change (not itself undone) touched them;
  ///         Error{usage} when it is undone already, or wrote derived rows (remove the plan
  ///         instead), or was the undo of an import counted by rows (take the file in again);
  ///         Error{input} when there is no such set
  virtual Applied undo(const std::string& set_uid, const std::string& who,
                       const std::string& face) = 0;

  /// Newest first.
  [[nodiscard]] virtual std::vector<LoggedSet> change_sets(const LogQuery& query = {}) const = 0;
  /// Newest set first; inside a set in the order they were made.
  [[nodiscard]] virtual std::vector<LoggedChange> changes(const LogQuery& query = {}) const = 0;

  /// Rises with every committed change, of entries or derived rows.
  [[nodiscard]] virtual std::int64_t data_version() const = 0;
  [[nodiscard]] virtual int schema_version() const = 0;
  [[nodiscard]] virtual bool read_only() const = 0;
  /// What opening had to say: a newer file opened for reading, an older one brought up to date and
  /// where its copy is.
  [[nodiscard]] virtual const Findings& findings() const = 0;
  [[nodiscard]] virtual const std::vector<TableDef>& tables() const = 0;
  [[nodiscard]] virtual std::string new_uid() = 0;

  /// A complete copy that opens as a programme of its own, made while this one stays in use. The
  /// copy appears under its name only when it is complete.
  /// @throws Error{usage} when `path` exists and `overwrite` is false; Error{io} when it cannot be
  /// written
  virtual void backup_to(const std::string& path, bool overwrite = false) const = 0;

  /// Damage that the database finds in itself; empty = sound.
  [[nodiscard]] virtual std::vector<std::string> damage() const = 0;
};

enum class OpenMode { read_only, read_write };

/// Makes a new programme and opens it for writing. It appears under its name only when it is
/// complete. `outside` must outlive the store. @throws Error{usage} when the path exists; Error{io}
std::unique_ptr<Store> create_file(const std::string& path, Outside& outside,
                                   const Schema& schema = shipped_schema());

/// Opens a programme. Read-only leaves every byte as it is and works in a write-protected folder.
/// Read-write takes the file's lock, brings an older file up to date (a copy of the old state is
/// kept beside it), and opens a file of a newer program for reading only; see Store::findings.
/// @throws Error{input} when the file is missing, empty, damaged, or no programme;
///         Error{io} when another process writes to it (the sentence names machine and process) or
///         the disk fails
std::unique_ptr<Store> open_file(const std::string& path, OpenMode mode, Outside& outside,
                                 const Schema& schema = shipped_schema());

/// The same behaviour without a file; gone when it ends.
std::unique_ptr<Store> in_memory(Outside& outside, const Schema& schema = shipped_schema());

}  // namespace wildling::store
