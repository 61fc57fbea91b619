#pragma once
/// The light and shade of the ground, made from an elevation model and kept with the programme.
#include "intake/elevation.hpp"
#include "plan/take.hpp"
#include "store/store.hpp"

namespace wildling::plan {

/// What was kept of an elevation model.
struct ElevationKept {
  int columns = 0, rows = 0;
  double cell_m = 0;         ///< side of a pixel on the ground
  double covered_share = 0;  ///< of the sites' ground that has heights
  double lowest_m = 0, highest_m = 0;
};

/// Makes the hillshade of the sites and their surroundings and keeps it; it takes the place of an
/// older one. Findings of the drawing are logged with those of the reading. The plan does not
/// depend on it.
/// @param file  record of the reading; counts and the drawing's findings are added here
/// @throws Error{input} when there is no site yet, or the model has no height on any
ElevationKept take_elevation(store::Store& store, const intake::ElevationFile& elevation,
                             TakenFile file, const Actor& actor);

}  // namespace wildling::plan
