#pragma once
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "store/value.hpp"

namespace wildling::store {

enum class Compare { equal, not_equal, less, at_most, more, at_least, null, not_null };

/// A comparison with null is never true; use Compare::null. Text compares by its bytes, numbers by
/// value.
struct Condition {
  std::string column;
  Compare compare = Compare::equal;
  Value value = {};
};

struct Order {
  std::string column;
  bool falling = false;
};

/// Which rows, in which order. All conditions must hold. Rows come by `order`, then by id. Null
/// sorts first.
struct Filter {
  std::vector<Condition> where = {};
  std::vector<Order> order = {};
  std::optional<std::size_t> at_most = {};
  std::vector<std::string> columns =
      {};  ///< empty = all; name those you need when a table holds large blobs

  /// `Filter{}.with("block_uid", uid).with("day", Compare::at_least, from(day)).by("day")`
  [[nodiscard]] Filter with(std::string column, Value value) const {
    return with(std::move(column), Compare::equal, std::move(value));
  }

  [[nodiscard]] Filter with(std::string column, Compare compare, Value value = {}) const {
    Filter more = *this;
    more.where.push_back({std::move(column), compare, std::move(value)});
    return more;
  }

  [[nodiscard]] Filter by(std::string column, bool falling = false) const {
    Filter more = *this;
    more.order.push_back({std::move(column), falling});
    return more;
  }

  [[nodiscard]] Filter only(std::vector<std::string> names) const {
    Filter more = *this;
    more.columns = std::move(names);
    return more;
  }
};

}  // namespace wildling::store
