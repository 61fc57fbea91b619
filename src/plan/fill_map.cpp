#include <algorithm>

#include "base/parallel.hpp"
#include "plan/fill_parts.hpp"
#include "plan/fill_sheets.hpp"
#include "plan/letter.hpp"

namespace wildling::plan {
namespace {

enum class Detail { points, rows, fills };

Detail detail_of(const PlanResult& plan) {
  std::size_t seedlings = 0, rows = 0;
  for (const BlockPart& part : plan.blocks) {
    seedlings += static_cast<std::size_t>(part.planted);
    rows += static_cast<std::size_t>(part.rows);
  }
  if (seedlings <= kMapPointLimit) return Detail::points;
  return rows <= kMapRowLimit ? Detail::rows : Detail::fills;
}

ground::Frame common_frame(const PlanResult& plan) {
  ground::Shape whole;
  for (const BlockPart& part : plan.blocks)
    whole.parts.insert(whole.parts.end(), part.block.shape.parts.begin(),
                       part.block.shape.parts.end());
  return ground::Frame(ground::middle(whole));
}

/// From one frame's metres to another's.
struct Move {
  const ground::Frame& from;
  const ground::Frame& to;

  [[nodiscard]] ground::Xy operator()(ground::Xy at) const { return to.to_xy(from.to_lonlat(at)); }
};

void put_points(MapBlock& block, const BlockLayout& laid, const PlanResult& plan,
                const Move& move) {
  for (std::size_t i = 0; i < laid.species.size(); ++i) {
    if (laid.species[i] >= plan.species.size()) continue;
    const ground::Xy at = move(laid.places.at(i));
    block.seedling_x_m.push_back(static_cast<float>(at.x_m));
    block.seedling_y_m.push_back(static_cast<float>(at.y_m));
    block.groups.push_back(sheet_group(plan.species[laid.species[i]].group));
  }
}

void put_rows(MapBlock& block, const BlockLayout& laid, const Move& move) {
  for (const layout::Row& row : laid.places.rows) {
    block.rows.push_back({sheet_xy(move(laid.places.at(row.first))),
                          sheet_xy(move(laid.places.at(row.first + row.count - 1)))});
  }
}

// Rows stand beside the points: the paper takes them where points would run together.
MapBlock map_block(const BlockPart& part, const PlanResult& plan, const ground::Frame& frame,
                   Detail detail) {
  MapBlock block;
  block.code = part.block.code;
  block.ground_type = part.block.ground_type;
  block.shape = sheet_shape(ground::to_xy(part.block.shape, frame));
  block.area_ha = part.area_ha;
  block.seedlings = static_cast<int>(part.planted);
  block.draft = !part.open;
  if (detail == Detail::fills || !to_be_planted(part)) return block;
  const ground::Frame own = frame_of(plan, part);
  const auto laid = layout_of(part, own);
  const Move move{own, frame};
  if (detail == Detail::points) put_points(block, *laid, plan, move);
  put_rows(block, *laid, move);
  return block;
}

// Each stream once: blocks carry all that pass near them.
void put_water(MapPicture& map, const PlanResult& plan, const ground::Frame& frame) {
  std::vector<const ground::Line*> lines;
  for (const BlockPart& part : plan.blocks) {
    for (const ground::Line& line : part.block.water_lines) {
      const bool there = std::any_of(lines.begin(), lines.end(),
                                     [&](const ground::Line* known) { return *known == line; });
      if (!there) lines.push_back(&line);
    }
  }
  for (const ground::Line* line : lines)
    map.water_lines.push_back(sheet_line(ground::to_xy(*line, frame)));
}

}  // namespace

MapPicture map_picture(const PlanResult& plan) {
  const ground::Frame frame = common_frame(plan);
  const Detail detail = detail_of(plan);
  MapPicture map;
  map.stamp = stamp_of(plan);
  map.title = plan.head.programme;
  map.finding = answer(plan);
  map.origin = {frame.origin().lon_deg, frame.origin().lat_deg};
  map.blocks.resize(plan.blocks.size());
  parallel_for(plan.blocks.size(), 1, 0, [&](std::size_t begin, std::size_t end) {
    for (std::size_t i = begin; i < end; ++i)
      map.blocks[i] = map_block(plan.blocks[i], plan, frame, detail);
  });
  put_water(map, plan, frame);
  return map;
}

}  // namespace wildling::plan
