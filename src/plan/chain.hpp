#pragma once
#include "base/progress.hpp"
#include "base/random.hpp"
#include "plan/programme.hpp"
#include "plan/result.hpp"

namespace wildling::plan {

/// What the user asks of a plan.
struct PlanOptions {
  Seed seed = {};
  Date today = {};
  std::string program_version = {};
  std::string fingerprint = {};
};

/// Runs the whole chain. Pure: the same programme and options give the same bits.
/// Open blocks choose their mix first; blocks on hold choose from what is left, as a draft.
/// @throws Error{input} when there is no block or no species; Error{infeasible} when no mix meets
/// the demands
///         of the open blocks (or, when all are on hold, of those); Cancelled
PlanResult make_plan(const Programme& programme, const PlanOptions& options,
                     const Progress& progress = {});

/// Evaluators of every room's formulas and of this one's.
Formulas all_formulas();

}  // namespace wildling::plan
