#pragma once
#include <string>
#include <utility>
#include <vector>

#include "base/workings.hpp"

namespace wildling {

/// Adds nodes to workings with less ceremony: a leaf knows where its value comes from, a computed
/// node its formula. Both return the key.
class WorkingsBuilder {
 public:
  explicit WorkingsBuilder(Workings& workings) : workings_(&workings) {}

  std::string leaf(std::string key, Message label, double value, std::string unit, Origin origin,
                   std::string source = {}, std::string note = {}) {
    WorkingsNode node;
    node.key = std::move(key);
    node.label = std::move(label);
    node.value = value;
    node.unit = std::move(unit);
    node.origin = origin;
    node.source = std::move(source);
    node.note = std::move(note);
    return workings_->add(std::move(node));
  }

  std::string computed(std::string key, Message label, double value, std::string unit,
                       std::string formula, std::vector<std::string> inputs) {
    WorkingsNode node;
    node.key = std::move(key);
    node.label = std::move(label);
    node.value = value;
    node.unit = std::move(unit);
    node.origin = Origin::computed;
    node.formula = std::move(formula);
    node.inputs = std::move(inputs);
    return workings_->add(std::move(node));
  }

  [[nodiscard]] Workings& workings() { return *workings_; }

 private:
  Workings* workings_;
};

}  // namespace wildling
