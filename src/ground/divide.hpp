#pragma once
#include <vector>

#include "ground/shape.hpp"

namespace wildling::ground {

/// Cuts a site into pieces that can be planned and counted as one.
///
/// A part of area A > max_area_ha needs k = ceil(A / max) pieces; a straight line across the longer
/// side of its smallest rectangle cuts it so that floor(k/2)/k of the area (half, for an even k)
/// lies on the first side; each connected part on either side is cut again in the same way. A piece
/// smaller than slivers_below_ha then joins the piece with which it shares the longest edge, or,
/// touching none, the one nearest to it (as a part of its own): a piece may therefore exceed
/// max_area_ha by less than slivers_below_ha for each sliver that joined it.
///
/// Pieces do not overlap and together have the site's area to 1e-9 (in the plane of
/// ground/frame.hpp, 1e-8 on the ellipsoid); vertices of the site stay what they were, bit by bit.
/// The order is that of cutting, from the west (of a line running exactly north-south: from the
/// south) end of the longer side.
/// @param shape  valid: rings that neither cross themselves nor each other
/// @param max_area_ha  > 0; the smallest that is obeyed is the one that gives 10,000 pieces
/// @param slivers_below_ha  >= 0; 0 joins nothing
/// @throws Error{usage} for a parameter out of range or more than 10,000 pieces;
///         Error{input} for a shape that is not valid
std::vector<Shape> divide(const Shape& shape, double max_area_ha, double slivers_below_ha);

}  // namespace wildling::ground
