#include "paper/sketch.hpp"

#include <algorithm>
#include <cmath>

#include "paper/fit.hpp"

namespace wildling::paper {
namespace {

constexpr double kFooter = 30;        // scale bar and north below the map
constexpr double kLeastRowGap = 4.0;  // pt between drawn rows
constexpr Type kLabel{Face::sans, 9.5, true};

bool has_baseline(const plan::CrewSheet& sheet) {
  return sheet.baseline.length_m > 0;
}

std::size_t row_step(const plan::CrewSheet& sheet, const Fit& fit) {
  const double gap = fit.metres_to_pt(std::max(sheet.baseline.row_spacing_m, 0.1));
  return std::max<std::size_t>(1, static_cast<std::size_t>(std::ceil(kLeastRowGap / gap)));
}

// A word on white, so that lines below do not cross it.
void label(Canvas& canvas, Point centre, const std::string& words) {
  const double wide = canvas.width(words, kLabel), tall = canvas.height(0, words, kLabel);
  canvas.fill({centre.x - wide / 2 - 1.5, centre.y - tall / 2 + 1, wide + 3, tall - 2}, kPaper);
  canvas.text(centre.x - wide / 2, centre.y - tall / 2, wide + 2, words, kLabel);
}

void draw_rows(Canvas& canvas, const plan::CrewSheet& sheet, const Fit& fit, std::size_t step) {
  for (std::size_t i = 0; i < sheet.rows.size(); i += step)
    canvas.line(fit(sheet.rows[i].start), fit(sheet.rows[i].end), {0.6, kInk, {}});
}

void label_rows(Canvas& canvas, const plan::CrewSheet& sheet, const Fit& fit) {
  if (sheet.rows.empty()) return;
  for (const plan::SheetRow* row : {&sheet.rows.front(), &sheet.rows.back()}) {
    label(canvas, fit({(row->start.x_m + row->end.x_m) / 2, (row->start.y_m + row->end.y_m) / 2}),
          std::to_string(row->number));
    if (sheet.rows.size() == 1) break;
  }
}

void draw_baseline(Canvas& canvas, const plan::CrewSheet& sheet, const Fit& fit) {
  const Point a = fit(sheet.baseline.a.at), b = fit(sheet.baseline.b.at);
  canvas.line(a, b, {2.4, kInk, {}});
  const double length = std::max(std::hypot(b.x - a.x, b.y - a.y), 1.0);
  const Point along{(b.x - a.x) / length, (b.y - a.y) / length};
  for (const bool first : {true, false}) {
    const Point at = first ? a : b;
    const double out = first ? -12 : 12;
    canvas.symbol("peg", {at.x, at.y - 6}, 14);
    label(canvas, {at.x + along.x * out, at.y + along.y * out},
          first ? sheet.baseline.a.name : sheet.baseline.b.name);
  }
}

}  // namespace

double draw_sketch(Canvas& canvas, const Talk& talk, const plan::CrewSheet& sheet, const Box& box) {
  Extent extent;
  extent.add(sheet.shape);
  if (has_baseline(sheet)) {
    extent.add(sheet.baseline.a.at);
    extent.add(sheet.baseline.b.at);
  }
  const Box map{box.x, box.y, box.width, box.height - kFooter - 4};
  canvas.frame(map, {0.8, kInk, {}});
  if (extent.empty) {
    canvas.text(map.x + 8, map.y + 8, map.width - 16, talk("sketch_missing"));
    return box.height;
  }
  const Fit fit(extent, {map.x + 22, map.y + 22, map.width - 44, map.height - 44});
  const std::size_t step = row_step(sheet, fit);
  canvas.clip(map);
  for (const plan::SheetLine& line : sheet.water_lines) draw_water(canvas, fit(line));
  draw_rows(canvas, sheet, fit, step);
  for (const auto& ring : fit.rings(sheet.shape)) canvas.polyline(ring, {1.6, kInk, {}}, true);
  label_rows(canvas, sheet, fit);
  if (has_baseline(sheet)) draw_baseline(canvas, sheet, fit);
  canvas.unclip();
  const double below = map.y + map.height + 7;
  draw_scale_bar(canvas, talk, {box.x + 2, below}, fit.pt_per_m(), 90);
  draw_north(canvas, talk, {map.x + map.width - 14, map.y + 16}, 22);
  std::string said = talk(sheet.rows.empty() ? "sketch_edge" : "sketch_lines");
  if (!sheet.water_lines.empty()) said += " " + talk("sketch_water");
  if (step > 1 && !sheet.rows.empty())
    said += " " + talk("sketch_every", {{"step", static_cast<std::int64_t>(step)}});
  const double used = canvas.text(box.x + 120, below - 3, box.width - 120, said, {Face::sans, 9.5});
  return map.height + std::max(kFooter + 4, used + 8);
}

}  // namespace wildling::paper
