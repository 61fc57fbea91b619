#pragma once
/// paper: sets the sheets of a plan in type: crew sheets, the month's rain sheet, the summary
/// letter and the map picture. It computes nothing but the place of ink; every number comes in the
/// structs of plan/sheets.hpp, every sentence from data/words/paper.*.json. A4 upright, margins 15
/// mm, text 10.5 pt or more, black lines that survive rain and a photocopier; no meaning by colour
/// alone. Fonts: only those of data/fonts. All functions return the bytes of a file; the same input
/// gives the same bytes. They may be called from any thread; they take turns.
#include <string>

#include "base/words.hpp"
#include "plan/sheets.hpp"

namespace wildling::paper {

/// Per block: what to do, gate ticks, cautions, baseline with sketch map, species to load, rows,
/// and at the foot of its last page the return slip. Each block starts on a new page and counts its
/// own pages. A block whose gate is closed gets one page or more that says "draft, not for crews"
/// and why: no rows, species or slip, whatever the struct holds.
/// @throws Error{usage, "paper.nothing_to_print"} when there is no block
std::string write_crew_sheets(const plan::CrewSheets& sheets, const Words& words);

/// One page: how to read the gauge, and one line per day of the month.
/// @throws Error{usage} when the month is not 1 to 12
std::string write_rain_sheet(const plan::RainSheet& sheet, const Words& words);

/// The letter: one page, text at 11 pt or as much smaller (to 9.5) as it needs; the map shrinks
/// first.
/// @throws Error{usage, "paper.summary_too_long"} when even that does not fit: nothing is cut in
/// silence
std::string write_summary(const plan::SummaryPage& page, const Words& words);

/// Map of the layout on A4, upright or lying as the shape asks; 3 pixels a point (1,786 x 2,526).
/// Seedlings are drawn one by one up to plan::kMapPointLimit, then as rows, then as filled blocks.
/// @throws Error{usage, "paper.nothing_to_draw"} when there is no block with a shape
std::string map_picture_png(const plan::MapPicture& map, const Words& words);
std::string map_picture_svg(const plan::MapPicture& map, const Words& words);

}  // namespace wildling::paper
