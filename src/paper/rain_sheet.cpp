#include <algorithm>
#include <mutex>

#include "base/error.hpp"
#include "paper/fonts.hpp"
#include "paper/paper.hpp"
#include "paper/table.hpp"

namespace wildling::paper {
namespace {

void write_rules(Page& page, const plan::RainSheet& sheet) {
  const Talk& talk = page.talk;
  page.heading(talk("rain_rules"));
  page.canvas.symbol("caution", {page.left() + 6, page.y + 7}, 11);
  const Run caution{talk("rain_thunder"), {Face::sans, 10.5, true}};
  page.item("", std::span<const Run>(&caution, 1), 1);
  int number = 0;
  for (const char* key :
       {"rain_rule.read",
        sheet.rain_read_next_morning ? "rain_rule.counts_before" : "rain_rule.counts_same",
        "rain_rule.zero", "rain_rule.spade"}) {
    const Run run{talk(key), {}};
    page.item(std::to_string(++number), std::span<const Run>(&run, 1), 1);
  }
}

void write_days(Page& page, const plan::RainSheet& sheet) {
  const Talk& talk = page.talk;
  constexpr double number = 55;
  Table table(page,
              {{talk("day"), 30, Align::right, true, false},
               {talk("rain_mm"), number, Align::right, false, false},
               {talk("highest"), number, Align::right, false, false},
               {talk("lowest"), number, Align::right, false, false},
               {talk("humid_morning"), number, Align::right, false, false},
               {talk("humid_afternoon"), number, Align::right, false, false},
               {talk("moist_cm"), number, Align::right, false, false},
               {talk("remarks"), page.width() - 30 - 6 * number, Align::left, false, false}},
              page.left());
  table.head();
  const unsigned days = days_in_month(sheet.year, sheet.month);
  constexpr double foot = 24;
  const double line = std::min(17.0, (page.room() - foot) / days);
  for (unsigned day = 1; day <= days; ++day)
    table.row({std::to_string(day), "", "", "", "", "", "", ""}, line, true);
}

std::string place(const Talk& talk, const plan::RainSheet& sheet) {
  std::string said = sheet.station;
  if (sheet.lonlat) said += ", " + talk.coordinates(*sheet.lonlat);
  if (sheet.elevation_m)
    said += ", " + talk("elevation", {{"metres", talk.number(*sheet.elevation_m, 0)}});
  return said;
}

}  // namespace

std::string write_rain_sheet(const plan::RainSheet& sheet, const Words& words) {
  if (sheet.month < 1 || sheet.month > 12)
    throw Error(ErrorKind::usage, "",
                say("paper.month_unknown", {{"month", std::int64_t{sheet.month}}}));
  const std::scoped_lock lock(drawing_mutex());
  const Talk talk(words);
  Canvas canvas = Canvas::pdf(kA4Short, kA4Long, sheet.stamp.made_on, talk("rain_sheet"));
  PageFrame frame;
  frame.stamp = sheet.stamp;
  frame.running_title = talk("rain_sheet");
  frame.pages = 1;
  Page page(canvas, talk, frame);
  page.paragraph(talk("rain_sheet"), {Face::sans, 10.5, true}, 0);
  page.paragraph(talk("month", {{"day", make_date(sheet.year, sheet.month, 1)}}),
                 {Face::serif, 21, true}, 1);
  page.paragraph(place(talk, sheet), {Face::sans, 11}, 1);
  write_rules(page, sheet);
  page.space(4);
  write_days(page, sheet);
  page.space(6);
  const double third = page.width() / 3 - 6;
  page.blank(page.left(), third, talk("month_total"), page.y);
  page.blank(page.left() + third + 9, third, talk("rain_days"), page.y);
  if (sheet.reader.empty()) {
    page.blank(page.left() + 2 * (third + 9), third, talk("reader"), page.y);
  } else {
    canvas.text(page.left() + 2 * (third + 9), page.y, third, talk("reader") + " " + sheet.reader);
  }
  return canvas.finish();
}

}  // namespace wildling::paper
