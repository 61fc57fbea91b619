#pragma once
#include <string>
#include <string_view>

#include "layout/assign.hpp"

namespace wildling::layout {

/// A block's layout as it is kept: the grid, a fingerprint of the positions, and one species byte
/// per place.
struct StoredLayout {
  Grid grid;
  std::uint64_t fingerprint = 0;
  std::vector<std::uint8_t> species = {};
};

/// FNV-1a over all positions in order: tells whether recomputed places are those that were stored.
std::uint64_t fingerprint(const Places& places);

/// Bytes, little-endian: "WLAY", u8 version 1, u8 pattern, u16 0, eight f64 (spacing, row spacing,
/// row bearing, edge setback, water setback, anchor x, anchor y, 0), u64 fingerprint, u64 number of
/// places n, n species bytes.
/// @throws Error{internal} when `species` has not one byte per place
std::string encode(const Places& places, std::span<const std::uint8_t> species);

/// @throws Error{input} when the bytes are not such a layout, are cut short or too long, or hold a
/// grid out of range
StoredLayout decode(std::string_view bytes);

/// The places of a stored layout, drawn again from the block.
/// @throws Error{input} when the block, its water lines or the program changed so that the places
/// are others
Places recompute(const StoredLayout& stored, const ground::XyShape& block,
                 std::span<const std::vector<ground::Xy>> water);

}  // namespace wildling::layout
