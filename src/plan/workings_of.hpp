#pragma once
/// One number of a kept plan, with what it is made of and what is made of it, read by key: a plan
/// of a million seedlings has tens of thousands of numbers, and a person opens one at a time.
#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "base/workings.hpp"
#include "store/store.hpp"

namespace wildling::plan {

/// A row of table `workings`.
WorkingsNode node_from(const store::Row& row);

/// The uid of the newest plan or of that number; empty when there is none.
std::string plan_uid(const store::Store& store, std::optional<int> number = {});

std::optional<WorkingsNode> find_node(const store::Store& store, const std::string& plan_uid,
                                      const std::string& key);

/// Who uses a number: made once per plan, 16 bytes per input.
class UsedBy {
 public:
  UsedBy() = default;
  UsedBy(const store::Store& store, const std::string& plan_uid);

  /// Ids of rows of table `workings` that may have `key` among their inputs, in order.
  [[nodiscard]] std::vector<std::int64_t> rows(const std::string& key) const;

 private:
  std::vector<std::pair<std::uint64_t, std::int64_t>> pairs_;  ///< hash of the input, row; sorted
};

/// Nodes that have `key` among their inputs, at most `at_most`.
std::vector<WorkingsNode> users_of(const store::Store& store, const UsedBy& used_by,
                                   const std::string& key, std::size_t at_most);

}  // namespace wildling::plan
