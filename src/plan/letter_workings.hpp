#pragma once
#include "plan/programme.hpp"
#include "plan/result.hpp"

namespace wildling::plan {

/// Nodes of the sums that only the letter shows: open area, error of all sites, pioneers, stock and
/// seed over all species, wages and material over all work. Call after the rooms' own nodes are in.
void add_letter_workings(PlanResult& result);

/// Formulas of these nodes.
const Formulas& letter_formulas();

}  // namespace wildling::plan
