#include "tending/fire.hpp"

#include <algorithm>
#include <cmath>

#include "base/error.hpp"

namespace wildling::tending {
namespace {

using std::chrono::days;

days days_of(std::string_view key, const Parameters& parameters) {
  return days(static_cast<int>(std::lround(parameters.value(key))));
}

}  // namespace

const std::vector<WidthSource>& firebreak_widths() {
  static const std::vector<WidthSource> widths = {
      {4, 6, "CTCN technology page on fire reduction: wider with fuel and wind"},
      {5, 5,
       "Uganda, Sawlog Production Grant Scheme, community tree planting guideline, p. 23: at "
       "least"},
      {8, 16, "trade memory"},
      {20, 20,
       "ILO (1993), section 6.3: about 20 m, cleared at least yearly at the start of the dry "
       "season"}};
  return widths;
}

double firebreak_width_m(double fuel_height_m, const Parameters& parameters) {
  const auto& widths = firebreak_widths();
  return std::clamp(fuel_height_m * parameters.value("tending.firebreak.width_per_fuel"),
                    widths.front().low_m, widths.back().high_m);
}

std::string_view fire_step_name(FireStep step) {
  constexpr std::array<std::string_view, 6> kNames = {"tell_neighbours", "cut_firebreak",
                                                      "mulch_off",       "last_clearing",
                                                      "watch_begins",    "watch_ends"};
  return kNames[static_cast<std::size_t>(step)];
}

FireSeason fire_season(Date start, Date end, const Parameters& parameters) {
  FireSeason season;
  season.dry_from = start;
  season.dry_to = end - days(1);
  season.days = {
      {start - days_of("tending.fire.tell_days", parameters), FireStep::tell_neighbours},
      {start - days_of("tending.firebreak.lead_days", parameters), FireStep::cut_firebreak},
      {start - days_of("tending.fire.mulch_days", parameters), FireStep::mulch_off},
      {start - days_of("tending.late_clearing_days", parameters) - days(1),
       FireStep::last_clearing},
      {start, FireStep::watch_begins},
      {season.dry_to, FireStep::watch_ends}};
  std::stable_sort(season.days.begin(), season.days.end(),
                   [](const FireDay& a, const FireDay& b) { return a.day < b.day; });
  return season;
}

FireCalendar fire_calendar(Date from, double years,
                           const std::array<climate::MonthNormal, 12>& normals,
                           const Parameters& parameters) {
  FireCalendar calendar;
  const DrySeason dry = dry_season(normals, parameters);
  if (!dry.exists()) {
    calendar.first_line =
        say(dry.driest_month == 0 ? "tending.fire.no_rain_figures" : "tending.fire.no_dry_month");
    calendar.notes.push_back(say("tending.fire.drought_years"));
    return calendar;
  }
  const Date end = from + days(static_cast<int>(std::lround(years * 365.25)));
  for (Date start = dry_start(dry, from); start < end;
       start = dry_start(dry, dry_end(dry, start))) {
    calendar.seasons.push_back(fire_season(start, dry_end(dry, start), parameters));
  }
  if (!calendar.seasons.empty()) {
    calendar.first_line =
        say("tending.fire.next_season", {{"from", calendar.seasons.front().dry_from},
                                         {"to", calendar.seasons.front().dry_to},
                                         {"driest", static_cast<std::int64_t>(dry.driest_month)}});
  }
  calendar.notes.push_back(say("tending.fire.widths_disagree",
                               {{"width", parameters.value("tending.firebreak.width_m")}}));
  calendar.notes.push_back(say("tending.fire.never_fight_high_flames"));
  return calendar;
}

Watch watch_for(int fire_class, const Parameters& parameters) {
  if (fire_class < 0 || fire_class > 3) {
    throw Error(
        ErrorKind::input, "",
        say("tending.fire.class_unknown", {{"class", static_cast<std::int64_t>(fire_class)}}));
  }
  const std::string n = std::to_string(fire_class);
  Watch watch;
  watch.fire_class = fire_class;
  watch.people = static_cast<int>(std::lround(parameters.value("tending.watch.people_" + n)));
  watch.hours = parameters.value("tending.watch.hours_" + n);
  watch.person_days = watch.people * watch.hours / parameters.value("tending.diary.hours_per_day");
  watch.no_burning_no_engines = fire_class >= 2;
  return watch;
}

AfterFire after_fire(Date fire, const std::array<climate::MonthNormal, 12>& normals,
                     const Parameters& parameters) {
  AfterFire after;
  after.walk_edge = fire + days(1);
  after.count_from = fire + days(7 * 8);
  after.count_to = fire + days(7 * 12);
  const DrySeason dry = dry_season(normals, parameters);
  after.refill_not_before = after.count_to;
  if (dry.exists()) {
    const Date start = dry_start(dry, after.count_to);
    if (after.count_to >= start) after.refill_not_before = dry_end(dry, start);
  }
  return after;
}

}  // namespace wildling::tending
