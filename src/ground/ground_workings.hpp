#pragma once
#include "base/parameters.hpp"
#include "base/workings.hpp"
#include "ground/block.hpp"

namespace wildling::ground {

/// The formulas of this room, each with its evaluator.
const Formulas& formulas();

/// Standard deviation of a block's area with the block's vertex error, which points nearer than
/// about ground.vertex_error_over_m share: area_sd_walked_m2.
double area_sd_m2(const Block& block, const Parameters& parameters);

/// Nodes under "ground/CODE/": area, what it may be off by, natural trees and what is missing of
/// enough. Trees appear only once they are counted with a number.
Workings block_workings(const Block& block, const Parameters& parameters);

}  // namespace wildling::ground
