#pragma once
#include <memory>
#include <mutex>
#include <set>
#include <string>

#include "store/backend.hpp"
#include "store/store.hpp"

namespace wildling::store {

/// What opening found.
struct Opened {
  std::unique_ptr<Backend> backend;
  int schema_version = 0;
  bool read_only = false;
  Findings findings = {};
};

/// The Store above any Backend: transactions, log and undo are the same for all.
class BackedStore : public Store {
 public:
  BackedStore(Opened opened, const Schema& schema, Outside& outside);

  void for_each(std::string_view table, const Filter& filter,
                const std::function<void(const Row&)>& take) const override;
  [[nodiscard]] std::int64_t count(std::string_view table, const Filter& filter) const override;
  Applied apply(const ChangeSet& changes) override;
  Applied undo(const std::string& set_uid, const std::string& who,
               const std::string& face) override;
  [[nodiscard]] std::vector<LoggedSet> change_sets(const LogQuery& query) const override;
  [[nodiscard]] std::vector<LoggedChange> changes(const LogQuery& query) const override;
  [[nodiscard]] std::int64_t data_version() const override;

  [[nodiscard]] int schema_version() const override { return opened_.schema_version; }

  [[nodiscard]] bool read_only() const override { return opened_.read_only; }

  [[nodiscard]] const Findings& findings() const override { return opened_.findings; }

  [[nodiscard]] const std::vector<TableDef>& tables() const override {
    return tables_.definitions();
  }

  [[nodiscard]] std::string new_uid() override;
  void backup_to(const std::string& path, bool overwrite) const override;
  [[nodiscard]] std::vector<std::string> damage() const override;

 private:
  using Guard = std::lock_guard<std::recursive_mutex>;

  void refuse_writing(const std::string& who) const;
  /// Runs `work` in a transaction; nothing of it stays when it throws.
  void together(const std::function<void()>& work);
  [[nodiscard]] std::vector<LoggedSet> all_sets() const;
  [[nodiscard]] std::vector<LoggedChange> lines(const Filter& filter) const;
  /// Rows of `lines` that later sets in force touched, as people know them.
  [[nodiscard]] std::set<std::string> touched_later(const LoggedSet& target,
                                                    const std::vector<LoggedChange>& lines,
                                                    const std::vector<LoggedSet>& sets) const;
  [[nodiscard]] std::string known_as(const std::string& table, const std::string& row_uid) const;

  mutable std::recursive_mutex mutex_;
  Opened opened_;
  Tables tables_;
  Outside& outside_;
};

}  // namespace wildling::store
