#include <algorithm>

#include "paper/crew_parts.hpp"
#include "paper/sketch.hpp"

namespace wildling::paper {
namespace {

constexpr Type kBold{Face::sans, 10.5, true};
constexpr double kSketchHeight = 236;

std::string bearing(const Talk& talk, double from_true_north,
                    const std::optional<double>& magnetic) {
  if (!magnetic) return talk("bearing_true", {{"bearing", talk.number(from_true_north, 1)}});
  return talk("bearing_both", {{"bearing", talk.number(from_true_north, 1)},
                               {"compass", talk.number(*magnetic, 1)}});
}

std::vector<std::array<std::string, 2>> lines(const Talk& talk,
                                              const plan::SheetBaseline& baseline) {
  std::vector<std::array<std::string, 2>> result;
  for (const plan::SheetPeg* peg : {&baseline.a, &baseline.b})
    result.push_back({talk("peg", {{"name", peg->name}}), talk.coordinates(peg->lonlat)});
  result.push_back({talk("from_to", {{"from", baseline.a.name}, {"to", baseline.b.name}}),
                    talk("metres", {{"length", talk.number(baseline.length_m, 1)}}) + ", " +
                        bearing(talk, baseline.bearing_deg, baseline.magnetic_bearing_deg)});
  result.push_back({talk("rows_run"),
                    bearing(talk, baseline.row_bearing_deg, baseline.row_magnetic_bearing_deg)});
  result.push_back({talk("apart"), talk(baseline.triangular ? "apart_triangular" : "apart_square",
                                        {{"spacing", talk.number(baseline.spacing_m, 2)},
                                         {"rows", talk.number(baseline.row_spacing_m, 2)}})});
  if (baseline.setback_edge_m > 0 || baseline.setback_water_m > 0)
    result.push_back(
        {talk("kept_free"),
         talk("kept_free_metres", {{"edge", talk.number(baseline.setback_edge_m, 1)},
                                   {"water", talk.number(baseline.setback_water_m, 1)}})});
  return result;
}

}  // namespace

void write_baseline(Page& page, const plan::CrewSheet& sheet) {
  const Talk& talk = page.talk;
  const bool has_line = sheet.gates.open && sheet.baseline.length_m > 0;
  page.heading(talk(has_line ? "baseline" : "sketch"), kSketchHeight);
  plan::CrewSheet shown = sheet;
  if (!sheet.gates.open) {
    shown.rows.clear();
    shown.baseline = {};
  }
  if (!has_line) {
    page.y += draw_sketch(page.canvas, talk, shown,
                          {page.left(), page.y, page.width() * 0.6, kSketchHeight}) +
              4;
    return;
  }
  const double text_width = page.width() * 0.42, top = page.y;
  double y = top;
  for (const auto& [label, value] : lines(talk, sheet.baseline)) {
    y += page.canvas.text(page.left(), y, text_width, label, kBold);
    y += page.canvas.text(page.left(), y, text_width, value) + 3;
  }
  const double x = page.left() + text_width + 12;
  const double used = draw_sketch(page.canvas, talk, shown,
                                  {x, top + 2, page.left() + page.width() - x, kSketchHeight});
  page.y = std::max(y, top + used) + 4;
  if (sheet.baseline.position_error_m)
    page.paragraph(
        talk("trust_tape", {{"error", talk.number(*sheet.baseline.position_error_m, 0)}}), kBold);
}

}  // namespace wildling::paper
