#pragma once
/// layout: where each seedling of a block is meant to stand, and which species. In: the block's
/// shape in the site's metric frame, water lines, spacing and row direction, how many of each
/// species. Out: places in rows, one species byte per place with like neighbours kept apart, and a
/// baseline of two pegs from which a crew finds each place with tape and compass. Positions are
/// intentions: crews move to the best spot. Sources: planting density 10,000/(a b), as in any
/// forestry handbook; even skipping after Roberts (2018).
#include "ground/frame.hpp"

namespace wildling::layout {

enum class Pattern {
  square,     ///< places of neighbouring rows stand side by side (also rectangular, when the two
              ///< spacings differ)
  triangular  ///< every other row is shifted by half a spacing
};

/// The rule by which places are drawn. All places lie on one lattice that goes through `anchor`, so
/// blocks of one site that use the same grid and frame continue each other's rows across their
/// common border.
struct Grid {
  Pattern pattern = Pattern::square;
  double spacing_m = 0;      ///< between neighbours in a row, 0.2 to 200
  double row_spacing_m = 0;  ///< between rows, 0.2 to 200
  double row_bearing_deg =
      0;  ///< direction of a row, clockwise from true north at the frame's origin, any finite value
  double setback_edge_m = 0;   ///< no place nearer to the block's edge (holes too), 0 to 1,000
  double setback_water_m = 0;  ///< no place nearer to a water line, 0 to 1,000
  ground::Xy anchor = {};      ///< a lattice point, m in the frame

  bool operator==(const Grid& other) const;
};

/// An equilateral triangular grid: rows lie spacing x sqrt(3)/2 apart.
Grid triangular_grid(double spacing_m, double row_bearing_deg, double setback_edge_m,
                     double setback_water_m);
Grid square_grid(double spacing_m, double row_bearing_deg, double setback_edge_m,
                 double setback_water_m);

/// Places per hectare on open ground without edges: 10,000 / (spacing x row spacing). For an
/// equilateral triangular grid this is 10,000 x 2/sqrt(3)/spacing^2.
double density_per_ha(const Grid& grid);

/// @throws Error{usage} naming the first field that is not finite or outside its range
void check_grid(const Grid& grid);

}  // namespace wildling::layout
