#pragma once
#include <nlohmann/json.hpp>

#include "base/workings.hpp"

namespace wildling {

/// {"key", "label", "value", "unit", "origin", "formula", "source", "note", "inputs"}; a number
/// that is none is null. Found by argument-dependent lookup.
void to_json(nlohmann::json& json, const WorkingsNode& node);

}  // namespace wildling
