#include "paper/map_drawing.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "paper/crew_parts.hpp"

namespace wildling::paper {
namespace {

struct GroupSign {
  plan::SheetGroup group;
  const char* symbol;
  Ink ink;
};

constexpr std::array<GroupSign, 4> kGroupSigns{
    {{plan::SheetGroup::pioneer, "pioneer", kStraw},
     {plan::SheetGroup::early, "early", kLeaf},
     {plan::SheetGroup::late, "late", kInk},
     {plan::SheetGroup::unknown, "unknown_group", kClay}}};

struct MarkSign {
  plan::MapSign sign;
  const char* symbol;
};

constexpr std::array<MarkSign, 5> kMarkSigns{{{plan::MapSign::perch, "perch"},
                                              {plan::MapSign::plot, "plot"},
                                              {plan::MapSign::nursery_bed, "nursery_bed"},
                                              {plan::MapSign::mother_tree_area, "mother_tree_area"},
                                              {plan::MapSign::depot, "depot"}}};

constexpr double kLeastSymbol = 1.6;  // pt; smaller ones cannot be told apart on paper

constexpr double kLeastGap = 2.2;  // pt between rows; closer ones run together

MapDetail without_symbols(const plan::MapPicture& map) {
  std::size_t rows = 0;
  for (const plan::MapBlock& block : map.blocks) rows += block.rows.size();
  return rows > 0 && rows <= plan::kMapRowLimit ? MapDetail::rows : MapDetail::fills;
}

// Mean distance of rows: area over their length.
double row_gap_m(const plan::MapPicture& map) {
  double area_m2 = 0, length_m = 0;
  for (const plan::MapBlock& block : map.blocks) {
    if (block.rows.empty()) continue;
    area_m2 += block.area_ha * 1e4;
    for (const auto& row : block.rows)
      length_m += std::hypot(row[1].x_m - row[0].x_m, row[1].y_m - row[0].y_m);
  }
  return length_m > 0 ? area_m2 / length_m : 0;
}

// What can be told apart at this scale.
MapDetail detail_at(const plan::MapPicture& map, const Fit& fit, double symbol_pt) {
  MapDetail detail = map_detail(map);
  if (detail == MapDetail::seedlings && symbol_pt < kLeastSymbol) detail = without_symbols(map);
  if (detail == MapDetail::rows && fit.metres_to_pt(row_gap_m(map)) < kLeastGap)
    detail = MapDetail::fills;
  return detail;
}

Extent extent_of(const plan::MapPicture& map) {
  Extent extent;
  for (const plan::MapBlock& block : map.blocks) extent.add(block.shape);
  for (const plan::SheetLine& line : map.firebreaks) extent.add(line);
  for (const plan::SheetPeg& peg : map.pegs) extent.add(peg.at);
  for (const plan::MapMark& mark : map.marks) extent.add(mark.at);
  return extent;
}

double block_extent_pt(const plan::MapBlock& block, const Fit& fit, bool width) {
  Extent extent;
  extent.add(block.shape);
  return fit.metres_to_pt(width ? extent.east - extent.west : extent.north - extent.south);
}

void draw_seedlings(Canvas& canvas, const plan::MapBlock& block, const Fit& fit, double size_pt) {
  const std::size_t count =
      std::min({block.seedling_x_m.size(), block.seedling_y_m.size(), block.groups.size()});
  for (const GroupSign& sign : kGroupSigns) {
    std::vector<Point> places;
    for (std::size_t i = 0; i < count; ++i)
      if (block.groups[i] == sign.group)
        places.push_back(fit({static_cast<double>(block.seedling_x_m[i]),
                              static_cast<double>(block.seedling_y_m[i])}));
    if (!places.empty()) canvas.symbols(sign.symbol, places, size_pt, sign.ink);
  }
}

double symbol_size(const plan::MapPicture& map, const Fit& fit) {
  double area_m2 = 0;
  std::size_t count = 0;
  for (const plan::MapBlock& block : map.blocks) {
    area_m2 += block.area_ha * 1e4;
    count += block.groups.size();
  }
  if (count == 0) return 3;
  return std::clamp(fit.metres_to_pt(std::sqrt(area_m2 / static_cast<double>(count))) * 0.72, 1.2,
                    9.0);
}

void draw_block(Canvas& canvas, const plan::MapBlock& block, const Fit& fit, MapDetail detail,
                double size_pt) {
  const auto rings = fit.rings(block.shape);
  if (block.draft) {
    canvas.hatch_rings(rings, 6, {0.8, kClay, {}});
  } else if (detail == MapDetail::fills) {
    canvas.fill_rings(rings, kLeaf, 0.30);
  } else if (detail == MapDetail::rows) {
    for (const auto& row : block.rows) canvas.line(fit(row[0]), fit(row[1]), {0.5, kLeaf, {}});
  } else {
    draw_seedlings(canvas, block, fit, size_pt);
  }
  const double edge = std::clamp(
      std::min(block_extent_pt(block, fit, true), block_extent_pt(block, fit, false)) / 30, 0.4,
      1.5);
  for (const auto& ring : rings) canvas.polyline(ring, {edge, kInk, {}}, true);
}

bool code_fits(const Canvas& canvas, const plan::MapBlock& block, const Fit& fit,
               const Type& type) {
  constexpr double ease = 1.4;  // the edge stays to be seen around the code
  return canvas.width(block.code, type) * ease < block_extent_pt(block, fit, true) &&
         canvas.height(0, block.code, type) * ease < block_extent_pt(block, fit, false);
}

// The code on white in the middle of the block's box.
void label_block(Canvas& canvas, const plan::MapBlock& block, const Fit& fit, const Type& type) {
  Extent extent;
  extent.add(block.shape);
  const double wide = canvas.width(block.code, type), tall = canvas.height(0, block.code, type);
  const Point at = fit({(extent.west + extent.east) / 2, (extent.south + extent.north) / 2});
  canvas.fill({at.x - wide / 2 - 2, at.y - tall / 2 + 0.5, wide + 4, tall - 1}, kPaper);
  canvas.text(at.x - wide / 2, at.y - tall / 2, wide + 2, block.code, type);
}

// Codes in the largest size at which nine in ten blocks have room; none at all when most have not.
// @return whether some are left out
bool label_blocks(Canvas& canvas, const std::vector<plan::MapBlock>& blocks, const Fit& fit) {
  for (const double size : {10.5, 8.5, 7.0}) {
    const Type type{Face::sans, size, true};
    std::vector<const plan::MapBlock*> fitting;
    for (const plan::MapBlock& block : blocks)
      if (code_fits(canvas, block, fit, type)) fitting.push_back(&block);
    const std::size_t least_in_ten = size < 8 ? 5 : 9;
    if (fitting.size() * 10 < blocks.size() * least_in_ten) continue;
    for (const plan::MapBlock* block : fitting) label_block(canvas, *block, fit, type);
    return fitting.size() < blocks.size();
  }
  return !blocks.empty();
}

struct LegendItem {
  std::string symbol;  ///< or one of "edge", "draft", "rows", "fill", "water"
  Ink ink;
  std::string words;
};

bool any_group(const plan::MapPicture& map, plan::SheetGroup group) {
  return std::any_of(map.blocks.begin(), map.blocks.end(), [group](const plan::MapBlock& block) {
    return std::find(block.groups.begin(), block.groups.end(), group) != block.groups.end();
  });
}

std::vector<LegendItem> legend_items(const Talk& talk, const plan::MapPicture& map,
                                     MapDetail detail) {
  std::vector<LegendItem> items{{"edge", kInk, talk("legend.edge")}};
  if (detail == MapDetail::seedlings)
    for (const GroupSign& sign : kGroupSigns)
      if (any_group(map, sign.group))
        items.push_back({sign.symbol, sign.ink, talk("legend." + group_key(sign.group))});
  const bool any_open = std::any_of(map.blocks.begin(), map.blocks.end(),
                                    [](const plan::MapBlock& block) { return !block.draft; });
  if (detail == MapDetail::rows && any_open) items.push_back({"rows", kLeaf, talk("legend.rows")});
  if (detail == MapDetail::fills && any_open) items.push_back({"fill", kLeaf, talk("legend.fill")});
  if (std::any_of(map.blocks.begin(), map.blocks.end(),
                  [](const plan::MapBlock& block) { return block.draft; }))
    items.push_back({"draft", kClay, talk("legend.draft")});
  if (!map.water_lines.empty()) items.push_back({"water", kWater, talk("legend.water")});
  if (!map.firebreaks.empty()) items.push_back({"firebreak", kClay, talk("legend.firebreak")});
  if (!map.pegs.empty()) items.push_back({"peg", kInk, talk("legend.peg")});
  for (const MarkSign& sign : kMarkSigns)
    if (std::any_of(map.marks.begin(), map.marks.end(),
                    [&sign](const plan::MapMark& m) { return m.sign == sign.sign; }))
      items.push_back({sign.symbol, kInk, talk(std::string("legend.") + sign.symbol)});
  return items;
}

void draw_key(Canvas& canvas, const LegendItem& item, const Box& box) {
  const double middle = box.y + box.height / 2;
  const std::vector<std::vector<Point>> rings{{{box.x, box.y},
                                               {box.x + box.width, box.y},
                                               {box.x + box.width, box.y + box.height},
                                               {box.x, box.y + box.height}}};
  if (item.symbol == "water")
    return draw_water(canvas, {{box.x, middle}, {box.x + box.width, middle}});
  if (item.symbol == "firebreak")
    return draw_firebreak(canvas, {{box.x, middle}, {box.x + box.width, middle}});
  if (item.symbol == "rows") {
    for (int i = 0; i < 3; ++i)
      canvas.line({box.x, middle - 3 + 3 * i}, {box.x + box.width, middle - 3 + 3 * i},
                  {0.6, item.ink, {}});
    return;
  }
  if (item.symbol == "fill") canvas.fill_rings(rings, item.ink, 0.30);
  if (item.symbol == "draft") canvas.hatch_rings(rings, 6, {0.8, item.ink, {}});
  if (item.symbol == "edge" || item.symbol == "fill" || item.symbol == "draft") {
    canvas.polyline(rings[0], {1.2, kInk, {}}, true);
    return;
  }
  canvas.symbol(item.symbol, {box.x + box.width / 2, middle}, 10, item.ink);
}

void draw_marks(Canvas& canvas, const plan::MapPicture& map, const Fit& fit) {
  for (const plan::SheetPeg& peg : map.pegs) {
    const Point at = fit(peg.at);
    canvas.symbol("peg", {at.x, at.y - 5}, 11);
  }
  for (const plan::MapMark& mark : map.marks) {
    const Point at = fit(mark.at);
    canvas.disc(at, 7, kPaper);
    const auto sign =
        std::find_if(kMarkSigns.begin(), kMarkSigns.end(),
                     [&mark](const MarkSign& each) { return each.sign == mark.sign; });
    canvas.symbol(sign->symbol, at, 12);
    canvas.text(at.x + 8, at.y - 6, 120, mark.label, {Face::sans, 9.5});
  }
}

}  // namespace

bool map_is_empty(const plan::MapPicture& map) {
  Extent extent;
  for (const plan::MapBlock& block : map.blocks) extent.add(block.shape);
  return extent.empty;
}

MapDetail map_detail(const plan::MapPicture& map) {
  std::size_t seedlings = 0;
  for (const plan::MapBlock& block : map.blocks) {
    seedlings +=
        std::max(block.groups.size(), static_cast<std::size_t>(std::max(block.seedlings, 0)));
  }
  const bool points =
      std::any_of(map.blocks.begin(), map.blocks.end(),
                  [](const plan::MapBlock& block) { return !block.groups.empty(); });
  if (points && seedlings <= plan::kMapPointLimit) return MapDetail::seedlings;
  return without_symbols(map);
}

MapDrawing draw_map(Canvas& canvas, const Talk& talk, const plan::MapPicture& map, const Box& box) {
  const double inset = std::min(16.0, box.height / 12);
  const Fit fit(extent_of(map),
                {box.x + inset, box.y + inset, box.width - 2 * inset, box.height - 2 * inset});
  MapDrawing drawn{fit.pt_per_m(), MapDetail::fills, false};
  const double size = symbol_size(map, fit);
  drawn.detail = detail_at(map, fit, size);
  canvas.clip(box);
  for (const plan::SheetLine& line : map.water_lines) draw_water(canvas, fit(line));
  for (const plan::MapBlock& block : map.blocks) draw_block(canvas, block, fit, drawn.detail, size);
  for (const plan::SheetLine& line : map.firebreaks) draw_firebreak(canvas, fit(line));
  draw_marks(canvas, map, fit);
  drawn.codes_left_out = label_blocks(canvas, map.blocks, fit);
  canvas.unclip();
  canvas.frame(box, {0.8, kInk, {}});
  draw_north(canvas, talk, {box.x + box.width - 16, box.y + 18}, 24);
  return drawn;
}

double draw_legend(Canvas& canvas, const Talk& talk, const plan::MapPicture& map,
                   const MapDrawing& drawn, const Box& box, int columns) {
  const auto items = legend_items(talk, map, drawn.detail);
  const std::size_t lines =
      (items.size() + static_cast<std::size_t>(columns) - 1) / static_cast<std::size_t>(columns);
  const double wide = box.width / columns;
  double lowest = 0;
  double y = box.y;
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (i % lines == 0) y = box.y;
    const double x = box.x + static_cast<double>(i / lines) * wide;
    draw_key(canvas, items[i], {x, y + 2.5, 20, 9});
    y += std::max(canvas.text(x + 26, y, wide - 32, items[i].words, {Face::sans, 9.5}), 13.0) + 1.5;
    lowest = std::max(lowest, y - box.y);
  }
  if (drawn.codes_left_out)
    lowest += canvas.text(box.x, box.y + lowest, box.width, talk("legend.codes_left_out"),
                          {Face::sans, 9.5});
  return lowest;
}

std::string coordinate_system(const Talk& talk, const plan::MapPicture& map) {
  return talk("coordinate_system", {{"origin", talk.coordinates(map.origin)}});
}

}  // namespace wildling::paper
