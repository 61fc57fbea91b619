#pragma once
/// Every intended seedling of a plan in one piece of bytes that a map draws without reading it
/// twice: typed arrays of one layout, cut in chunks of neighbours so that only what is in view is
/// drawn.
#include <cstdint>
#include <string>

#include "plan/result.hpp"

namespace wildling::plan {

/// Most places of one chunk.
inline constexpr std::uint32_t kChunkPlaces = 2500;

/// The buffer. All numbers little-endian; every section starts at a multiple of 8 bytes (zeros fill
/// up); the sections follow each other in this order:
///
///     header, 64 bytes
///       char[4]  "WPLC"
///       u32      version, 1
///       u32      number of the plan
///       u32      chunks C
///       u32      runs R: places that follow each other in a row without a gap
///       u32      places N, with those left empty
///       u32      seedlings: places that are not left empty
///       u32      bytes of the text T
///       f64 x 2  origin of the runs, Web Mercator
///       f64      length of one metre there, within 1 in 100: for choosing how much to draw
///       u64      0
///     text       T bytes of JSON in UTF-8: {"species": [{"name", "local_name", "group"}],
///                "blocks": [{"code", "site", "open", "rows", "places", "seedlings", "first_chunk",
///                "chunks", "first_run", "runs"}]}; group: pioneer, early, late, or empty
///     chunks     C times 48 bytes: f64 centre x, f64 centre y, f32 least x, least y, most x,
///                most y (from the centre), u32 block, u32 first place, u32 places, u32 0
///     offsets    N times f32 x, f32 y from the chunk's centre
///     run lines  R times f32 x, y of the first place, x, y of the last, from the origin of the
///                runs; a run of one place has no length
///     run marks  R times u32 first place, u32 places, u32 row in the block from 1, u32 number in
///                the row of its first place from 1
///     species    N times u8: index into the text's species, 255 = left empty
///
/// Web Mercator: x = (longitude + 180) / 360, y = (180 - ln tan(45 + latitude / 2) 180 / pi) / 360
/// with degrees, both 0 to 1, y downward: one turn of the globe is 1. Blocks stand in the plan's
/// order, places in the layout's order (layout/places.hpp), so a place's row and number follow from
/// its run. A single-precision offset within a chunk is exact to a tenth of a millimetre.
///
/// Blocks on hold are in it, marked: the map shows them as drafts.
/// @throws Error{input} when a kept layout does not fit its block any more
std::string places_buffer(const PlanResult& plan);

}  // namespace wildling::plan
