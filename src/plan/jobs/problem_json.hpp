#pragma once
#include <nlohmann/json.hpp>

#include "plan/jobs/jobs.hpp"

namespace wildling::plan {

/// "usage", "input", "infeasible", "conflict", "io", "internal"
std::string_view error_kind_name(ErrorKind kind);

/// {"kind", "where", "message"}
nlohmann::json problem_json(const Problem& problem);
Problem problem_from(const nlohmann::json& json);

/// {"id", "kind", "asked", "state", "share", "step", "error", "result", "who", "started_utc",
/// "ended_utc"}; "result" is the outcome
nlohmann::json job_json(const Job& job);

}  // namespace wildling::plan
