#pragma once
/// Plant, wait, not this season or no advice, block by block: the gates that people answered,
/// today's soil, and the years of the log. Every gate is a node; the verdict is plant when all
/// are 1.
#include <map>

#include "climate/outlook.hpp"
#include "climate/planting_window.hpp"
#include "plan/weather/figures.hpp"
#include "plan/weather/scene.hpp"

namespace wildling::plan::weather {

struct BlockAdvice {
  const ground::Block* block = nullptr;
  bool wet_ground = false;
  climate::SoilSeen soil = climate::SoilSeen::not_looked;
  climate::PlantVerdict verdict = climate::PlantVerdict::wait;
  std::vector<Message> reasons = {};  ///< every closed gate, the weightiest first; empty: plant
  bool settled_by_a_look = false;     ///< only gates are closed that nobody answered
  std::string plant_key = {};         ///< node: 1 = plant
  std::optional<int> good = {}, of = {};
  std::string good_key = {}, of_key = {};
};

struct Verdicts {
  std::vector<BlockAdvice> blocks = {};
  std::map<climate::SoilSeen, climate::Outlook> outlooks = {};  ///< of the soils that occur
  climate::PlantingWindow window = {};
  std::optional<int> days_to_window = {};  ///< 0 = inside; empty: no window is told

  [[nodiscard]] int count(climate::PlantVerdict verdict) const;
};

/// @param workings  gets the gates, the outlooks and "weather/today/plant", "weather/today/blocks"
Verdicts verdicts(const Scene& scene, const std::vector<const ground::Block*>& blocks,
                  Workings& workings);

/// The outlook as if the soil were so; refused without a log.
climate::Outlook outlook_of(const Scene& scene, climate::SoilSeen soil);

/// "weather/outlook/dry/".
std::string outlook_prefix(climate::SoilSeen soil);

}  // namespace wildling::plan::weather
