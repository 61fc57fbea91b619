#pragma once
#include "layout/assign.hpp"

namespace wildling::layout {

/// The most seedlings of one species that these planted places can hold without a like pair, from
/// above: places are covered by tiles whose places are all neighbours of each other (2 in a row for
/// four neighbours, triangles of 3 for six, squares of 4 for eight); each tile can hold one. The
/// least of all ways to lay the tiles.
std::int64_t most_without_pairs(const Places& places, std::span<const std::uint8_t> species,
                                Neighbours neighbours);

}  // namespace wildling::layout
