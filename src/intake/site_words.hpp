#pragma once
#include <string>

#include "intake/boundaries.hpp"
#include "intake/raw_shape.hpp"

namespace wildling::intake {

/// Fills name, ground_type, cover, slope_deg, floods and attributes from the feature's properties,
/// whose names may be English or Indonesian, in any case. The name stays empty when there is none.
void describe(const RawFeature& feature, SiteShape& site, Findings& findings);

}  // namespace wildling::intake
