#pragma once
#include <string>

#include "plan/result.hpp"

namespace wildling::plan {

/// The result as JSON: keys sorted, numbers as the shortest text that reads back as the same
/// double. Workings and layout bytes are not in it. The same result gives the same bytes.
std::string result_text(const PlanResult& result);

/// @throws Error{input} when the text is not a plan's
PlanResult result_from(const std::string& text);

}  // namespace wildling::plan
