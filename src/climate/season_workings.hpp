#pragma once
/// Workings of the season: seasonality, dry months, start of the search, and onset and end of the
/// rains by each definition.
#include "base/workings.hpp"
#include "climate/season.hpp"

namespace wildling::climate {

/// Name of a definition in keys and words: "sivakumar", "stern", "accumulated", "anomaly".
std::string_view onset_name(OnsetDefinition definition);

/// Keys: "climate/season/seasonality", "/dry_months", "/start_month"; "climate/season/YEAR/onset/
/// NAME", "climate/season/YEAR/end/dry_run" and ".../end/anomaly": days after the start of the
/// search; "climate/season/onset/NAME/years", ".../middle", ".../earliest", ".../latest". The days
/// of `open_year` (default: the newest with an onset) are added, so that its onsets and ends
/// evaluate; those of other years are leaves. Nothing but seasonality and dry months when no season
/// is told.
void add_season_workings(Workings& workings, const WeatherBook& book, const SeasonResult& season,
                         const Parameters& parameters, std::optional<int> open_year = {});

}  // namespace wildling::climate
