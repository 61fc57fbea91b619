#pragma once
#include <map>
#include <string>
#include <vector>

#include "base/progress.hpp"
#include "ground/frame.hpp"
#include "layout/places.hpp"
#include "plan/programme.hpp"
#include "plan/result.hpp"

namespace wildling::plan {

/// A block with its drawn places; the frame is its site's, so that blocks of a site share one
/// lattice.
struct LaidLand {
  ground::Frame frame;
  ground::XyShape shape;
  std::vector<std::vector<ground::Xy>> water;
  layout::Places places;
};

/// Frames per site, blocks judged, measured and laid out with the programme's grid.
struct Land {
  std::vector<SitePart> sites;
  std::vector<BlockPart> blocks;
  std::vector<LaidLand> laid;  ///< as blocks; no places where the method is not to plant
};

/// Area, gates and method of one block; nothing is laid out.
BlockPart judge_block(const ground::Block& block, const Parameters& parameters);

/// @throws Error{input} when there is no block; Cancelled
Land lay_land(const Programme& programme, const Progress& progress);

layout::Grid grid_of(const Parameters& parameters);

/// Water lines that come within `within_m` of the block's bounding box, in its frame.
std::vector<std::vector<ground::Xy>> water_near(const ground::Block& block,
                                                const ground::XyShape& shape,
                                                const ground::Frame& frame, double within_m);

}  // namespace wildling::plan
