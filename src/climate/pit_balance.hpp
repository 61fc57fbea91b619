#pragma once
/// Water in a seedling's root ball and in its planting hole, day by day.
///
/// Two stores, each a depletion balance of FAO-56 (Allen et al. 1998, eq. 82 to 88) drained before
/// the day's evaporation (as the paper's Example 38):
///  - ball: fed by the rain on its own footprint; the seedling takes Kc ET0 Ks from it (eq. 81,
///  84);
///  - hole: the loosened soil around and under the ball; fed by the rain on the rest of the hole
///  and by what the
///    ball cannot hold; loses soil evaporation Ke ET0 (eq. 71, 74) from its bare ring; overflow
///    percolates.
/// Between them water moves from the relatively wetter to the drier, a stated share per day. Roots
/// are taken to stay in the ball for the whole time, which is cautious. Off for peat and flooded
/// ground: there the water table decides.
#include <span>
#include <vector>

#include "base/parameters.hpp"
#include "climate/weather.hpp"

namespace wildling::climate {

/// Derived from climate.ball.*, climate.hole.* and climate.rain.lost_below_et0_share; depths in mm
/// over the own area.
struct PitSettings {
  double ball_holds_mm = 0;         ///< TAW of the ball
  double ball_easy_mm = 0;          ///< RAW
  double crop_factor = 1;           ///< Kc of the seedling over its ball's footprint
  double hole_holds_mm = 0;         ///< TAW of the hole's soil without the ball
  double evaporable_mm = 0;         ///< TEW, eq. 73
  double freely_evaporable_mm = 0;  ///< REW
  double soil_factor = 1;           ///< Ke of the bare wet ring, times mulch
  double ball_area_share = 0;       ///< ball's footprint over the hole's
  double exchange_per_day = 0;
  double rain_lost_share = 0.2;  ///< rain below this share of ET0 does not count
};

/// The numbers behind it, in the units of their parameters.
struct PitNumbers {
  double ball_depth_m = 0, ball_width_m = 0, ball_water_share = 0, crop_factor = 0, easy_share = 0;
  double hole_width_m = 0, hole_depth_m = 0, field_capacity = 0, wilting_point = 0;
  double evaporation_depth_m = 0, readily_evaporable_mm = 0;
  double bare_soil_factor = 0, mulch_factor = 0, exchange_per_day = 0, rain_lost_share = 0;
};

PitNumbers pit_numbers(const Parameters& parameters);
/// @throws Error{input} when the ball does not fit into the hole or a water content is senseless
PitSettings pit_settings(const PitNumbers& numbers);
PitSettings pit_settings(const Parameters& parameters);

struct PitDay {
  double ball_mm = 0;  ///< usable water in the ball at the end of the day, [0, ball_holds_mm]
  double hole_mm = 0;  ///< [0, hole_holds_mm]
};

/// What passed on one day, for tests of conservation and for workings; mm over the ball's or hole's
/// own area.
struct PitFluxes {
  double rain_mm = 0;  ///< that counted
  double ks = 1;
  double uptake_mm = 0;         ///< ball's area
  double ball_overflow_mm = 0;  ///< ball's area, into the hole
  double to_ball_mm = 0;        ///< ball's area, from the hole; negative = back
  double kr = 1;
  double evaporation_mm = 0;  ///< hole's area
  double percolation_mm = 0;  ///< hole's area
};

/// Moves `day` on by one day. rain_mm and et0_mm must be known.
PitFluxes pit_step(PitDay& day, double rain_mm, double et0_mm, const PitSettings& settings);

/// Rain as the balance takes it: a missing day is 0, a total over several days stands on its last
/// day.
std::vector<double> rain_to_use(const DailyWeather& daily);

struct PitSeries {
  std::vector<double> ball_mm, hole_mm;  ///< end of each day
  std::vector<double> ks;                ///< 1 = no stress
};

/// From full stores on the first day. A missing day counts as dry; a total over several days on its
/// last day.
PitSeries pit_balance(const DailyWeather& daily, std::span<const double> et0_mm,
                      const PitSettings& settings);

}  // namespace wildling::climate
