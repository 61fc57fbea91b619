#pragma once
#include "base/workings.hpp"
#include "nursery/collection.hpp"

namespace wildling::nursery {

/// The formulas of this room, each with its evaluator.
const Formulas& formulas();

/// Every number of the plan as nodes under "nursery/..."; what comes from outside (trees to the
/// field, ready seedlings, lots, confidence) are leaves.
void add_workings(Workings& workings, const CollectionPlan& plan, const Parameters& parameters);

}  // namespace wildling::nursery
