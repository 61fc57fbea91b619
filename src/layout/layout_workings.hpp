#pragma once
#include <string_view>

#include "base/workings.hpp"
#include "layout/assign.hpp"

namespace wildling::layout {

/// Formulas of this room, each with its evaluator.
const Formulas& formulas();

/// The numbers of one block: density of the grid, area and what the setbacks take, places, planted,
/// empty, like pairs. Keys "layout/CODE/density" ...; the area comes from the frame, the grid from
/// the manager (chosen).
Workings layout_workings(std::string_view block_code, const Places& places,
                         const Assignment& assignment);

}  // namespace wildling::layout
