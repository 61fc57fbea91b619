#pragma once
/// Heat as a plan of the day, and the hours that are kinder to a seedling, from the newest reading
/// of temperature.
#include "climate/day_workings.hpp"
#include "plan/weather/figures.hpp"
#include "plan/weather/scene.hpp"

namespace wildling::plan::weather {

struct HeatToday {
  std::optional<climate::DayAir> air = {};  ///< empty: no temperature young enough
  climate::HeatPlan plan = {};
  climate::KinderHours kinder = {};
  std::optional<double> usual_worst_c = {};
};

HeatToday heat_today(const Scene& scene);

/// Caution first, then start, finish, whether the day is worse than usual here, new workers. Adds
/// the workings.
std::vector<Message> heat_lines(Workings& workings, const Scene& scene, const HeatToday& heat);
std::vector<Message> kinder_lines(Workings& workings, const Scene& scene, const HeatToday& heat);

/// Hour by hour; days 1 to 5 of new workers. Call after heat_lines.
Table hours_table(const Workings& workings, const HeatToday& heat);
Table new_workers_table(const Workings& workings, const HeatToday& heat);

Reply heat_reply(const store::Store& store, const Entries& entries, Date today,
                 const Progress& progress);

}  // namespace wildling::plan::weather
