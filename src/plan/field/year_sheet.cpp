#include <algorithm>

#include "plan/field/year_fire.hpp"
#include "plan/field/year_replies.hpp"

namespace wildling::plan {
namespace {

constexpr std::size_t kLeastNeighbourLines = 4;

std::vector<FireMonth> months_of(const Year& year, const FireYear& fire) {
  std::vector<FireMonth> months;
  for (unsigned m = 1; m <= 12; ++m) {
    const climate::MonthNormal& normal = year.normals[m - 1];
    FireMonth month;
    month.month = m;
    if (normal.years > 0) {
      month.rain_mm = normal.rain_mean_mm;
      month.years = normal.years;
    }
    month.dry = std::find(fire.dry_months.begin(), fire.dry_months.end(), static_cast<int>(m)) !=
                fire.dry_months.end();
    if (!fire.dry && fire.known) month.dry = static_cast<int>(m) == fire.driest_month;
    months.push_back(month);
  }
  return months;
}

/// Only open blocks: no work may be ordered where nobody agreed to it.
std::vector<FirebreakJob> jobs_of(const FireYear& fire) {
  double low = 0, high = 0;
  for (const tending::WidthSource& width : tending::firebreak_widths()) {
    low = low == 0 ? width.low_m : std::min(low, width.low_m);
    high = std::max(high, width.high_m);
  }
  std::vector<FirebreakJob> jobs;
  for (const BreakLine& line : fire.breaks) {
    if (!line.open) continue;
    FirebreakJob job;
    job.block_code = line.block;
    job.length_m = line.metres;
    job.width_m = line.width_m;
    job.width_low_m = low;
    job.width_high_m = high;
    if (fire.known) job.due = fire.due;
    job.person_days = line.person_days;
    if (line.left_m() <= 0) job.done = line.done_on;
    jobs.push_back(std::move(job));
  }
  return jobs;
}

std::vector<PatrolLine> patrol_of(const Year& year) {
  std::vector<PatrolLine> lines;
  for (int c = 0; c < 4; ++c) {
    const tending::Watch watch = tending::watch_for(c, year.rates);
    const char* key = watch.people == 0             ? "year.sheet.nobody"
                      : watch.no_burning_no_engines ? "year.sheet.watch_no_fire"
                                                    : "year.sheet.watch";
    lines.push_back({say("year.fire_class", {{"class", std::to_string(c)}}),
                     say(key, {{"people", std::int64_t{watch.people}}, {"hours", watch.hours}})});
  }
  return lines;
}

std::vector<NeighbourTold> neighbours_of(const Year& year) {
  std::vector<NeighbourTold> list;
  for (const Neighbour& one : year.book.neighbours) list.push_back({one.name, one.told_on});
  while (list.size() < kLeastNeighbourLines) list.emplace_back();
  return list;
}

/// What else falls on a day: neighbours, last clearing, mulch, watch.
std::vector<Message> dates_of(const FireYear& fire) {
  std::vector<Message> lines;
  if (!fire.known) return lines;
  for (const tending::FireDay& day : fire.season.days) {
    if (day.step == tending::FireStep::cut_firebreak) continue;
    lines.push_back(
        say("year.sheet.step",
            {{"day", day.day}, {"step", std::string(tending::fire_step_name(day.step))}}));
  }
  return lines;
}

}  // namespace

FireCalendar fire_sheet(const Year& year) {
  const FireYear fire = fire_year(year);
  FireCalendar sheet;
  sheet.stamp = {year.programme.name, year.plan.head.number, year.today,
                 year.programme.invented_figures};
  sheet.station = year.programme.weather ? year.programme.weather->station.name : "";
  sheet.year = year_of(fire.known ? fire.season.dry_from : year.today);
  sheet.answer = calendar_reply(year).answer;
  sheet.months = months_of(year, fire);
  sheet.breaks = jobs_of(fire);
  sheet.steps = dates_of(fire);
  sheet.patrol = patrol_of(year);
  sheet.neighbours = neighbours_of(year);
  for (const char* key : {"edge", "count", "refill"})
    sheet.after_fire.push_back(say(std::string("year.sheet.after_") + key));
  sheet.sources = {say("year.calendar.widths"), say("year.sheet.sources")};
  return sheet;
}

}  // namespace wildling::plan
