#include "paper/page.hpp"

#include <cmath>

namespace wildling::paper {
namespace {

constexpr Type kHeading{Face::sans, 12.5, true};
constexpr Type kFoot{Face::sans, 9.5};

}  // namespace

std::string Talk::coordinates(const plan::SheetLonLat& at) const {
  return (*this)("coordinates", {{"lat", number(std::fabs(at.lat_deg), 5)},
                                 {"lon", number(std::fabs(at.lon_deg), 5)},
                                 {"north", at.lat_deg < 0 ? "no" : "yes"},
                                 {"east", at.lon_deg < 0 ? "no" : "yes"}});
}

std::string Talk::sentences(const std::vector<Message>& messages) const {
  std::string result;
  for (const Message& message : messages) {
    if (!result.empty()) result += ' ';
    result += (*this)(message);
  }
  return result;
}

Page::Page(Canvas& canvas_in, const Talk& talk_in, PageFrame frame)
    : canvas(canvas_in), talk(talk_in), frame_(std::move(frame)) {
  begin();
}

void Page::begin() {
  ++number_;
  bottom_ = kA4Long - kMargin - (frame_.stamp.invented_figures ? 32 : 18);
  y = kMargin;
  if (number_ > 1) {
    y += canvas.text(left(), y, width(), frame_.running_title, {Face::sans, 10.5, true}) + 2;
    canvas.line({left(), y}, {left() + width(), y}, {1.2, kInk, {}});
    y += 8;
  }
  if (frame_.draft) y += draw_draft_banner(canvas, talk, {left(), y, width(), 0}) + 8;
  double foot = bottom_ + 4;
  canvas.line({left(), foot}, {left() + width(), foot}, {0.6, kInk, {}});
  foot += 2;
  const plan::SheetStamp& stamp = frame_.stamp;
  const std::string said =
      stamp.plan_number > 0
          ? talk("stamp_with_plan", {{"programme", stamp.programme},
                                     {"plan", std::int64_t{stamp.plan_number}},
                                     {"day", stamp.made_on}})
          : talk("stamp", {{"programme", stamp.programme}, {"day", stamp.made_on}});
  const std::string numbered =
      talk("page_of", {{"page", std::int64_t{number_}}, {"pages", std::int64_t{frame_.pages}}});
  const double right = canvas.width(numbered, kFoot) + 4;
  canvas.clip({left(), foot, width() - right - 8, canvas.height(0, numbered, kFoot)});
  canvas.text(left(), foot, width() - right - 8, said, kFoot);
  canvas.unclip();
  canvas.text(left() + width() - right, foot, right, numbered, kFoot, Align::right);
  if (stamp.invented_figures)
    canvas.text(left(), foot + 13, width(), talk("invented"), {Face::sans, 9.5, true});
}

void Page::turn() {
  canvas.next_page();
  begin();
}

bool Page::need(double height_pt) {
  if (height_pt <= room()) return false;
  turn();
  return true;
}

void Page::heading(const std::string& words, double keep_with_pt) {
  const double tall = canvas.height(width(), words, kHeading);
  need(tall + 8 + keep_with_pt);
  y += 6;
  y += canvas.text(left(), y, width(), words, kHeading) + 2;
}

void Page::paragraph(const std::string& words, Type type, double space_after) {
  const Run run{words, type};
  paragraph(std::span<const Run>(&run, 1), space_after);
}

void Page::paragraph(std::span<const Run> runs, double space_after, double hanging_pt) {
  need(canvas.height(width(), runs, hanging_pt));
  y += canvas.text(left(), y, width(), runs, Align::left, hanging_pt) + space_after;
}

void Page::item(const std::string& mark, std::span<const Run> runs, double space_after) {
  constexpr double indent = 16;
  need(canvas.height(width() - indent, runs));
  canvas.text(left(), y, indent, mark, {Face::sans, 10.5, true});
  y += canvas.text(left() + indent, y, width() - indent, runs) + space_after;
}

void Page::blank(double x, double width_pt, const std::string& label, double y_pt) const {
  const double used = canvas.width(label, {}) + 4;
  canvas.text(x, y_pt, width_pt, label);
  canvas.line({x + used, y_pt + 13}, {x + width_pt, y_pt + 13}, {0.8, kInk, {}});
}

double draw_draft_banner(Canvas& canvas, const Talk& talk, const Box& box) {
  constexpr Type type{Face::sans, 30, true};
  const std::string words = talk("draft");
  const double tall = canvas.height(box.width - 24, words, type) + 10;
  canvas.frame({box.x + 1.5, box.y + 1.5, box.width - 3, tall - 3}, {3, kInk, {}});
  canvas.text(box.x + 12, box.y + 5, box.width - 24, words, type, Align::centre);
  return tall;
}

void draw_tick_box(Canvas& canvas, double x, double y, double size_pt) {
  canvas.frame({x, y, size_pt, size_pt}, {1.1, kInk, {}});
}

}  // namespace wildling::paper
