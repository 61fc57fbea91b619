#pragma once
#include <ogr_geometry.h>

#include "intake/raw_shape.hpp"

namespace wildling::intake {

/// Adds every polygon, line and point of any geometry, collections opened, to the feature.
/// @return whether it had heights
bool add_geometry(const OGRGeometry& geometry, RawFeature& feature);

}  // namespace wildling::intake
