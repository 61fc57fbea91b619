#pragma once
/// base: what every room needs and no science: civil dates, errors and findings, words in two
/// languages, random streams, progress and cancelling, parallel loops, parameters with their
/// origin, and the workings that show where a number comes from. No room is below it.
#include <chrono>
#include <optional>
#include <string>
#include <string_view>

namespace wildling {

/// A local civil day without time zone (design: what happened on a day has no zone).
using Date = std::chrono::sys_days;

/// @return the day; no check beyond an assert that year, month and day name a real day.
Date make_date(int year, unsigned month, unsigned day);

/// Accepts exactly "2026-11-25"; refuses "2026-2-30", "2026-11-25 " and "26-11-25" (empty result).
std::optional<Date> parse_iso_date(std::string_view text);

/// "2026-11-25".
std::string iso_date(Date day);

int year_of(Date day);
unsigned month_of(Date day);      ///< 1 to 12
unsigned day_of_month(Date day);  ///< 1 to 31
int day_of_year(Date day);        ///< 1 = 1 January, to 366
unsigned days_in_month(int year, unsigned month);

/// Index of the ten-day period (dekad) of the year: 0 = 1-10 January, 1 = 11-20 January,
/// 2 = 21 to the end of January, to 35.
int ten_day_period(Date day);

/// First day of ten-day period `period` (0 to 35) of a year.
Date ten_day_period_start(int year, int period);

/// Same day `months` later; the 31st becomes the last day of a shorter month.
Date add_months(Date day, int months);

}  // namespace wildling
