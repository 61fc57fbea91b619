#pragma once
#include "layout/assign.hpp"

namespace wildling::layout {

/// Lowers the number of like pairs by swapping places that hold unlike species, until `fewest`
/// pairs are left or the budget of tries is used up (10 per planted place and 50,000 more). Counts
/// stay as they are.
/// @param suspects  places where a like pair may be
void repair(const Places& places, std::vector<std::uint8_t>& species,
            std::vector<std::size_t> suspects, std::int64_t fewest, Neighbours neighbours,
            Stream& stream, const Progress& progress);

}  // namespace wildling::layout
