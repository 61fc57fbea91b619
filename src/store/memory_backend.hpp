#pragma once
#include <map>
#include <memory>
#include <string>
#include <unordered_map>

#include "store/backend.hpp"

namespace wildling::store {

/// Rows in ordinary maps. A transaction works on copies of the tables it touches, so that rollback
/// is exact.
class MemoryBackend : public Backend {
 public:
  explicit MemoryBackend(Schema schema) : schema_(std::move(schema)) {}

  void begin() override;
  void commit() override;
  void rollback() noexcept override;
  void select(const Table& table, const Filter& filter,
              const std::function<void(const Row&)>& take) override;
  std::int64_t count(const Table& table, const Filter& filter) override;
  std::int64_t insert(const Table& table, const Row& row) override;
  void update(const Table& table, std::int64_t id, const Row& row) override;
  void remove(const Table& table, std::int64_t id) override;
  std::int64_t remove_where(const Table& table, const Filter& filter) override;
  std::unique_ptr<RowSink> bulk(const Table& table,
                                const std::vector<std::string>& columns) override;

  void finish(const Table& /*table*/, const Touched& /*touched*/,
              const std::string& /*now_utc*/) override {}

  void backup_to(const std::string& path, bool overwrite) override;

  std::vector<std::string> damage() override { return {}; }

 private:
  struct Held {
    std::map<std::int64_t, Row> rows;
    std::int64_t last_id = 0;
    /// By table index (uid first, where there is one): values of its columns to ids.
    std::vector<std::vector<std::string>> index_columns;
    std::vector<std::unordered_multimap<std::string, std::int64_t>> indexes;
  };

  using Everything = std::map<std::string, std::shared_ptr<Held>, std::less<>>;

  const Held* read(const Table& table) const;
  Held& write(const Table& table);
  static std::vector<std::int64_t> ids(const Held& held, const Filter& filter);
  static void index(Held& held, const Row& row, std::int64_t id);
  static void forget(Held& held, const Row& row, std::int64_t id);

  Schema schema_;
  Everything tables_;
  Everything before_;
};

}  // namespace wildling::store
