#pragma once
#include "intake/boundaries.hpp"
#include "intake/projection.hpp"
#include "intake/raw_shape.hpp"

namespace wildling::intake {

/// Turns everything of a feature that can bound an area into a valid shape on WGS 84. What was done
/// or could not be used is told.
/// @param corners  the feature's points, in order, are corners
/// @return empty when nothing bounds an area
ground::Shape outline(const RawFeature& feature, bool corners, const Projection& way,
                      double gap_share_most, Findings& findings);

}  // namespace wildling::intake
