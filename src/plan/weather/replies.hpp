#pragma once
/// The weather room's questions other than today, water, fire and heat: one function each, all of
/// the shape of Question::reply.
#include "plan/ask.hpp"

namespace wildling::plan::weather {

/// When do the rains begin and end by each published rule; months; recommended weeks.
Reply season_reply(const store::Store& store, const Entries& entries, Date today,
                   const Progress& progress);

/// Wet and dry days as a chain; dry spells; planting today, in 3, 7 and 14 days.
Reply spells_reply(const store::Store& store, const Entries& entries, Date today,
                   const Progress& progress);

/// Every ten days of the log advised again with only the years before.
Reply hindcast_reply(const store::Store& store, const Entries& entries, Date today,
                     const Progress& progress);

/// Readings worth a second look; weekdays that are skipped.
Reply quality_reply(const store::Store& store, const Entries& entries, Date today,
                    const Progress& progress);

/// Yearly figures, drought indices, trends, breaks.
Reply trend_reply(const store::Store& store, const Entries& entries, Date today,
                  const Progress& progress);

/// Two stations, in the open and under trees.
Reply pair_reply(const store::Store& store, const Entries& entries, Date today,
                 const Progress& progress);

/// Invented days that behave like the log, beside the log.
Reply simulate_reply(const store::Store& store, const Entries& entries, Date today,
                     const Progress& progress);

}  // namespace wildling::plan::weather
