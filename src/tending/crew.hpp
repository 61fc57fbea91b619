#pragma once
#include <array>
#include <span>

#include "tending/planting_work.hpp"

namespace wildling::tending {

/// People and loads of a planting window.
struct CrewNeed {
  double trees = 0;
  double slope_factor = 1;
  int calendar_days = 0;
  double work_days = 0;                 ///< rest days and rain days taken out
  PersonDays pits, carrying, planting;  ///< planting with distributors
  double carries = 0;                   ///< loads on somebody's back
  int crates = 0;                       ///< of tending.crate.seedlings each
  int trips = 0;                        ///< of a vehicle with tending.trip.crates crates
  double load_t = 0;                    ///< weight of all seedlings
  int people_planting = 0;              ///< planters, distributors and carriers, every working day
  int distributors = 0;
  int people_with_pits = 0;  ///< when the pits are dug in the window too
  bool pits_before = true;
};

/// Crew for planting `trees` between two days, both inside.
/// @throws Error{input} when trees are negative or the window is empty
CrewNeed crew_for(double trees, Date first, Date last, double slope,
                  const std::array<climate::MonthNormal, 12>& normals,
                  const Parameters& parameters);

}  // namespace wildling::tending
