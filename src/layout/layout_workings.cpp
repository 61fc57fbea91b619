#include "layout/layout_workings.hpp"

#include <cmath>
#include <numbers>
#include <string>
#include <utility>

namespace wildling::layout {
namespace {

class Block {
 public:
  explicit Block(std::string_view code) : code_(code) {}

  std::string leaf(const char* name, double value, const char* unit, Origin origin,
                   const char* note) {
    return add(name, value, unit, origin, "", {}, note);
  }

  std::string computed(const char* name, double value, const char* unit, const char* formula,
                       std::vector<std::string> inputs) {
    return add(name, value, unit, Origin::computed, formula, std::move(inputs), "");
  }

  Workings take() { return std::move(workings_); }

 private:
  std::string add(const char* name, double value, const char* unit, Origin origin,
                  const char* formula, std::vector<std::string> inputs, const char* note) {
    return workings_.add({.key = "layout/" + code_ + "/" + name,
                          .label = say(std::string("layout.workings.") + name, {{"block", code_}}),
                          .value = value,
                          .unit = unit,
                          .origin = origin,
                          .formula = formula,
                          .source = "",
                          .note = note,
                          .inputs = std::move(inputs)});
  }

  std::string code_;
  Workings workings_;
};

constexpr const char* kDrawn = "result of drawing the grid inside the block's boundary";
constexpr const char* kByManager = "grid chosen for this block";

std::string add_density(Block& block, const Grid& grid) {
  const std::string a = block.leaf("spacing", grid.spacing_m, "m", Origin::chosen, kByManager);
  const double equilateral = grid.spacing_m * (std::numbers::sqrt3 / 2);
  const bool triangle = grid.pattern == Pattern::triangular && grid.row_spacing_m == equilateral;
  const std::string b =
      triangle ? block.computed("row_spacing", equilateral, "m", "layout.triangle_rows", {a})
               : block.leaf("row_spacing", grid.row_spacing_m, "m", Origin::chosen, kByManager);
  return block.computed("density", density_per_ha(grid), "places/ha", "layout.density", {a, b});
}

}  // namespace

const Formulas& formulas() {
  static const Formulas all = {
      {"layout.triangle_rows", "row spacing = spacing sqrt(3) / 2",
       "height of an equilateral triangle",
       [](std::span<const double> x) { return x[0] * (std::numbers::sqrt3 / 2); }},
      {"layout.density", "places per ha = 10,000 / (spacing x row spacing)",
       "10,000 m2 in a hectare",
       [](std::span<const double> x) { return 10'000.0 / (x[0] * x[1]); }},
      {"layout.usable_area", "usable = block - lost at the edge - lost at water", "",
       [](std::span<const double> x) { return x[0] - x[1] - x[2]; }},
      {"layout.expected_places", "expected places = usable area / 10,000 x density", "",
       [](std::span<const double> x) { return x[0] / 10'000.0 * x[1]; }},
      {"layout.difference", "a - b", "", [](std::span<const double> x) { return x[0] - x[1]; }},
      {"layout.planted_per_ha", "planted per ha = planted / block area x 10,000", "",
       [](std::span<const double> x) { return x[1] > 0 ? x[0] / x[1] * 10'000.0 : 0.0; }},
  };
  return all;
}

Workings layout_workings(std::string_view block_code, const Places& places,
                         const Assignment& assignment) {
  Block block(block_code);
  const Grid& grid = places.grid;
  const std::string density = add_density(block, grid);
  block.leaf("setback_edge", grid.setback_edge_m, "m", Origin::chosen, kByManager);
  block.leaf("setback_water", grid.setback_water_m, "m", Origin::chosen, kByManager);
  const std::string area =
      block.leaf("area", places.block_area_m2, "m2", Origin::measured, "boundary as taken in");
  const std::string edge =
      block.leaf("lost_at_edge", places.lost_at_edge_m2, "m2", Origin::chosen, kDrawn);
  const std::string water =
      block.leaf("lost_at_water", places.lost_at_water_m2, "m2", Origin::chosen, kDrawn);
  const double usable_m2 = places.block_area_m2 - places.lost_at_edge_m2 - places.lost_at_water_m2;
  const std::string usable =
      block.computed("usable", usable_m2, "m2", "layout.usable_area", {area, edge, water});
  const auto n = static_cast<double>(places.size());
  block.computed("expected", usable_m2 / 10'000.0 * density_per_ha(grid), "places",
                 "layout.expected_places", {usable, density});
  const std::string drawn = block.leaf("places", n, "places", Origin::chosen, kDrawn);
  const auto planted_n = static_cast<double>(assignment.planted);
  const std::string planted =
      block.leaf("planted", planted_n, "seedlings", Origin::chosen, "shares of the mix");
  block.computed("empty", n - planted_n, "places", "layout.difference", {drawn, planted});
  const double per_ha =
      places.block_area_m2 > 0 ? planted_n / places.block_area_m2 * 10'000.0 : 0.0;
  block.computed("planted_per_ha", per_ha, "seedlings/ha", "layout.planted_per_ha",
                 {planted, area});
  block.leaf("like_pairs", static_cast<double>(assignment.like_pairs), "pairs", Origin::chosen,
             "counted after the species were laid out");
  return block.take();
}

}  // namespace wildling::layout
