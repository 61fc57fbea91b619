#pragma once
/// What waiting costs: seedlings kept so many days, the water and the work it takes, and what
/// becomes of the stock when this season is over: shade again, space out, cut back, give away.
#include "plan/weather/verdicts.hpp"

namespace wildling::plan::weather {

/// Sentences; the table "stock" goes into `reply`. Nothing when every block is planted today.
std::vector<Message> waiting_cost(Reply& reply, const Scene& scene, const Verdicts& verdicts);

}  // namespace wildling::plan::weather
