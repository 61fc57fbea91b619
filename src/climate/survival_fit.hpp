#pragma once
/// May the chance of weather be called a chance of survival? Only once the programme's own counts
/// by planting date bear it out: plantings after which the log brought a killing dry spell must
/// have kept fewer seedlings than those without.
#include <vector>

#include "base/message.hpp"
#include "base/parameters.hpp"
#include "climate/weather.hpp"

namespace wildling::climate {

/// One planting and its count after the look-ahead.
struct PlantingCount {
  Date planted = {};
  int seedlings = 0, alive = 0;
};

/// Plantings of one kind; the planting is the unit, not the seedling, because seedlings of one day
/// share one fate.
struct PlantingGroup {
  int plantings = 0, seedlings = 0, alive = 0;
  double mean_share = 0, sd_share = 0;  ///< of the plantings' shares alive
};

struct SurvivalFit {
  PlantingGroup spared, met;                 ///< no killing spell came; one came
  int not_judged = 0;                        ///< outside the log, too many gaps, or nothing planted
  double difference = 0, low = 0, high = 0;  ///< spared less met, Welch 95 % limits; 0 if unknown
  bool fits = false;                         ///< low above 0
  Message first_line;
};

/// Refuses below climate.survival.plantings_least plantings of either kind.
SurvivalFit survival_fit(const WeatherBook& book, const std::vector<PlantingCount>& counts,
                         const Parameters& parameters);

/// Expected share alive when `good_share` of the past years brought no killing spell; only for a
/// fit that fits.
double expected_alive(const SurvivalFit& fit, double good_share);

}  // namespace wildling::climate
