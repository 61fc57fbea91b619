#include "store/store.hpp"

namespace wildling::store {

RowChange RowChange::insert(std::string table, Row values, std::string uid) {
  return {Action::insert, std::move(table), std::move(uid), 0, std::move(values)};
}

RowChange RowChange::update(std::string table, std::string uid, std::int64_t row_version,
                            Row values) {
  return {Action::update, std::move(table), std::move(uid), row_version, std::move(values)};
}

RowChange RowChange::remove(std::string table, std::string uid, std::int64_t row_version) {
  return {Action::remove, std::move(table), std::move(uid), row_version, {}};
}

std::vector<Row> Store::rows(std::string_view table, const Filter& filter) const {
  std::vector<Row> found;
  for_each(table, filter, [&](const Row& row) { found.push_back(row); });
  return found;
}

std::optional<Row> Store::row(std::string_view table, const std::string& uid) const {
  auto found = rows(table, Filter{}.with("uid", uid));
  return found.empty() ? std::nullopt : std::optional<Row>(std::move(found.front()));
}

}  // namespace wildling::store
