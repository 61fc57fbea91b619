#include <nlohmann/json.hpp>

#include "desk/entries.hpp"
#include "desk/replies.hpp"
#include "desk/routes.hpp"
#include "plan/chain.hpp"
#include "plan/message_json.hpp"
#include "plan/node_json.hpp"
#include "plan/parameter_list.hpp"
#include "plan/workings_of.hpp"

namespace wildling::desk {
namespace {

using nlohmann::json;

constexpr std::size_t kMostUsers = 20;
constexpr std::size_t kMostOrigins = 200;
constexpr std::string_view kParameter = "parameter/";

json formula_json(const std::string& id) {
  static const std::map<std::string, Formula> all = [] {
    std::map<std::string, Formula> by_id;
    for (const Formula& formula : plan::all_formulas()) by_id.emplace(formula.id, formula);
    return by_id;
  }();
  const auto found = all.find(id);
  if (found == all.end()) return nullptr;
  return {{"id", id}, {"text", found->second.text}, {"source", found->second.source}};
}

json brief(const std::vector<WorkingsNode>& nodes) {
  json list = json::array();
  for (const WorkingsNode& node : nodes)
    list.push_back(json{{"key", node.key}, {"label", node.label}});
  return list;
}

// A number with what it is made of and what is made of it.
struct Opened {
  WorkingsNode node;
  std::vector<WorkingsNode> inputs, users;
};

std::optional<Opened> open_in(const Workings& workings, const std::string& key) {
  const WorkingsNode* node = workings.find(key);
  if (node == nullptr) return {};
  Opened opened{*node, {}, {}};
  for (const std::string& input : node->inputs) {
    if (const WorkingsNode* found = workings.find(input)) opened.inputs.push_back(*found);
  }
  for (const WorkingsNode& other : workings.nodes()) {
    if (opened.users.size() >= kMostUsers) break;
    if (std::find(other.inputs.begin(), other.inputs.end(), key) != other.inputs.end())
      opened.users.push_back(other);
  }
  return opened;
}

std::optional<Opened> open_in_plan(Desk& desk, const std::string& key) {
  const auto uid = desk.cached<std::string>(
      "plan uid", [](const store::Store& store) { return plan::plan_uid(store); });
  if (uid->empty()) return {};
  const auto used_by = desk.of_plan<plan::UsedBy>(
      "used by", [&](const store::Store& store) { return plan::UsedBy(store, *uid); });
  std::optional<Opened> opened;
  desk.access().read([&](const store::Store& store) {
    auto node = plan::find_node(store, *uid, key);
    if (!node) return;
    opened = Opened{*node, {}, plan::users_of(store, *used_by, key, kMostUsers)};
    for (const std::string& input : node->inputs) {
      if (auto found = plan::find_node(store, *uid, input)) opened->inputs.push_back(*found);
    }
  });
  return opened;
}

json parameter_of(Desk& desk, const std::string& key) {
  if (key.substr(0, kParameter.size()) != kParameter) return nullptr;
  std::optional<plan::ParameterEntry> entry;
  desk.access().read([&](const store::Store& store) {
    entry = plan::parameter_entry(store, key.substr(kParameter.size()));
  });
  return entry ? parameter_json(*entry) : json();
}

// A parameter that the plan did not need is a number all the same.
std::optional<Opened> open_parameter(Desk& desk, const std::string& key) {
  if (key.substr(0, kParameter.size()) != kParameter) return {};
  std::optional<plan::ParameterEntry> entry;
  desk.access().read([&](const store::Store& store) {
    entry = plan::parameter_entry(store, key.substr(kParameter.size()));
  });
  if (!entry) return {};
  Workings alone;
  add_parameter(alone, entry->now);
  return open_in(alone, key);
}

Answer workings(Desk& desk, const Request& request, const std::vector<std::string>&) {
  const std::string key = request.needed("key");
  const KeptReply reply = reply_asked(desk, request);
  auto opened = reply ? open_in(reply->workings, key) : open_in_plan(desk, key);
  if (!opened) opened = open_parameter(desk, key);
  if (!opened) return refusal(404, key, say("desk.no_such_number"));
  return json_answer({{"node", opened->node},
                      {"formula", formula_json(opened->node.formula)},
                      {"inputs", opened->inputs},
                      {"used_by", brief(opened->users)},
                      {"parameter", parameter_of(desk, key)}});
}

// Origins of many numbers at once, for the lines below them; what is not in the plan is left out.
Answer origins(Desk& desk, const Request& request, const std::vector<std::string>&) {
  const auto uid = desk.cached<std::string>(
      "plan uid", [](const store::Store& store) { return plan::plan_uid(store); });
  json by_key = json::object();
  desk.access().read([&](const store::Store& store) {
    const auto [first, last] = request.query.equal_range("key");
    for (auto it = first; it != last && by_key.size() < kMostOrigins; ++it) {
      const auto node = plan::find_node(store, *uid, it->second);
      if (node) by_key[it->second] = origin_name(node->origin);
    }
  });
  return json_answer(by_key);
}

}  // namespace

Routes workings_routes() {
  return {{"GET", "/api/workings", workings}, {"GET", "/api/origins", origins}};
}

}  // namespace wildling::desk
