#pragma once
#include "ground/shape.hpp"

namespace wildling::ground {

/// Area that two shapes have in common, in m2; 0 when they do not meet. Computed in the equal-area
/// frame of the first. @throws Error{input} when an outline crosses itself
double common_area_m2(const Shape& a, const Shape& b);

}  // namespace wildling::ground
