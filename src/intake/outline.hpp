#pragma once
#include "intake/boundaries.hpp"
#include "intake/projection.hpp"
#include "intake/raw_shape.hpp"

namespace wildling::intake {

/// When a walked line is taken for a boundary.
struct WalkRules {
  double gap_share_most = 0;  ///< widest gap between its ends, as a share of its length
  bool told = false;          ///< the user says that it is one, whatever its gaps
};

/// Turns everything of a feature that can bound an area into a valid shape on WGS 84. What was done
/// or could not be used is told.
/// @param corners  the feature's points, in order, are corners
/// @param rules    when a line counts as a boundary
/// @return empty when nothing bounds an area
ground::Shape outline(const RawFeature& feature, bool corners, const Projection& way,
                      const WalkRules& rules, Findings& findings);

}  // namespace wildling::intake
