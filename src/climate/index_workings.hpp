#pragma once
/// Workings of one year's figures: sums and maxima of its months.
#include "base/workings.hpp"
#include "climate/indices.hpp"

namespace wildling::climate {

/// Keys "climate/year/YEAR/NAME" with NAME = total, prcptot, wet_days, sdii, rx1day, rx5day, r10,
/// r20, cdd, cwd, r95ptot, tmax, tmin; months below it, "climate/year/YEAR/NAME/MONTH".
void add_year_workings(Workings& workings, const WeatherBook& book, const YearIndices& year,
                       const Parameters& parameters);

}  // namespace wildling::climate
