#pragma once
#include <string>

#include "plan/ask.hpp"
#include "plan/chain.hpp"
#include "plan/jobs/jobs.hpp"

namespace wildling::plan {

/// The whole chain, kept as a new plan. Computes without holding the file; outcome
/// {"number": 3, "same_as_before": false}.
JobWork plan_work(Access& access, const PlanOptions& options, const Actor& actor);

/// A slow question. Its reply is the job's result (reply_text); outcome {"name": "hindcast"}.
/// @throws Error{usage} for an unknown question or entries that do not fit it
JobWork reply_work(Access& access, const std::string& name, const Entries& entries, Date today,
                   const Actor& actor);

}  // namespace wildling::plan
