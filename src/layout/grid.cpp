#include "layout/grid.hpp"

#include <cmath>
#include <numbers>

#include "base/error.hpp"

namespace wildling::layout {
namespace {

void check_range(double value, double low, double high, const char* field) {
  if (std::isfinite(value) && value >= low && value <= high) return;
  throw Error(ErrorKind::usage, field,
              say("layout.grid_outside",
                  {{"field", std::string(field)}, {"value", value}, {"low", low}, {"high", high}}));
}

}  // namespace

bool Grid::operator==(const Grid& other) const {
  return pattern == other.pattern && spacing_m == other.spacing_m &&
         row_spacing_m == other.row_spacing_m && row_bearing_deg == other.row_bearing_deg &&
         setback_edge_m == other.setback_edge_m && setback_water_m == other.setback_water_m &&
         anchor.x_m == other.anchor.x_m && anchor.y_m == other.anchor.y_m;
}

Grid triangular_grid(double spacing_m, double row_bearing_deg, double setback_edge_m,
                     double setback_water_m) {
  return {.pattern = Pattern::triangular,
          .spacing_m = spacing_m,
          .row_spacing_m = spacing_m * (std::numbers::sqrt3 / 2),
          .row_bearing_deg = row_bearing_deg,
          .setback_edge_m = setback_edge_m,
          .setback_water_m = setback_water_m,
          .anchor = {}};
}

Grid square_grid(double spacing_m, double row_bearing_deg, double setback_edge_m,
                 double setback_water_m) {
  return {.pattern = Pattern::square,
          .spacing_m = spacing_m,
          .row_spacing_m = spacing_m,
          .row_bearing_deg = row_bearing_deg,
          .setback_edge_m = setback_edge_m,
          .setback_water_m = setback_water_m,
          .anchor = {}};
}

double density_per_ha(const Grid& grid) {
  return 10'000.0 / (grid.spacing_m * grid.row_spacing_m);
}

void check_grid(const Grid& grid) {
  check_range(grid.spacing_m, 0.2, 200, "spacing_m");
  check_range(grid.row_spacing_m, 0.2, 200, "row_spacing_m");
  check_range(grid.row_bearing_deg, -1e6, 1e6, "row_bearing_deg");
  check_range(grid.setback_edge_m, 0, 1000, "setback_edge_m");
  check_range(grid.setback_water_m, 0, 1000, "setback_water_m");
  check_range(grid.anchor.x_m, -1e6, 1e6, "anchor");
  check_range(grid.anchor.y_m, -1e6, 1e6, "anchor");
}

}  // namespace wildling::layout
