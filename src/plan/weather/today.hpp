#pragma once
/// Is today a planting day, block by block; what waiting costs; fire, heat and the kinder hours:
/// what a field manager reads at six in the morning.
#include "plan/ask.hpp"
#include "plan/weather/verdicts.hpp"

namespace wildling::plan::weather {

Reply today_reply(const store::Store& store, const Entries& entries, Date today,
                  const Progress& progress);

/// The first line.
Message today_answer(const Verdicts& verdicts);

/// Blocks grouped by their first reason: "B1, B2 and 3 others:", then the reason.
std::vector<Message> reason_lines(const Verdicts& verdicts);

/// In how many past years, season, hindcast, distance of the gauge.
std::vector<Message> years_lines(Workings& workings, const Scene& scene, const Verdicts& verdicts);

/// The safe act where it cannot be told, and the cheapest look that would settle it.
std::vector<Message> settle_lines(Workings& workings, const Scene& scene, const Verdicts& verdicts);

}  // namespace wildling::plan::weather
