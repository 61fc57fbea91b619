#include "plan/node_json.hpp"

#include <cmath>

#include "plan/message_json.hpp"

namespace wildling {

void to_json(nlohmann::json& json, const WorkingsNode& node) {
  json = nlohmann::json{{"key", node.key},
                        {"label", node.label},
                        {"value", std::isfinite(node.value) ? nlohmann::json(node.value) : nullptr},
                        {"unit", node.unit},
                        {"origin", std::string(origin_name(node.origin))},
                        {"formula", node.formula},
                        {"source", node.source},
                        {"note", node.note},
                        {"inputs", node.inputs}};
}

}  // namespace wildling
