#pragma once
#include <nlohmann/json.hpp>

#include "base/error.hpp"
#include "base/message.hpp"

namespace wildling {

/// {"key": ..., "arguments": {...}, "opens": {...}}; a day is {"day": "2026-11-25"}; "opens" only
/// when some number opens. Found by argument-dependent
/// lookup.
void to_json(nlohmann::json& json, const Message& message);
void from_json(const nlohmann::json& json, Message& message);

namespace plan {

nlohmann::json findings_json(const Findings& findings);

}  // namespace plan
}  // namespace wildling
