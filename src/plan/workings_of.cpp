#include "plan/workings_of.hpp"

#include <algorithm>
#include <cmath>

#include <nlohmann/json.hpp>

#include "plan/message_json.hpp"

namespace wildling::plan {
namespace {

using store::Filter;
using store::from;
using store::Row;
using store::text_of;
using store::Value;

// FNV-1a, 64 bits: two keys that meet are told apart by the row itself.
std::uint64_t hash_of(std::string_view text) {
  std::uint64_t hash = 14695981039346656037ULL;
  for (const char c : text) hash = (hash ^ static_cast<unsigned char>(c)) * 1099511628211ULL;
  return hash;
}

std::vector<std::string> inputs_of(const Row& row) {
  return nlohmann::json::parse(text_of(row, "inputs")).get<std::vector<std::string>>();
}

}  // namespace

WorkingsNode node_from(const Row& row) {
  WorkingsNode node;
  node.key = text_of(row, "key");
  node.label = nlohmann::json::parse(text_of(row, "label")).get<Message>();
  node.value = store::real_of(row, "value").value_or(std::nan(""));
  node.unit = text_of(row, "unit");
  node.origin = parse_origin(text_of(row, "origin")).value_or(Origin::assumed);
  node.formula = text_of(row, "formula");
  node.source = text_of(row, "source");
  node.note = text_of(row, "note");
  node.inputs = inputs_of(row);
  return node;
}

std::string plan_uid(const store::Store& store, std::optional<int> number) {
  Filter filter = Filter{}.by("number", true).only({"uid"});
  if (number) filter = filter.with("number", from(*number));
  filter.at_most = 1;
  const auto rows = store.rows("plans", filter);
  return rows.empty() ? std::string() : text_of(rows.front(), "uid");
}

std::optional<WorkingsNode> find_node(const store::Store& store, const std::string& plan_uid,
                                      const std::string& key) {
  const auto rows =
      store.rows("workings", Filter{}.with("plan_uid", Value{plan_uid}).with("key", Value{key}));
  return rows.empty() ? std::nullopt : std::optional<WorkingsNode>(node_from(rows.front()));
}

UsedBy::UsedBy(const store::Store& store, const std::string& plan_uid) {
  store.for_each("workings", Filter{}.with("plan_uid", Value{plan_uid}).only({"id", "inputs"}),
                 [&](const Row& row) {
                   const std::int64_t id = *store::integer_of(row, "id");
                   for (const std::string& input : inputs_of(row))
                     pairs_.emplace_back(hash_of(input), id);
                 });
  std::sort(pairs_.begin(), pairs_.end());
  pairs_.shrink_to_fit();
}

std::vector<std::int64_t> UsedBy::rows(const std::string& key) const {
  const std::uint64_t hash = hash_of(key);
  std::vector<std::int64_t> ids;
  for (auto it =
           std::lower_bound(pairs_.begin(), pairs_.end(), std::make_pair(hash, std::int64_t{0}));
       it != pairs_.end() && it->first == hash; ++it) {
    if (ids.empty() || ids.back() != it->second) ids.push_back(it->second);
  }
  return ids;
}

std::vector<WorkingsNode> users_of(const store::Store& store, const UsedBy& used_by,
                                   const std::string& key, std::size_t at_most) {
  std::vector<WorkingsNode> users;
  for (const std::int64_t id : used_by.rows(key)) {
    if (users.size() >= at_most) break;
    for (const Row& row : store.rows("workings", Filter{}.with("id", from(id)))) {
      WorkingsNode node = node_from(row);
      if (std::find(node.inputs.begin(), node.inputs.end(), key) != node.inputs.end())
        users.push_back(std::move(node));
    }
  }
  return users;
}

}  // namespace wildling::plan
