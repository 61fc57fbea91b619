#include <algorithm>
#include <mutex>

#include "base/error.hpp"
#include "paper/fonts.hpp"
#include "paper/map_drawing.hpp"
#include "paper/paper.hpp"

namespace wildling::paper {
namespace {

constexpr double kPixelsPerPoint = 3;
constexpr double kEdge = 24;

struct Size {
  double width = kA4Short, height = kA4Long;
};

Size size_for(const plan::MapPicture& map) {
  if (map_is_empty(map)) throw Error(ErrorKind::usage, "", say("paper.nothing_to_draw"));
  Extent extent;
  for (const plan::MapBlock& block : map.blocks) extent.add(block.shape);
  const bool lying = extent.east - extent.west > 1.05 * (extent.north - extent.south);
  return lying ? Size{kA4Long, kA4Short} : Size{};
}

// Caption below the map: finding, totals, coordinate system. @return height
double write_caption(Canvas& canvas, const Talk& talk, const plan::MapPicture& map,
                     const Box& box) {
  double area = 0;
  std::int64_t seedlings = 0, drafts = 0;
  for (const plan::MapBlock& block : map.blocks) {
    area += block.area_ha;
    if (block.draft) {
      ++drafts;
    } else {
      seedlings += block.seedlings;
    }
  }
  std::string said = map.finding ? talk(*map.finding) + " " : "";
  said += talk("map_totals", {{"blocks", static_cast<std::int64_t>(map.blocks.size())},
                              {"area", talk.number(area, 1)},
                              {"seedlings", seedlings}});
  if (drafts > 0) said += " " + talk("map_drafts", {{"blocks", drafts}});
  double y = box.y;
  y += canvas.text(box.x, y, box.width, said, {Face::serif, 11}) + 2;
  y += canvas.text(box.x, y, box.width, coordinate_system(talk, map), {Face::sans, 9.5});
  return y - box.y;
}

double write_title(Canvas& canvas, const Talk& talk, const plan::MapPicture& map, double width_pt) {
  const double wide = width_pt - 2 * kEdge;
  double y = kEdge - 4;
  y += canvas.text(kEdge, y, wide, map.title, {Face::serif, 19, true});
  y += canvas.text(kEdge, y, wide,
                   talk("stamp_with_plan", {{"programme", map.stamp.programme},
                                            {"plan", std::int64_t{map.stamp.plan_number}},
                                            {"day", map.stamp.made_on}}),
                   {Face::sans, 10.5});
  if (map.stamp.invented_figures)
    y += canvas.text(kEdge, y, wide, talk("invented"), {Face::sans, 10.5, true});
  return y + 5;
}

// Everything below the map, from y downward. @return height
double write_below(Canvas& canvas, const Talk& talk, const plan::MapPicture& map,
                   const MapDrawing& drawn, double y, const Size& size) {
  const double wide = size.width - 2 * kEdge, top = y;
  draw_scale_bar(canvas, talk, {kEdge, y + 2}, drawn.pt_per_m, 130);
  y += std::max(write_caption(canvas, talk, map, {kEdge + 190, y - 2, wide - 190, 0}) + 6, 34.0);
  y += draw_legend(canvas, talk, map, drawn, {kEdge, y, wide, 0}, size.width > size.height ? 4 : 3);
  return y - top;
}

void draw_picture(Canvas& canvas, const Talk& talk, const plan::MapPicture& map, const Size& size) {
  const double top = write_title(canvas, talk, map, size.width);
  Canvas scratch = Canvas::blank();  // to know what the words need
  const double below = write_below(scratch, talk, map, {1, map_detail(map), true}, 0, size) + 6;
  const Box box{kEdge, top, size.width - 2 * kEdge, size.height - top - below - kEdge + 4};
  const MapDrawing drawn = draw_map(canvas, talk, map, box);
  write_below(canvas, talk, map, drawn, top + box.height + 6, size);
}

std::string picture(Canvas canvas, const plan::MapPicture& map, const Words& words,
                    const Size& size) {
  draw_picture(canvas, Talk(words), map, size);
  return canvas.finish();
}

}  // namespace

std::string map_picture_png(const plan::MapPicture& map, const Words& words) {
  const std::scoped_lock lock(drawing_mutex());
  const Size size = size_for(map);
  return picture(Canvas::png(size.width, size.height, kPixelsPerPoint), map, words, size);
}

std::string map_picture_svg(const plan::MapPicture& map, const Words& words) {
  const std::scoped_lock lock(drawing_mutex());
  const Size size = size_for(map);
  return picture(Canvas::svg(size.width, size.height), map, words, size);
}

}  // namespace wildling::paper
