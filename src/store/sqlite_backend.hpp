#pragma once
#include <memory>
#include <set>
#include <string>

#include "store/backend.hpp"
#include "store/file_lock.hpp"
#include "store/sqlite.hpp"

namespace wildling::store {

/// Rows in and out of a connection; transactions belong to the caller.
class SqliteWriter {
 public:
  explicit SqliteWriter(Connection& connection) : connection_(connection) {}

  std::int64_t insert(const Table& table, const Row& row);
  void update(const Table& table, std::int64_t id, const Row& row);
  void finish(const Table& table, const Touched& touched, const std::string& now_utc);

 private:
  void set_extent(const std::string& table, const std::optional<Envelope>& box);
  /// From a query for least and greatest longitude, least and greatest latitude.
  std::optional<Envelope> box_in(const std::string& sql);

  Connection& connection_;
};

/// The programme file as a Backend. Closing (the destructor) brings everything into the one file.
class SqliteBackend : public Backend {
 public:
  /// @param lock  empty when the file is open for reading only
  SqliteBackend(std::unique_ptr<Connection> connection, std::unique_ptr<FileLock> lock);
  ~SqliteBackend() override;

  void begin() override;
  void commit() override;
  void rollback() noexcept override;
  void select(const Table& table, const Filter& filter,
              const std::function<void(const Row&)>& take) override;
  std::int64_t count(const Table& table, const Filter& filter) override;

  std::int64_t insert(const Table& table, const Row& row) override {
    return writer_.insert(table, row);
  }

  void update(const Table& table, std::int64_t id, const Row& row) override {
    writer_.update(table, id, row);
  }

  void remove(const Table& table, std::int64_t id) override;
  std::int64_t remove_where(const Table& table, const Filter& filter) override;
  std::unique_ptr<RowSink> bulk(const Table& table,
                                const std::vector<std::string>& columns) override;

  void finish(const Table& table, const Touched& touched, const std::string& now_utc) override {
    writer_.finish(table, touched, now_utc);
  }

  void backup_to(const std::string& path, bool overwrite) override;
  std::vector<std::string> damage() override;

 private:
  /// Columns that this file has: an older or newer file may lack some, which then read as null.
  const std::set<std::string>& present(const Table& table);
  std::string where(const Table& table, const Filter& filter);

  std::unique_ptr<FileLock> lock_;
  std::unique_ptr<Connection> connection_;
  SqliteWriter writer_;
  std::map<std::string, std::set<std::string>> present_;
};

}  // namespace wildling::store
