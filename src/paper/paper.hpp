#pragma once
/// paper: sets the sheets of a plan in type: crew sheets, the month's rain sheet, the summary
/// letter and the map picture. It computes nothing but the place of ink
/// and the sums at the foot of what it prints; every other number comes in the
/// structs of plan/sheets.hpp, every sentence from data/words/paper.*.json. A4 upright, margins 15
/// mm, text 10.5 pt or more, black lines that survive rain and a photocopier; no meaning by colour
/// alone. Fonts: only those of data/fonts. All functions return the bytes of a file; the same input
/// gives the same bytes. They may be called from any thread; they take turns.
#include <string>
#include <vector>

#include "base/words.hpp"
#include "plan/sheet_kinds.hpp"
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

/// One A4 page per crew leader, as far as it fits: verdict, cautions, rest, where to meet, blocks
/// with rows and numbers, what to bring, and a return slip for each block at the foot. Blocks with
/// a closed gate are named as not tomorrow.
/// @throws Error{usage, "paper.nothing_to_print"} when there is no sheet
std::string write_tomorrow_sheets(const std::vector<plan::TomorrowSheet>& sheets,
                                  const Words& words);

/// The same as text for the crew's chat: under 500 characters whatever comes in. The day, the
/// blocks, the cautions by name and the meeting place come first; what does not fit is left out and
/// the text says that the sheet has more.
std::string tomorrow_text(const plan::TomorrowSheet& sheet, const Words& words);

/// One page or more: the months with their rain, firebreaks with due dates, patrol by fire class,
/// neighbours, after a fire.
std::string write_fire_calendar(const plan::FireCalendar& calendar, const Words& words);

/// Attendance and pay, A4 upright, with a place to sign for each person.
/// @throws Error{usage, "paper.pay_days"} when days is not 1 to 7
std::string write_pay_list(const plan::PayList& list, const Words& words);

/// The weekly walk: the four pictures of cover against a young tree, then one line per block to be
/// ticked and filled by hand.
/// @throws Error{usage, "paper.nothing_to_print"} when there is no line
std::string write_walk_sheet(const plan::WalkSheet& sheet, const Words& words);

std::string write_waiting_page(const plan::WaitingPage& page, const Words& words);

struct PaperFile {
  std::string name = {};  ///< "tomorrow.pdf"
  std::string bytes = {};
};

/// The files of one kind of sheet (plan/sheet_kinds.hpp): its PDF, and beside tomorrow's sheets the
/// text for each crew's chat. Weeks of pay are one file each.
std::vector<PaperFile> write_sheet(const plan::SheetContent& content, const Words& words);

}  // namespace wildling::paper
