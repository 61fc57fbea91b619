#pragma once
/// Pieces that the fillers of sheets, pages and files share: a block's places drawn again from its
/// kept layout, and shapes turned into the sheets' own structs.
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/parameters.hpp"
#include "ground/frame.hpp"
#include "layout/baseline.hpp"
#include "layout/places.hpp"
#include "plan/result.hpp"
#include "plan/sheets.hpp"

namespace wildling::plan {

/// A block's layout as it was kept, in the frame of its site.
struct BlockLayout {
  ground::XyShape shape = {};
  std::vector<std::vector<ground::Xy>> water = {};  ///< lines that the places keep away from
  layout::Places places = {};
  std::vector<std::uint8_t> species = {};  ///< one byte per place
};

/// The frame of the block's site. @throws Error{internal} when the plan has no such site
ground::Frame frame_of(const PlanResult& plan, const BlockPart& part);

/// Empty when the block has no kept layout.
/// @throws Error{input} when the kept bytes do not fit the block any more (layout/code.hpp)
std::optional<BlockLayout> layout_of(const BlockPart& part, const ground::Frame& frame);

/// Declination of the compass, degrees, east positive; empty until somebody has told it.
std::optional<double> declination_of(const Parameters& parameters);

/// Something is to be planted there now.
bool to_be_planted(const BlockPart& part);

SheetStamp stamp_of(const PlanResult& plan);
SheetGroup sheet_group(const std::string& group);
GateTicks gate_ticks(const BlockPart& part);

SheetXy sheet_xy(ground::Xy at);
SheetLine sheet_line(const std::vector<ground::Xy>& line);
SheetShape sheet_shape(const ground::XyShape& shape);

/// Pegs with their positions; `name` is "A" and "B" with what stands before them.
SheetPeg sheet_peg(const std::string& name, ground::Xy at, const ground::Frame& frame);

}  // namespace wildling::plan
