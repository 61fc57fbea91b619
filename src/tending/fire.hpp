#pragma once
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "tending/care.hpp"

namespace wildling::tending {

/// A published width of firebreaks. They disagree: all are shown beside the one used.
struct WidthSource {
  double low_m = 0, high_m = 0;
  std::string source;
};

const std::vector<WidthSource>& firebreak_widths();

/// Width for a fuel height: tending.firebreak.width_per_fuel metres per metre of fuel, within the
/// published 4 to 20 m.
double firebreak_width_m(double fuel_height_m, const Parameters& parameters);

enum class FireStep {
  tell_neighbours,  ///< when the dry season begins and whom to call
  cut_firebreak,    ///< ready, cut grass raked out
  mulch_off,        ///< dry mulch away from the stems
  last_clearing,    ///< cut grass is fuel for weeks: none later
  watch_begins,
  watch_ends
};

std::string_view fire_step_name(FireStep step);

struct FireDay {
  Date day = {};
  FireStep step = FireStep::cut_firebreak;
};

/// The steps of one dry season, in order of days.
struct FireSeason {
  Date dry_from = {}, dry_to = {};  ///< last day inside
  std::vector<FireDay> days;
};

/// The steps of a season that begins on `start` and ends before `end`.
FireSeason fire_season(Date start, Date end, const Parameters& parameters);

/// Fire seasons that begin from `from` on, within `years`. Empty where no month is dry on average:
/// then the note says that a drought year still burns.
struct FireCalendar {
  std::vector<FireSeason> seasons;
  Message first_line;
  std::vector<Message> notes;
};

FireCalendar fire_calendar(Date from, double years,
                           const std::array<climate::MonthNormal, 12>& normals,
                           const Parameters& parameters);

/// Fire class of a day, from the weather: 0 = not high, 1 = high, 2 = very high, 3 = extreme.
/// People and hours of watch for it: tending.watch.people_N and tending.watch.hours_N.
struct Watch {
  int fire_class = 0;
  int people = 0;
  double hours = 0;
  double person_days = 0;
  bool no_burning_no_engines = false;  ///< from class 2 on
};

Watch watch_for(int fire_class, const Parameters& parameters);

/// After a fire: walk the edge the next day; count resprouts at 8 to 12 weeks; no refill before the
/// count and the rains.
struct AfterFire {
  Date walk_edge = {};
  Date count_from = {}, count_to = {};
  Date refill_not_before = {};
};

AfterFire after_fire(Date fire, const std::array<climate::MonthNormal, 12>& normals,
                     const Parameters& parameters);

}  // namespace wildling::tending
