#pragma once
#include <vector>

#include "base/progress.hpp"
#include "layout/assign.hpp"
#include "nursery/collection.hpp"
#include "plan/land.hpp"
#include "plan/programme.hpp"
#include "plan/result.hpp"
#include "plan/species_mix.hpp"
#include "tending/care.hpp"

namespace wildling::plan {

/// Fills PlanResult::workings with the nodes of every room and of the plan's own sums.
/// @throws Cancelled
void add_workings(PlanResult& result, const Programme& programme, const Land& land,
                  const std::vector<layout::Assignment>& assignments, const SolvedMix* mix,
                  const nursery::CollectionPlan& collection, const tending::CarePlan* care,
                  const Progress& progress);

}  // namespace wildling::plan
