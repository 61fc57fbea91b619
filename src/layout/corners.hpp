#pragma once
#include "ground/frame.hpp"

namespace wildling::layout {

/// The few points that give a block's outline to a person with a phone: the boundary's vertices
/// thinned so that no dropped one lies farther than `tolerance_m` from the thinned outline (Douglas
/// & Peucker 1973). Outer rings only, in ring order, at least three per ring; the first is the
/// northernmost (of equals the westernmost).
/// @param tolerance_m  > 0; a phone's own error is 3 to 10 m
std::vector<std::vector<ground::Xy>> corners(const ground::XyShape& block, double tolerance_m);

}  // namespace wildling::layout
