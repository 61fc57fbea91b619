#pragma once
/// One function per question of the year ahead; each is a pure function of what load_year read.
#include "plan/field/year_context.hpp"
#include "plan/sheets.hpp"

namespace wildling::plan {

/// @param years  from planting on, 1 to 10
Reply money_reply(const Year& year, double years);

/// Crew of the planting window and of its first two weeks.
Reply crew_reply(const Year& year);

/// Fire calendar of the next dry season.
Reply calendar_reply(const Year& year);

/// @param block  empty: every block with counts
Reply refill_reply(const Year& year, const std::string& block);

/// @param day  of the fire; empty: the newest that was written down
Reply burnt_reply(const Year& year, std::optional<Date> day);

/// The calendar as the struct that paper writes.
FireCalendar fire_sheet(const Year& year);

}  // namespace wildling::plan
