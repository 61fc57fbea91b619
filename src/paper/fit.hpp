#pragma once
#include <array>
#include <optional>

#include "paper/canvas.hpp"
#include "paper/page.hpp"
#include "plan/sheets.hpp"

namespace wildling::paper {

/// Bounding box in metres.
struct Extent {
  double west = 0, east = 0, south = 0, north = 0;
  bool empty = true;
  void add(const plan::SheetXy& at);
  void add(const plan::SheetLine& line);
  void add(const plan::SheetShape& shape);
};

/// Puts metres (north up) into a box of the page, centred, the same scale both ways.
class Fit {
 public:
  Fit(const Extent& extent, const Box& box);
  [[nodiscard]] Point operator()(const plan::SheetXy& at) const;
  [[nodiscard]] std::vector<Point> operator()(const plan::SheetLine& line) const;
  /// Outer rings and holes of all parts, for even-odd filling.
  [[nodiscard]] std::vector<std::vector<Point>> rings(const plan::SheetShape& shape) const;

  [[nodiscard]] double pt_per_m() const { return scale_; }

  [[nodiscard]] double metres_to_pt(double metres) const { return metres * scale_; }

 private:
  double scale_ = 1, west_ = 0, north_ = 0, x_ = 0, y_ = 0;
};

/// The longest of 1, 2, 5 x 10^k metres that is not wider than `width_pt`.
double scale_bar_metres(double pt_per_m, double width_pt);

/// Bar in two halves with its length in words. @return its width
double draw_scale_bar(Canvas& canvas, const Talk& talk, Point left_end, double pt_per_m,
                      double width_pt);
/// Arrow with the letter for north below.
void draw_north(Canvas& canvas, const Talk& talk, Point centre, double size_pt);
/// The parts of a line that lie within the box, in order; a line that comes in twice gives two.
std::vector<std::vector<Point>> pieces_within(const std::vector<Point>& line, const Box& box);
/// Water is a wavy double line, so that no copy confuses it with a row or an edge.
void draw_water(Canvas& canvas, const std::vector<Point>& line);
/// Two lines with cross ticks.
void draw_firebreak(Canvas& canvas, const std::vector<Point>& line);

}  // namespace wildling::paper
