#include "plan/field/year_fire.hpp"

#include <algorithm>
#include <cmath>

#include "base/workings_build.hpp"
#include "plan/field_work.hpp"

namespace wildling::plan {
namespace {

/// First day of the season that `today` lies in or that comes next.
Date season_start(const tending::DrySeason& dry, Date today) {
  if (dry.exists()) return tending::dry_start(dry, today);
  const auto month = static_cast<unsigned>(dry.driest_month);
  const Date this_year = make_date(year_of(today), month, 1);
  return add_months(this_year, 1) > today ? this_year : add_months(this_year, 12);
}

/// Firebreaks cut after the season before this one count for this one.
Date counts_from(const tending::DrySeason& dry, Date start) {
  const Date before = add_months(start, -12);
  return dry.exists() ? tending::dry_end(dry, tending::dry_start(dry, before))
                      : add_months(before, 1);
}

void put_fuel(BreakLine& line, const BlockPart& part, const Year& year) {
  line.fuel_m = tending::cover_rule(part.block.cover, year.rates).full_height_m;
  for (const tending::WalkLine& walk : year.book.walks) {
    if (walk.block != line.block) continue;
    line.fuel_m = walk.cover_m;
    line.fuel_walked = true;
  }
}

BreakLine break_line(const BlockPart& part, const Year& year, Date from) {
  BreakLine line;
  line.block = part.block.code;
  line.open = part.open;
  line.metres = firebreak_m(part, year.programme, year.plan.blocks);
  put_fuel(line, part, year);
  line.width_m = tending::firebreak_width_m(line.fuel_m, year.rates);
  std::optional<double> slope;
  if (part.block.slope_known) slope = part.block.slope_deg;
  line.slope_factor = tending::slope_factor(slope, year.rates);
  line.person_days =
      tending::person_days(line.metres * line.width_m, tending::rate("slash", year.rates)).used *
      line.slope_factor;
  for (const FirebreakDone& done : year.book.firebreaks) {
    if (done.block != line.block || done.day < from) continue;
    line.done_m += done.length_m;
    line.done_on = done.day;
  }
  return line;
}

}  // namespace

FireYear fire_year(const Year& year) {
  FireYear fire;
  const tending::DrySeason dry = tending::dry_season(year.normals, year.rates);
  fire.driest_month = dry.driest_month;
  fire.known = dry.driest_month > 0;
  fire.dry = dry.exists();
  if (fire.dry) fire.dry_months = dry.months;
  Date from = {};
  if (fire.known) {
    const Date start = season_start(dry, year.today);
    const Date end = fire.dry ? tending::dry_end(dry, start) : add_months(start, 1);
    fire.season = tending::fire_season(start, end, year.rates);
    fire.due = step_day(fire, tending::FireStep::cut_firebreak);
    from = counts_from(dry, start);
  }
  for (const BlockPart& part : year.plan.blocks) {
    BreakLine line = break_line(part, year, from);
    if (!(line.metres > 0)) continue;
    if (line.open) {
      fire.metres += line.metres;
      fire.done_m += line.done_m;
      fire.left_m += line.left_m();
      fire.person_days += line.person_days;
    }
    fire.breaks.push_back(std::move(line));
  }
  return fire;
}

Date step_day(const FireYear& fire, tending::FireStep step) {
  for (const tending::FireDay& day : fire.season.days) {
    if (day.step == step) return day.day;
  }
  return fire.season.dry_from;
}

void add_fire_nodes(Workings& workings, const Year& year, const FireYear& fire) {
  WorkingsBuilder build(workings);
  const auto parameter = [&](const char* key) {
    return add_parameter(workings, year.rates.at(key));
  };
  std::vector<std::string> metres, done, left, days;
  for (const BreakLine& line : fire.breaks) {
    const std::string at = "year/fire/" + line.block + "/";
    const auto label = [&](const char* what) {
      return say(std::string("year.label.fire_") + what, {{"block", line.block}});
    };
    const std::string length =
        build.leaf(at + "metres", label("metres"), line.metres, "m", Origin::measured,
                   "outline of the site, shared out to its blocks by their own outlines");
    const std::string fuel = build.leaf(
        at + "fuel", label("fuel"), line.fuel_m, "m",
        line.fuel_walked ? Origin::measured : Origin::assumed,
        line.fuel_walked ? "newest smother walk" : "",
        line.fuel_walked ? "" : "full height of this cover; walk the block to measure it");
    const std::string width =
        build.computed(at + "width", label("width"), line.width_m, "m", "year.firebreak_width",
                       {fuel, parameter("tending.firebreak.width_per_fuel")});
    const std::string slope =
        build.leaf(at + "slope", label("slope"), line.slope_factor, "", Origin::assumed, "",
                   "docs/tending.md: work on a slope takes longer");
    const std::string work = build.computed(
        at + "days", label("days"), line.person_days, "person-days", "tending.firebreak_days",
        {length, parameter("tending.rate.slash"), slope, width});
    const std::string cut = build.leaf(at + "done", label("done"), line.done_m, "m", Origin::told,
                                       "notes of firebreaks cut since the last season");
    const std::string open =
        build.computed(at + "left", label("left"), line.left_m(), "m", "year.left", {length, cut});
    if (!line.open) continue;
    metres.push_back(length);
    done.push_back(cut);
    left.push_back(open);
    days.push_back(work);
  }
  const auto sum = [&](const char* what, double value, const char* unit,
                       std::vector<std::string> inputs) {
    build.computed(std::string("year/fire/") + what,
                   say(std::string("year.label.fire_all_") + what), value, unit, "plan.sum",
                   std::move(inputs));
  };
  sum("metres", fire.metres, "m", metres);
  sum("done", fire.done_m, "m", done);
  sum("left", fire.left_m, "m", left);
  sum("days", fire.person_days, "person-days", days);
}

}  // namespace wildling::plan
