#include <array>
#include <mutex>

#include "base/error.hpp"
#include "paper/fonts.hpp"
#include "paper/page.hpp"
#include "paper/paper.hpp"
#include "paper/table.hpp"

namespace wildling::paper {
namespace {

constexpr int kPictures = 4;
constexpr double kPictureSize = 84;
constexpr double kLine = 25;  // height of a line to write on with a thick pencil
constexpr double kNumber = 20;

// The four pictures beside each other, number and words below each.
void write_pictures(Page& page) {
  const Talk& talk = page.talk;
  const double wide = page.width() / kPictures;
  double lowest = 0;
  for (int i = 1; i <= kPictures; ++i) {
    const std::string number = std::to_string(i);
    const double x = page.left() + wide * (i - 1);
    page.canvas.symbol("cover_" + number, {x + wide / 2, page.y + kPictureSize / 2}, kPictureSize);
    page.canvas.text(x + 2, page.y + kPictureSize * 0.02, kNumber, number, {Face::sans, 17, true});
    lowest = std::max(lowest, page.canvas.text(x + 3, page.y + kPictureSize, wide - 6,
                                               talk("walk_picture." + number), {Face::sans, 10.5},
                                               Align::centre));
    page.canvas.frame({x + 1, page.y - 3, wide - 2, kPictureSize + 34}, {0.8, kInk, {}});
  }
  page.y += kPictureSize + std::max(lowest + 6, 38.0);
}

std::vector<Column> columns(const Page& page) {
  const Talk& talk = page.talk;
  std::vector<Column> heads = {{talk("block"), 46, Align::left, true, false},
                               {talk("walk_trees"), 46, Align::right, false, false},
                               {talk("walk_cover"), 84, Align::left, false, false},
                               {talk("walk_which"), 82, Align::left, true, false},
                               {talk("walk_height"), 44, Align::left, false, false},
                               {talk("walk_climbed"), 56, Align::left, false, false},
                               {talk("walk_dry"), 46, Align::left, false, false}};
  double used = 0;
  for (const Column& column : heads) used += column.width_pt;
  heads.push_back({talk("walk_seen"), page.width() - used, Align::left, false, false});
  return heads;
}

void write_lines(Page& page, const plan::WalkSheet& sheet) {
  Table table(page, columns(page), page.left(), {Face::sans, 10.5});
  table.head();
  const std::string numbers = "1   2   3   4";
  for (const plan::WalkSheetLine& line : sheet.lines) {
    const std::string mark = line.due ? "\u2192\u00a0" : "";
    table.row({mark + line.block_code, line.tree_m ? page.talk.number(*line.tree_m, 1) : "", "",
               numbers, "", "", "", ""},
              kLine);
  }
  for (int i = 0; i < sheet.blank_lines; ++i)
    table.row({"", "", "", numbers, "", "", "", ""}, kLine);
}

int write_walk(Canvas& canvas, const Talk& talk, const plan::WalkSheet& sheet, int pages) {
  PageFrame frame;
  frame.stamp = sheet.stamp;
  frame.running_title = talk("walk_sheet");
  frame.pages = pages;
  Page page(canvas, talk, frame);
  page.paragraph(talk("walk_sheet"), {Face::sans, 10.5, true}, 0);
  page.paragraph(talk("walk_week", {{"day", sheet.week}}), {Face::serif, 21, true}, 2);
  page.paragraph(talk("walk_how"), {}, 5);
  write_pictures(page);
  page.paragraph(talk("walk_rules"), {}, 4);
  for (const Message& note : sheet.notes) page.paragraph(talk(note), {}, 3);
  write_lines(page, sheet);
  page.space(8);
  page.need(18);
  const double half = page.width() / 2 - 8;
  if (sheet.walker.empty()) {
    page.blank(page.left(), half, talk("walk_walker"), page.y);
  } else {
    canvas.text(page.left(), page.y, half, talk("walk_walker") + " " + sheet.walker);
  }
  page.blank(page.left() + half + 16, half, talk("slip_date"), page.y);
  return page.number();
}

}  // namespace

std::string write_walk_sheet(const plan::WalkSheet& sheet, const Words& words) {
  if (sheet.lines.empty()) throw Error(ErrorKind::usage, "", say("paper.nothing_to_print"));
  const std::scoped_lock lock(drawing_mutex());
  const Talk talk(words);
  Canvas scratch = Canvas::blank();
  const int pages = write_walk(scratch, talk, sheet, 0);
  Canvas canvas = Canvas::pdf(kA4Short, kA4Long, sheet.stamp.made_on, talk("walk_sheet"));
  write_walk(canvas, talk, sheet, pages);
  return canvas.finish();
}

}  // namespace wildling::paper
