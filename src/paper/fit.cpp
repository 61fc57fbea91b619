#include "paper/fit.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace wildling::paper {
namespace {

// A page of either way and a little around it: nothing beyond is walked along.
constexpr Box kNearPage{-30, -30, kA4Long + 60, kA4Long + 60};

// The part of a-b within the box (Liang and Barsky); false when there is none.
bool cut(Point& a, Point& b, const Box& box) {
  const double dx = b.x - a.x, dy = b.y - a.y;
  if (!std::isfinite(dx) || !std::isfinite(dy)) return false;
  double from = 0, to = 1;
  const std::array<std::array<double, 2>, 4> sides{{{-dx, a.x - box.x},
                                                    {dx, box.x + box.width - a.x},
                                                    {-dy, a.y - box.y},
                                                    {dy, box.y + box.height - a.y}}};
  for (const auto& [p, q] : sides) {
    if (p == 0 && q < 0) return false;
    if (p < 0) from = std::max(from, q / p);
    if (p > 0) to = std::min(to, q / p);
  }
  if (from > to) return false;
  const Point start = a;
  a = {start.x + from * dx, start.y + from * dy};
  b = {start.x + to * dx, start.y + to * dy};
  return true;
}

// Points every `step_pt` along a line, each with the direction of the line there.
struct Along {
  Point at;
  Point direction;
};

std::vector<Along> walk(const std::vector<Point>& line, double step_pt) {
  std::vector<Along> result;
  double due = 0;
  for (std::size_t i = 1; i < line.size(); ++i) {
    const Point a = line[i - 1], b = line[i];
    const double length = std::hypot(b.x - a.x, b.y - a.y);
    if (!(length > 0)) continue;
    const Point direction{(b.x - a.x) / length, (b.y - a.y) / length};
    for (; due <= length; due += step_pt)
      result.push_back({{a.x + direction.x * due, a.y + direction.y * due}, direction});
    due -= length;
  }
  return result;
}

void draw_wave(Canvas& canvas, const std::vector<Point>& line) {
  const std::vector<Along> steps = walk(line, 1.5);
  for (const double side : {-1.3, 1.3}) {
    std::vector<Point> wave;
    wave.reserve(steps.size());
    for (std::size_t i = 0; i < steps.size(); ++i) {
      const double sway = side + 1.1 * std::sin(static_cast<double>(i) * 0.75);
      const Along& step = steps[i];
      wave.push_back({step.at.x - step.direction.y * sway, step.at.y + step.direction.x * sway});
    }
    canvas.polyline(wave, {1.0, kWater, {}});
  }
}

}  // namespace

std::vector<std::vector<Point>> pieces_within(const std::vector<Point>& line, const Box& box) {
  std::vector<std::vector<Point>> pieces;
  bool open = false;
  for (std::size_t i = 1; i < line.size(); ++i) {
    Point a = line[i - 1], b = line[i];
    if (!cut(a, b, box)) {
      open = false;
      continue;
    }
    if (!open) pieces.push_back({a});
    pieces.back().push_back(b);
    open = b.x == line[i].x && b.y == line[i].y;
  }
  return pieces;
}

void Extent::add(const plan::SheetXy& at) {
  if (empty) {
    west = east = at.x_m;
    south = north = at.y_m;
    empty = false;
    return;
  }
  west = std::min(west, at.x_m);
  east = std::max(east, at.x_m);
  south = std::min(south, at.y_m);
  north = std::max(north, at.y_m);
}

void Extent::add(const plan::SheetLine& line) {
  for (const plan::SheetXy& at : line) add(at);
}

void Extent::add(const plan::SheetShape& shape) {
  for (const plan::SheetPart& part : shape) add(part.outer);
}

Fit::Fit(const Extent& extent, const Box& box) {
  const double wide = std::max(extent.east - extent.west, 1.0),
               tall = std::max(extent.north - extent.south, 1.0);
  scale_ = std::min(box.width / wide, box.height / tall);
  west_ = extent.west;
  north_ = extent.north;
  x_ = box.x + (box.width - wide * scale_) / 2;
  y_ = box.y + (box.height - tall * scale_) / 2;
}

Point Fit::operator()(const plan::SheetXy& at) const {
  return {x_ + (at.x_m - west_) * scale_, y_ + (north_ - at.y_m) * scale_};
}

std::vector<Point> Fit::operator()(const plan::SheetLine& line) const {
  std::vector<Point> points;
  points.reserve(line.size());
  for (const plan::SheetXy& at : line) points.push_back((*this)(at));
  return points;
}

std::vector<std::vector<Point>> Fit::rings(const plan::SheetShape& shape) const {
  std::vector<std::vector<Point>> rings;
  for (const plan::SheetPart& part : shape) {
    rings.push_back((*this)(part.outer));
    for (const plan::SheetLine& hole : part.holes) rings.push_back((*this)(hole));
  }
  return rings;
}

double scale_bar_metres(double pt_per_m, double width_pt) {
  const double longest = width_pt / pt_per_m;
  const double power = std::pow(10.0, std::floor(std::log10(longest)));
  for (const double factor : {5.0, 2.0})
    if (factor * power <= longest) return factor * power;
  return power;
}

double draw_scale_bar(Canvas& canvas, const Talk& talk, Point left_end, double pt_per_m,
                      double width_pt) {
  const double metres = scale_bar_metres(pt_per_m, width_pt);
  const double wide = metres * pt_per_m;
  constexpr double tall = 5;
  canvas.fill({left_end.x, left_end.y, wide / 2, tall}, kInk);
  canvas.frame({left_end.x, left_end.y, wide, tall}, {0.8, kInk, {}});
  const bool kilometres = metres >= 1000;
  const std::string words =
      talk(kilometres ? "scale_km" : "scale_m", {{"length", kilometres ? metres / 1000 : metres}});
  canvas.text(left_end.x, left_end.y + tall + 1, width_pt + 60, words, {Face::sans, 9.5});
  return wide;
}

void draw_north(Canvas& canvas, const Talk& talk, Point centre, double size_pt) {
  canvas.symbol("north", centre, size_pt);
  canvas.text(centre.x - 30, centre.y + size_pt / 2, 60, talk("north"), {Face::sans, 9.5, true},
              Align::centre);
}

void draw_water(Canvas& canvas, const std::vector<Point>& line) {
  for (const std::vector<Point>& piece : pieces_within(line, kNearPage)) draw_wave(canvas, piece);
}

void draw_firebreak(Canvas& canvas, const std::vector<Point>& line) {
  for (const std::vector<Point>& piece : pieces_within(line, kNearPage)) {
    std::vector<Point> one, two;
    for (const Along& step : walk(piece, 5)) {
      const Point across{-step.direction.y * 2.2, step.direction.x * 2.2};
      one.push_back({step.at.x + across.x, step.at.y + across.y});
      two.push_back({step.at.x - across.x, step.at.y - across.y});
      canvas.line(one.back(), two.back(), {0.6, kClay, {}});
    }
    canvas.polyline(one, {0.9, kClay, {}});
    canvas.polyline(two, {0.9, kClay, {}});
  }
}

}  // namespace wildling::paper
