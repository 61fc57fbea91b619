#include <algorithm>

#include "base/workings_build.hpp"
#include "plan/field/year_fire.hpp"
#include "plan/field/year_replies.hpp"

namespace wildling::plan {
namespace {

using tending::FireStep;

constexpr int kClasses = 4;

Message answer_line(const Year& year, const FireYear& fire) {
  const bool any_open = std::any_of(fire.breaks.begin(), fire.breaks.end(),
                                    [](const BreakLine& line) { return line.open; });
  if (!any_open) return say("year.calendar.no_open");
  if (!fire.known) {
    return opening(say("year.calendar.no_rain", {{"metres", rounded(fire.metres)}}),
                   {{"metres", "year/fire/metres"}});
  }
  if (fire.left_m <= 0) {
    return opening(say("year.calendar.done",
                       {{"metres", rounded(fire.metres)}, {"from", fire.season.dry_from}}),
                   {{"metres", "year/fire/metres"}});
  }
  const char* key = fire.due < year.today ? "year.calendar.overdue" : "year.calendar.clear";
  return opening(say(key, {{"metres", rounded(fire.left_m)}, {"due", fire.due}}),
                 {{"metres", "year/fire/left"}});
}

LetterPart why_part(const Year& year, const FireYear& fire) {
  LetterPart part{say("year.heading.why"), {}};
  const Date month = make_date(2001, static_cast<unsigned>(std::max(1, fire.driest_month)), 1);
  if (!fire.known) {
    part.sentences.push_back(say("year.calendar.ask_elders"));
  } else if (fire.dry) {
    part.sentences.push_back(
        say("year.calendar.season",
            {{"from", fire.season.dry_from}, {"to", fire.season.dry_to}, {"driest", month}}));
  } else {
    part.sentences.push_back(say("year.calendar.no_dry_month", {{"driest", month}}));
  }
  if (fire.metres > 0) {
    part.sentences.push_back(opening(
        say("year.calendar.work", {{"metres", rounded(fire.metres)},
                                   {"days", rounded(fire.person_days)},
                                   {"done", rounded(fire.done_m)}}),
        {{"metres", "year/fire/metres"}, {"days", "year/fire/days"}, {"done", "year/fire/done"}}));
    part.sentences.push_back(opening(
        say("year.calendar.plan_width", {{"width", year.rates.value("tending.firebreak.width_m")}}),
        {{"width", "parameter/tending.firebreak.width_m"}}));
  }
  part.sentences.push_back(say("year.calendar.widths"));
  part.sentences.push_back(say("tending.fire.never_fight_high_flames"));
  return part;
}

LetterPart neighbours_part(const Year& year, const FireYear& fire) {
  LetterPart part{say("year.heading.neighbours"), {}};
  const Date since = fire.known ? add_months(fire.season.dry_from, -6) : add_months(year.today, -6);
  std::int64_t told = 0;
  std::string waiting;
  for (const Neighbour& one : year.book.neighbours) {
    if (one.told_on && *one.told_on >= since) {
      ++told;
    } else {
      waiting += (waiting.empty() ? "" : ", ") + one.name;
    }
  }
  if (year.book.neighbours.empty()) {
    part.sentences.push_back(say("year.calendar.no_neighbours"));
  } else if (waiting.empty()) {
    part.sentences.push_back(say("year.calendar.all_told", {{"told", told}}));
  } else {
    part.sentences.push_back(say("year.calendar.still_to_tell", {{"names", waiting}}));
  }
  if (!year.book.fires.empty())
    part.sentences.push_back(
        say("year.calendar.fires", {{"fires", static_cast<std::int64_t>(year.book.fires.size())},
                                    {"last", year.book.fires.back().day}}));
  return part;
}

Table steps_table(const FireYear& fire) {
  Table table;
  table.name = "steps";
  table.caption = say(fire.dry ? "year.steps.caption" : "year.steps.caption_driest");
  table.columns = {column("day"), column("step")};
  for (const tending::FireDay& day : fire.season.days) {
    table.rows.push_back(
        {cell(std::optional<Date>(day.day)),
         cell(say("tending.fire_step." + std::string(tending::fire_step_name(day.step))))});
  }
  return table;
}

Table breaks_table(const FireYear& fire) {
  Table table;
  table.name = "firebreaks";
  table.caption = say("year.firebreaks.caption");
  table.columns = {column("block"),     column("gate"),       column("metres"),
                   column("fuel_m", 1), column("width_m", 1), column("person_days", 1),
                   column("due"),       column("done_m"),     column("left_m")};
  for (const BreakLine& line : fire.breaks) {
    const std::string at = "year/fire/" + line.block + "/";
    std::vector<Cell> row = {cell(line.block),
                             cell(say(line.open ? "year.open" : "year.on_hold")),
                             cell(line.metres, at + "metres"),
                             cell(line.fuel_m, at + "fuel"),
                             cell(line.width_m, at + "width"),
                             cell(line.person_days, at + "days"),
                             Cell{},
                             Cell{},
                             Cell{}};
    if (line.open) {
      if (fire.known) row[6] = cell(std::optional<Date>(fire.due));
      row[7] = cell(line.done_m, at + "done");
      row[8] = cell(line.left_m(), at + "left");
    }
    table.rows.push_back(std::move(row));
  }
  return table;
}

Table widths_table(Workings& workings) {
  Table table;
  table.name = "widths";
  table.caption = say("year.widths.caption");
  table.columns = {column("source"), column("low_m"), column("high_m")};
  WorkingsBuilder build(workings);
  std::int64_t number = 0;
  for (const tending::WidthSource& width : tending::firebreak_widths()) {
    ++number;
    const auto leaf = [&](const char* what, double value) {
      return build.leaf("year/width/" + std::to_string(number) + "/" + what,
                        say(std::string("year.label.width_") + what, {{"number", number}}), value,
                        "m", Origin::documented, width.source);
    };
    table.rows.push_back({cell(say("year.width_source", {{"number", std::to_string(number)}})),
                          cell(width.low_m, leaf("low", width.low_m)),
                          cell(width.high_m, leaf("high", width.high_m))});
  }
  return table;
}

Table patrol_table(const Year& year, Workings& workings) {
  Table table;
  table.name = "patrol";
  table.caption = say("year.patrol.caption");
  table.columns = {column("fire_class"), column("people"), column("hours", 1),
                   column("person_days", 2), column("rule")};
  WorkingsBuilder build(workings);
  const std::string day = add_parameter(workings, year.rates.at("tending.diary.hours_per_day"));
  for (int c = 0; c < kClasses; ++c) {
    const tending::Watch watch = tending::watch_for(c, year.rates);
    const std::string n = std::to_string(c);
    const std::string people = add_parameter(workings, year.rates.at("tending.watch.people_" + n));
    const std::string hours = add_parameter(workings, year.rates.at("tending.watch.hours_" + n));
    const std::string days =
        build.computed("year/watch/" + n, say("year.label.watch_days", {{"class", n}}),
                       watch.person_days, "person-days", "year.watch_days", {people, hours, day});
    table.rows.push_back(
        {cell(say("year.fire_class", {{"class", n}})), cell(std::int64_t{watch.people}, people),
         cell(watch.hours, hours), cell(watch.person_days, days),
         cell(say(watch.no_burning_no_engines ? "year.no_burning" : "year.usual_care"))});
  }
  return table;
}

Table neighbours_table(const Year& year) {
  Table table;
  table.name = "neighbours";
  table.caption = say("year.neighbours.caption");
  table.columns = {column("neighbour"), column("told_on"), column("agreed")};
  for (const Neighbour& one : year.book.neighbours)
    table.rows.push_back({cell(one.name), cell(one.told_on), cell(one.agreed)});
  return table;
}

}  // namespace

Reply calendar_reply(const Year& year) {
  Reply reply = new_reply("calendar", year);
  const FireYear fire = fire_year(year);
  add_fire_nodes(reply.workings, year, fire);
  add_parameter(reply.workings, year.rates.at("tending.firebreak.width_m"));
  reply.answer = answer_line(year, fire);
  reply.parts = {why_part(year, fire), neighbours_part(year, fire)};
  if (fire.known) reply.tables.push_back(steps_table(fire));
  if (!fire.breaks.empty()) reply.tables.push_back(breaks_table(fire));
  reply.tables.push_back(widths_table(reply.workings));
  reply.tables.push_back(patrol_table(year, reply.workings));
  if (!year.book.neighbours.empty()) reply.tables.push_back(neighbours_table(year));
  return reply;
}

}  // namespace wildling::plan
