#pragma once
/// Fire class of today from the log, the weekly walk, the dip well and the manager's word.
#include "climate/fire.hpp"
#include "plan/weather/figures.hpp"
#include "plan/weather/scene.hpp"

namespace wildling::plan::weather {

struct FireToday {
  climate::FireInputs inputs = {};
  climate::FireResult result = {};
};

/// Readings that are too old count as not taken; then the class is that of the fuels that can be
/// judged.
FireToday fire_today(const Scene& scene);

/// Class, each fuel's reason, what was raised, what is not known; with workings.
std::vector<Message> fire_lines(Workings& workings, const Scene& scene, const FireToday& fire);

Reply fire_reply(const store::Store& store, const Entries& entries, Date today,
                 const Progress& progress);

}  // namespace wildling::plan::weather
