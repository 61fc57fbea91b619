#include "base/workings.hpp"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>

namespace wildling {
namespace {

constexpr std::array<std::string_view, 6> kOriginNames = {"measured", "told",     "documented",
                                                          "assumed",  "computed", "chosen"};

bool same_number(double a, double b) {
  if (std::isnan(a) && std::isnan(b)) return true;
  if (a == b) return true;
  return std::abs(a - b) <= std::max(1e-12, 1e-9 * std::max(std::abs(a), std::abs(b)));
}

bool holds(const WorkingsNode& node, const Workings& workings, std::span<const Formula> formulas) {
  const auto formula = std::find_if(formulas.begin(), formulas.end(),
                                    [&](const Formula& f) { return f.id == node.formula; });
  if (formula == formulas.end() || formula->evaluate == nullptr) return false;
  std::vector<double> values;
  for (const std::string& key : node.inputs) {
    const WorkingsNode* input = workings.find(key);
    if (input == nullptr) return false;
    values.push_back(input->value);
  }
  return same_number(formula->evaluate(values), node.value);
}

}  // namespace

std::string_view origin_name(Origin origin) {
  return kOriginNames[static_cast<std::size_t>(origin)];
}

std::optional<Origin> parse_origin(std::string_view name) {
  const auto found = std::find(kOriginNames.begin(), kOriginNames.end(), name);
  if (found == kOriginNames.end()) return {};
  return static_cast<Origin>(found - kOriginNames.begin());
}

std::string Workings::add(WorkingsNode node) {
  const auto [place, added] = index_.try_emplace(node.key, nodes_.size());
  if (added) {
    nodes_.push_back(std::move(node));
  } else {
    assert(nodes_[place->second] == node);
  }
  return place->first;
}

const WorkingsNode* Workings::find(std::string_view key) const {
  const auto found = index_.find(std::string(key));
  return found == index_.end() ? nullptr : &nodes_[found->second];
}

void Workings::append(const Workings& other) {
  for (const WorkingsNode& node : other.nodes()) add(node);
}

std::vector<std::string> nodes_that_do_not_hold(const Workings& workings,
                                                std::span<const Formula> formulas) {
  std::vector<std::string> bad;
  for (const WorkingsNode& node : workings.nodes()) {
    const bool leaf = node.origin != Origin::computed;
    if (leaf ? !node.formula.empty() : !holds(node, workings, formulas)) bad.push_back(node.key);
  }
  return bad;
}

}  // namespace wildling
