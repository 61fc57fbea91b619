#include "tending/crew.hpp"

#include <cmath>

#include "base/error.hpp"

namespace wildling::tending {
namespace {

int rounded_up(double value) {
  return static_cast<int>(std::ceil(value - 1e-9));
}

}  // namespace

CrewNeed crew_for(double trees, Date first, Date last, double slope,
                  const std::array<climate::MonthNormal, 12>& normals,
                  const Parameters& parameters) {
  if (!(trees >= 0) || last < first) {
    throw Error(ErrorKind::input, "", say("tending.crew_impossible", {{"trees", trees}}));
  }
  CrewNeed need;
  need.trees = trees;
  need.slope_factor = slope;
  need.calendar_days = static_cast<int>((last - first).count()) + 1;
  need.work_days = working_days(first, last, normals, parameters);
  need.pits = person_days(trees, rate("pits", parameters)) * slope;
  need.carries = trees / seedlings_per_carry(parameters);
  need.carrying = person_days(need.carries, rate("carries", parameters)) * slope;
  const double per = parameters.value("tending.planters_per_distributor");
  need.planting = person_days(trees, rate("plant", parameters)) * (slope * (1 + 1 / per));
  need.crates = rounded_up(trees / parameters.value("tending.crate.seedlings"));
  need.trips = rounded_up(need.crates / parameters.value("tending.trip.crates"));
  need.load_t = trees * parameters.value("tending.carry.seedling_kg") / 1000;
  if (need.work_days > 0) {
    need.people_planting = rounded_up((need.carrying.used + need.planting.used) / need.work_days);
    need.people_with_pits =
        rounded_up((need.carrying.used + need.planting.used + need.pits.used) / need.work_days);
    need.distributors = rounded_up(need.planting.used / (1 + per) / need.work_days);
  }
  return need;
}

}  // namespace wildling::tending
