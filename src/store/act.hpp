#pragma once
#include <map>
#include <string>
#include <vector>

#include "base/outside.hpp"
#include "store/backend.hpp"

namespace wildling::store {

/// One change set being written: checks rows, keeps versions, writes the log. Used inside a
/// transaction; the caller begins and commits it. The same code runs above every backend, so all
/// behave alike.
class Act {
 public:
  struct Who {
    std::string who, why, face, source_file, import_uid, undoes;
  };

  Act(Backend& backend, const Tables& tables, Outside& outside, Who who);

  [[nodiscard]] const std::string& uid() const { return uid_; }

  /// The uid of the row.
  std::string insert(const RowChange& change);
  void update(const RowChange& change);
  void remove(const RowChange& change);
  void import(const Import& file);
  void derive(const DerivedRows& rows);

  /// Takes one line of the log back.
  void take_back(const LoggedChange& line, const std::string& import_uid);

  /// Writes counted lines, the counter and the tables' extents. @throws Error{conflict} when rows
  /// had changed
  void finish();

 private:
  /// The row to change, or nothing when it is gone or at another version: that is kept for
  /// finish().
  std::optional<Row> current(const Table& table, const std::string& uid, std::int64_t row_version);
  void check_unique(const Table& table, const Row& row, std::int64_t own_id);
  void put(const Table& table, Row row);
  void change(const Table& table, const Row& old, Row cells);
  void take_away(const Table& table, const Row& old);
  void put_back(const Table& table, const Row& before);
  void log(const Table& table, const std::string& row_uid, const char* action, std::int64_t rows,
           const std::string& before, const std::string& after);
  void note_shape(const Table& table, const Row& row);
  void count_commit();
  void refuse_conflicts() const;

  Backend& backend_;
  const Tables& tables_;
  Outside& outside_;
  Who who_;
  std::string uid_;
  std::string now_;
  std::int64_t number_ = 0;
  std::map<std::string, std::int64_t>
      counted_;  ///< rows of the import by table, not logged one by one
  std::map<std::string, Touched> touched_;
  std::vector<std::string> changed_rows_;
  std::vector<std::string> missing_rows_;
};

}  // namespace wildling::store
