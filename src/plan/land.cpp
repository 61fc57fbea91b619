#include "plan/land.hpp"

#include <algorithm>
#include <cmath>

#include "base/error.hpp"
#include "base/parallel.hpp"
#include "ground/advice.hpp"
#include "ground/ground_workings.hpp"

namespace wildling::plan {
namespace {

constexpr double kSquareMetresPerHectare = 10000;

struct Box {
  double west = 1e300, south = 1e300, east = -1e300, north = -1e300;

  void add(ground::Xy p) {
    west = std::min(west, p.x_m);
    east = std::max(east, p.x_m);
    south = std::min(south, p.y_m);
    north = std::max(north, p.y_m);
  }

  [[nodiscard]] bool meets(const Box& other, double within) const {
    return west - within <= other.east && other.west <= east + within &&
           south - within <= other.north && other.south <= north + within;
  }
};

Box box_of(const ground::XyShape& shape) {
  Box box;
  for (const ground::XyPolygon& part : shape) {
    for (const ground::Xy p : part.outer) box.add(p);
  }
  return box;
}

Box box_of(const std::vector<ground::Xy>& line) {
  Box box;
  for (const ground::Xy p : line) box.add(p);
  return box;
}

// One frame per site, at the middle of all its blocks.
std::map<std::string, ground::Frame> frames_of(const std::vector<ground::Block>& blocks) {
  std::map<std::string, ground::Shape> whole;
  for (const ground::Block& block : blocks) {
    auto& parts = whole[block.site].parts;
    parts.insert(parts.end(), block.shape.parts.begin(), block.shape.parts.end());
  }
  std::map<std::string, ground::Frame> frames;
  for (const auto& [site, shape] : whole)
    frames.emplace(site, ground::Frame(ground::middle(shape)));
  return frames;
}

// Nature is enough, or only freeing natural trees is asked for: nothing is planted.
bool plants(const BlockPart& part) {
  return part.method == "plant" || part.method == "not_yet";
}

std::vector<SitePart> sites_of(const std::vector<BlockPart>& blocks,
                               const std::map<std::string, ground::Frame>& frames) {
  std::vector<SitePart> sites;
  for (const BlockPart& part : blocks) {
    auto found = std::find_if(sites.begin(), sites.end(),
                              [&](const SitePart& s) { return s.code == part.block.site; });
    if (found == sites.end()) {
      sites.push_back({.code = part.block.site, .origin = frames.at(part.block.site).origin()});
      found = sites.end() - 1;
    }
    found->area_ha += part.area_ha;
    // Blocks share corners: errors of a site's area are those of its outline, at most the root of
    // summed squares.
    found->area_sd_ha = std::hypot(found->area_sd_ha, part.area_sd_ha);
    ++found->blocks;
    if (part.open) ++found->open_blocks;
  }
  return sites;
}

}  // namespace

BlockPart judge_block(const ground::Block& block, const Parameters& parameters) {
  BlockPart part;
  part.block = block;
  part.area_ha = ground::area_m2(block.shape) / kSquareMetresPerHectare;
  part.area_sd_ha = ground::area_sd_m2(block, parameters) / kSquareMetresPerHectare;
  part.perimeter_m = ground::perimeter_m(block.shape);
  const ground::GateVerdict verdict = ground::judge(block.gates);
  part.open = verdict.open;
  part.reasons = verdict.reasons;
  const ground::Advice advice = ground::advise(block.gates, block.cover, parameters);
  part.method = ground::method_name(advice.method);
  part.method_reasons = advice.reasons;
  return part;
}

layout::Grid grid_of(const Parameters& parameters) {
  return layout::square_grid(
      parameters.value("layout.spacing"), parameters.value("plan.row_bearing_deg"),
      parameters.value("layout.setback_edge"), parameters.value("layout.setback_water"));
}

std::vector<std::vector<ground::Xy>> water_near(const ground::Block& block,
                                                const ground::XyShape& shape,
                                                const ground::Frame& frame, double within_m) {
  std::vector<std::vector<ground::Xy>> near;
  const Box box = box_of(shape);
  for (const ground::Line& line : block.water_lines) {
    auto xy = ground::to_xy(line, frame);
    if (!xy.empty() && box_of(xy).meets(box, within_m)) near.push_back(std::move(xy));
  }
  return near;
}

Land lay_land(const Programme& programme, const Progress& progress) {
  if (programme.blocks.empty()) throw Error(ErrorKind::input, "", say("plan.no_block"));
  const auto frames = frames_of(programme.blocks);
  const layout::Grid grid = grid_of(programme.parameters);
  Land land;
  for (const ground::Block& block : programme.blocks) {
    land.blocks.push_back(judge_block(block, programme.parameters));
    land.laid.push_back({frames.at(block.site), {}, {}, {}});
  }
  parallel_for(
      land.blocks.size(), 4, 0,
      [&](std::size_t begin, std::size_t end) {
        for (std::size_t i = begin; i < end; ++i) {
          LaidLand& laid = land.laid[i];
          laid.shape = ground::to_xy(land.blocks[i].block.shape, laid.frame);
          laid.water =
              water_near(land.blocks[i].block, laid.shape, laid.frame, grid.setback_water_m + 1);
          if (plants(land.blocks[i])) laid.places = layout::places(laid.shape, laid.water, grid);
        }
      },
      progress.stop);
  for (std::size_t i = 0; i < land.blocks.size(); ++i) {
    land.blocks[i].places = static_cast<std::int64_t>(land.laid[i].places.size());
    land.blocks[i].rows = static_cast<int>(land.laid[i].places.rows.size());
  }
  land.sites = sites_of(land.blocks, frames);
  return land;
}

}  // namespace wildling::plan
