#pragma once
#include "base/parameters.hpp"
#include "climate/normals.hpp"
#include "climate/planting_window.hpp"
#include "plan/programme.hpp"
#include "plan/result.hpp"

namespace wildling::plan {

/// The days that nursery and tending hang on.
struct PlantingDays {
  Date first = {}, last = {};
  bool assumed =
      false;  ///< no window can be told from the log: the wettest month stands in, and is said to
};

/// The window of the log as a part of the result, with the days of its next occurrence from today.
WindowPart window_part(const Programme& programme, Date today);

/// The season of the whole order: the running window when every seedling of it stands ready, else
/// the first that begins when what must be raised can be fit to plant (plan.raise_months from
/// today). A running window is kept in `open_until` for the seedlings that are ready.
void choose_season(WindowPart& window, bool all_ready, const Parameters& parameters, Date today);

PlantingDays planting_days(const WindowPart& window, const Programme& programme, Date today);

/// Normals of the log; all missing without one.
std::array<climate::MonthNormal, 12> normals_of(const Programme& programme);

}  // namespace wildling::plan
