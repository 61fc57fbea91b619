#pragma once
/// Water in a seedling's root ball and in its hole over the last weeks, with rain and evaporation.
#include "plan/weather/figures.hpp"
#include "plan/weather/scene.hpp"

namespace wildling::plan::weather {

/// Rain as bars, water of the root ball as a line, the limit of a killing day.
Chart water_chart(const Scene& scene, int days);

Reply water_reply(const store::Store& store, const Entries& entries, Date today,
                  const Progress& progress);

}  // namespace wildling::plan::weather
