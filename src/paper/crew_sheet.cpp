#include <mutex>

#include "base/error.hpp"
#include "paper/crew_parts.hpp"
#include "paper/fonts.hpp"
#include "paper/paper.hpp"

namespace wildling::paper {
namespace {

// Writes all pages of one block. @return how many
int write_block(Canvas& canvas, const Talk& talk, const plan::CrewSheet& sheet,
                const plan::SheetStamp& stamp, int pages) {
  PageFrame frame;
  frame.stamp = stamp;
  frame.running_title = talk("job." + job_key(sheet.job), {{"block", sheet.block_code}});
  frame.draft = !sheet.gates.open;
  frame.pages = pages;
  Page page(canvas, talk, frame);
  write_crew_head(page, sheet);
  write_gates(page, sheet.gates);
  if (!sheet.gates.open) {
    write_baseline(page, sheet);
    return page.number();
  }
  write_cautions(page, sheet);
  write_steps(page, sheet);
  write_baseline(page, sheet);
  if (job_brings_seedlings(sheet.job)) write_species_key(page, sheet);
  write_rows(page, sheet);
  write_return_slip(page, sheet, stamp);
  return page.number();
}

}  // namespace

std::string write_crew_sheets(const plan::CrewSheets& sheets, const Words& words) {
  if (sheets.blocks.empty()) throw Error(ErrorKind::usage, "", say("paper.nothing_to_print"));
  const std::scoped_lock lock(drawing_mutex());
  const Talk talk(words);
  std::vector<int> pages;
  for (const plan::CrewSheet& sheet : sheets.blocks) {  // first only to count the pages
    Canvas scratch = Canvas::blank();
    pages.push_back(write_block(scratch, talk, sheet, sheets.stamp, 0));
  }
  Canvas canvas = Canvas::pdf(kA4Short, kA4Long, sheets.stamp.made_on, talk("crew_sheet"));
  for (std::size_t i = 0; i < sheets.blocks.size(); ++i) {
    write_block(canvas, talk, sheets.blocks[i], sheets.stamp, pages[i]);
    canvas.next_page();
  }
  return canvas.finish();
}

}  // namespace wildling::paper
