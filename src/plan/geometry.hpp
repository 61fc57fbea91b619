#pragma once
#include "ground/shape.hpp"
#include "store/geometry.hpp"

namespace wildling::plan {

/// The store's coordinates and the ground room's are the same numbers in structs of their own.
store::Geometry to_geometry(const ground::Shape& shape);
store::Geometry to_geometry(const ground::Line& line);
ground::Shape to_shape(const store::Geometry& geometry);
ground::Line to_line(const store::Geometry& geometry);

}  // namespace wildling::plan
