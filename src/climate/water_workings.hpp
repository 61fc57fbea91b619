#pragma once
/// Water in ball and hole over some days, day by day, and its workings.
#include <limits>
#include <vector>

#include "base/workings.hpp"
#include "climate/pit_balance.hpp"
#include "climate/weather.hpp"

namespace wildling::climate {

struct WaterDay {
  Date day = {};
  double rain_mm = 0, et0_mm = 0;   ///< as the balance takes them
  bool rain_missing = false;        ///< counted as dry
  double ball_mm = 0, hole_mm = 0;  ///< at the end of the day
  /// Evaporation by Hargreaves (FAO-56 eq. 52) as a check on et0_mm; NaN without temperatures or
  /// latitude. Uncalibrated: it often says more in humid air.
  double hargreaves_mm = std::numeric_limits<double>::quiet_NaN();
  double ks = 1;  ///< 1 = no stress
  PitFluxes fluxes = {};
};

/// Balance from full stores on the first day of the log to `to`; the days from `from` on are given.
/// Days after the log's end count as dry at the last day's evaporation (at most
/// climate.log.old_after_days of them; later days are left out).
std::vector<WaterDay> water_days(const WeatherBook& book, Date from, Date to,
                                 const Parameters& parameters);

/// `days` must be water_days(book, ...). Keys: "climate/water/DATE/ball", "/hole", "/ks",
/// "/hargreaves"; evaporation of a day under "climate/et0/DATE/et0" or what stands in for it; the
/// day before the first is the start.
void add_water_workings(Workings& workings, const WeatherBook& book,
                        const std::vector<WaterDay>& days, const Parameters& parameters);

}  // namespace wildling::climate
