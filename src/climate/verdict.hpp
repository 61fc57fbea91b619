#pragma once
/// Plant, wait, or not this season: a gate that opens only when every answer is yes.
#include <optional>
#include <vector>

#include "base/message.hpp"
#include "base/parameters.hpp"
#include "climate/day_curve.hpp"
#include "climate/outlook.hpp"

namespace wildling::climate {

/// Today's answers for one block; empty = not answered, which is no.
struct PlantingGate {
  std::optional<bool> consent, strip_cleared, pits_dug, stock_ready, pit_drains, river_not_rising,
      crew_and_way_in;
  SoilSeen soil = SoilSeen::not_looked;
  bool peat_or_flooded = false;       ///< the balance is off: advice comes from the water itself
  std::optional<bool> water_falling;  ///< peat or flooded ground: staff gauge or dip well
  std::optional<bool> rewetted;       ///< peat: never before
};

enum class PlantVerdict { plant, wait, not_this_season, no_advice };

struct PlantingAdvice {
  PlantVerdict verdict = PlantVerdict::wait;
  Message first_line;            ///< verdict and its first reason in one sentence
  std::vector<Message> reasons;  ///< every closed gate
  std::vector<Message> stock;    ///< what to do with the seedlings meanwhile
};

/// @param window  the recommended window of the year; not found = no judgement by season
PlantingAdvice planting_advice(const PlantingGate& gate, const Outlook& outlook,
                               const PlantingWindow& window, const Parameters& parameters);

/// Strain of the first 24 hours by planting hour: deficit summed with weights that halve every
/// climate.kinder.half_h.
struct KinderHour {
  int hour = 0;
  double strain_kpa_h = 0;
};

struct KinderHours {
  std::vector<KinderHour> hours;  ///< inside the safe working hours
  int best_hour = -1;
  double best_over_worst = 1;  ///< how little or much the hour matters
  std::vector<Message>
      notes;  ///< watering pots and shading the truck matter more; late afternoon is custom
};

KinderHours kinder_hours(const DayHours& day, const Parameters& parameters);

}  // namespace wildling::climate
