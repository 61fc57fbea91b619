#pragma once
#include <string>

#include "intake/boundaries.hpp"

namespace wildling::intake {

/// Notes each pair of sites that share ground: it would be planted twice.
/// @param share_told  least share of the smaller site that is worth telling
void tell_overlaps(BoundaryFile& file, const std::string& name, double share_told);

}  // namespace wildling::intake
