#pragma once
/// Workings of the heat plan and of the kinder hours of one day. Both grow from the nodes that
/// add_et0_workings makes of the same day, "climate/et0/DATE/tmax", ".../tmin", ".../ea".
#include "base/workings.hpp"
#include "climate/evaporation.hpp"
#include "climate/heat.hpp"
#include "climate/verdict.hpp"
#include "climate/weather.hpp"

namespace wildling::climate {

/// One day's air: its Et0Day holds Tmax, Tmin, vapour pressure, latitude and day of the year.
struct DayAir {
  Date day = {};
  Et0Day et0 = {};
};

/// Air of the last day on or before `day` that has Tmax and Tmin; empty when there is none or when
/// it is more than climate.log.old_after_days before.
std::optional<DayAir> day_air(const WeatherBook& book, Date day, const Parameters& parameters);

/// The curve of that day.
DayHours day_hours(const DayAir& air, const Parameters& parameters);

/// The plan of that day; `plan` must be heat_plan(day_hours(air), air.et0.ea_kpa, acclimatised,
/// usual). Keys: "climate/heat/DATE/HOUR/temperature", "/humidity", "/heat_index", "/sun_share",
/// "/wbgt_sun", "/wbgt_shade", "/rest_sun", "/rest_shade", "/litres" (HOUR = 7, 8 ...), and
/// "climate/heat/DATE/start", "/finish", "/worst", "/usual", "/day/1/new" to "/day/5/returning"
/// (hours of work allowed).
void add_heat_workings(Workings& workings, const DayAir& air, const Station& station,
                       const HeatPlan& plan, bool acclimatised, std::optional<double> usual_worst_c,
                       const Parameters& parameters);

/// Strain of the first 24 hours by planting hour; `kinder` must be kinder_hours(day_hours(air)).
/// Keys: "climate/kinder/DATE/HOUR/strain", "climate/kinder/DATE/best_hour", "/best_over_worst",
/// and the deficit of each hour, "climate/kinder/DATE/HOUR/vpd".
void add_kinder_workings(Workings& workings, const DayAir& air, const Station& station,
                         const KinderHours& kinder, const Parameters& parameters);

}  // namespace wildling::climate
