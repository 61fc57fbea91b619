#pragma once
/// Sentences about the log that several questions say: how old it is, the last useful rain, rain of
/// fourteen days, whether the season has begun, what the hindcast found.
#include "climate/outlook.hpp"
#include "climate/season.hpp"
#include "plan/weather/figures.hpp"
#include "plan/weather/scene.hpp"

namespace wildling::plan::weather {

/// Puts "weather/log/age" (days since the last rain reading) into the workings; empty without a
/// reading.
std::optional<std::int64_t> add_log_age(Workings& workings, const Scene& scene);

/// "The newest rain reading is of 24 November, 1 day old." or that there is none.
Message log_age_line(Workings& workings, const Scene& scene);

/// "The last day with 5 mm or more was 20 November, 4 days ago." With the gauge's distance.
Message useful_rain_line(Workings& workings, const Scene& scene);

/// "31 mm fell in the last 14 days; 2 of them were not read." With the gauge's distance.
Message fortnight_line(Workings& workings, const Scene& scene);

/// Whether the rains have begun by the published rules, or why no season is told; by elders' months
/// where there is no log.
std::vector<Message> season_lines(Workings& workings, const Scene& scene);

/// What checking against the past found, as it is.
Message hindcast_line(Workings& workings, const Scene& scene);

/// The climate room's hindcast line with its numbers opened.
Message opened_hindcast(const climate::Hindcast& hindcast);

/// The season's year that holds `today`: the newest start on or before it, less than a year ago.
const climate::SeasonYear* season_of(const climate::SeasonResult& season, Date today);

/// Months in words of the catalogue for a list of month numbers, as "11, 12, 1".
std::string month_list(const std::vector<int>& months);

/// Heading and sentences.
LetterPart part_of(const char* heading, std::vector<Message> sentences);

}  // namespace wildling::plan::weather
