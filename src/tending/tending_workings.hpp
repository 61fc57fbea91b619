#pragma once
#include "base/workings.hpp"
#include "tending/care.hpp"

namespace wildling::tending {

/// The formulas of this room, each with its evaluator.
const Formulas& formulas();

/// Every number of the plan as nodes under "tending/...": days and heights of rounds, quantities,
/// person-days, money, sums. Days are given as days after the block's first planting day.
void add_workings(Workings& workings, const CarePlan& plan, const Parameters& parameters);

}  // namespace wildling::tending
