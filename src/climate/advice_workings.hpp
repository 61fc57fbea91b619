#pragma once
/// Workings of today's outlook, of trends and of the fire class; formulas are in
/// climate_workings.hpp's formulas().
#include "base/workings.hpp"
#include "climate/fire.hpp"
#include "climate/indices.hpp"
#include "climate/outlook.hpp"

namespace wildling::climate {

/// Good years of planting today and in each delay as a sum of yearly flags, each from today's water
/// and that year's days. Keys: "climate/outlook/ball", "/hole"; "climate/outlook/after/DELAY/
/// good_years", "/judged_years", "/share_low", "/share_high", "/simulated", "/simulated_good",
/// "/YEAR/good"; "climate/outlook/rain_14_days", "/days_since_rain".
void add_outlook_workings(Workings& workings, const WeatherBook& book, const Outlook& outlook,
                          SoilSeen soil, const Parameters& parameters);

/// Statistic, p, slope with limits and break from the yearly values, "climate/trend/total/score",
/// "/p", "/slope", "/slope_low", "/slope_high" (per year), "/ten_years", "/ten_years_low",
/// "/ten_years_high", "/years", "/break_p", "/break_year", "/YEAR".
void add_trend_workings(Workings& workings, const TrendResult& trend, const std::vector<int>& years,
                        const std::vector<double>& values, const Parameters& parameters);

/// Class (0 = not high to 3 = extreme) as the highest of the fuels' and the manager's, each by its
/// rule: "climate/fire/class", "/grass", "/litter", "/peat", "/manager", and what was read,
/// "/days_since_rain", "/humidity", "/cured", "/code", "/index", "/water_table".
void add_fire_workings(Workings& workings, const FireInputs& inputs, const FireResult& result,
                       const Parameters& parameters);

}  // namespace wildling::climate
