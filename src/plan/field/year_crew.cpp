#include <algorithm>
#include <cmath>

#include "base/workings_build.hpp"
#include "plan/field/year_replies.hpp"
#include "tending/crew.hpp"
#include "tending/field_workings.hpp"
#include "tending/tending_workings.hpp"

namespace wildling::plan {
namespace {

using tending::BlockCare;
using tending::CrewNeed;

constexpr int kFortnight = 14;

struct Window {
  Date first = {}, last = {};
};

Window window_of(const std::vector<BlockCare>& blocks) {
  Window window{blocks.front().planting_first, blocks.front().planting_last};
  for (const BlockCare& block : blocks) {
    window.first = std::min(window.first, block.planting_first);
    window.last = std::max(window.last, block.planting_last);
  }
  return window;
}

double trees_of(const std::vector<BlockCare>& blocks) {
  double trees = 0;
  for (const BlockCare& block : blocks) trees += block.planted();
  return trees;
}

/// Mean slope factor, each tree counting once: person-days over blocks then add up.
double slope_of(const std::vector<BlockCare>& blocks, const Parameters& parameters) {
  double sum = 0;
  for (const BlockCare& block : blocks)
    sum += block.planted() * tending::slope_factor(block.slope_deg, parameters);
  return sum / trees_of(blocks);
}

/// One column of the table of needs.
struct NeedColumn {
  std::string name;  ///< of its nodes: "window", "fortnight", "book"
  CrewNeed need;
};

/// The one number that tending::add_workings leaves out.
std::string distributors_key(Workings& workings, const NeedColumn& one,
                             const Parameters& parameters) {
  const std::string at = "tending/crew/" + one.name + "/";
  return WorkingsBuilder(workings).computed(
      at + "crew_distributors", say("year.label.distributors"), one.need.distributors, "people",
      "year.distributors",
      {at + "crew_planting",
       add_parameter(workings, parameters.at("tending.planters_per_distributor")),
       at + "crew_work_days"});
}

/// A row of the table: what, and where a column's number and node are.
struct NeedRow {
  const char* name;
  double (*value)(const CrewNeed&);
  const char* key;
  bool whole = true;
};

const std::vector<NeedRow>& need_rows() {
  static const std::vector<NeedRow> rows = {
      {"trees", [](const CrewNeed& n) { return n.trees; }, "crew_trees"},
      {"work_days", [](const CrewNeed& n) { return n.work_days; }, "crew_work_days", false},
      {"days_pits", [](const CrewNeed& n) { return n.pits.used; }, "crew_pits", false},
      {"days_carrying", [](const CrewNeed& n) { return n.carrying.used; }, "crew_carrying", false},
      {"days_planting", [](const CrewNeed& n) { return n.planting.used; }, "crew_planting", false},
      {"carries", [](const CrewNeed& n) { return n.carries; }, "crew_carries"},
      {"crates", [](const CrewNeed& n) { return double(n.crates); }, "crew_crates"},
      {"trips", [](const CrewNeed& n) { return double(n.trips); }, "crew_trips"},
      {"load_t", [](const CrewNeed& n) { return n.load_t; }, "crew_load", false},
      {"people", [](const CrewNeed& n) { return double(n.people_planting); }, "crew_people"},
      {"distributors", [](const CrewNeed& n) { return double(n.distributors); },
       "crew_distributors"},
      {"people_pits", [](const CrewNeed& n) { return double(n.people_with_pits); },
       "crew_people_with_pits"}};
  return rows;
}

Table need_table(const std::vector<NeedColumn>& columns) {
  Table table;
  table.name = "needs";
  table.caption = say("year.needs.caption");
  table.columns = {column("need")};
  for (const NeedColumn& one : columns) table.columns.push_back(column("crew_" + one.name, 1));
  for (const NeedRow& row : need_rows()) {
    std::vector<Cell> cells = {cell(say(std::string("year.need.") + row.name))};
    for (const NeedColumn& one : columns) {
      const std::string opens = "tending/crew/" + one.name + "/" + row.key;
      const double value = row.value(one.need);
      cells.push_back(row.whole ? cell(static_cast<std::int64_t>(std::llround(value)), opens)
                                : cell(value, opens));
    }
    table.rows.push_back(std::move(cells));
  }
  return table;
}

Table block_table(const Year& year, const std::vector<BlockCare>& blocks, Workings& workings) {
  Table table;
  table.name = "blocks";
  table.caption = say("year.crew_blocks.caption");
  table.columns = {column("block"),
                   column("trees"),
                   column("days_pits", 1),
                   column("days_carrying", 1),
                   column("days_planting", 1),
                   column("carries"),
                   column("crates"),
                   column("load_t", 1)};
  for (const BlockCare& block : blocks) {
    const CrewNeed need = tending::crew_for(
        block.planted(), block.planting_first, block.planting_last,
        tending::slope_factor(block.slope_deg, year.rates), year.normals, year.rates);
    tending::add_workings(workings, block.block, need, year.rates);
    const std::string at = "tending/crew/" + block.block + "/";
    table.rows.push_back(
        {cell(block.block), cell(need.trees, at + "crew_trees"),
         cell(need.pits.used, at + "crew_pits"), cell(need.carrying.used, at + "crew_carrying"),
         cell(need.planting.used, at + "crew_planting"), cell(need.carries, at + "crew_carries"),
         cell(std::int64_t{need.crates}, at + "crew_crates"), cell(need.load_t, at + "crew_load")});
  }
  return table;
}

/// Weeks of the window, with nodes of their own.
Table week_table(const Year& year, const std::vector<BlockCare>& blocks, Workings& workings) {
  Table table;
  table.name = "weeks";
  table.caption = say("year.weeks.caption");
  table.columns = {column("week_from"), column("days"), column("work_days", 1),
                   column("person_days", 1), column("people")};
  WorkingsBuilder build(workings);
  for (const tending::PlantingWeek& week :
       tending::planting_weeks(blocks, year.normals, year.rates)) {
    const std::string at = "year/week/" + iso_date(week.first) + "/";
    const auto label = [&](const char* what) {
      return say(std::string("year.label.week_") + what, {{"day", week.first}});
    };
    const std::string work_days =
        build.leaf(at + "work_days", label("work_days"), week.work_days, "days", Origin::measured,
                   "rain days of the log; docs/tending.md, planting weeks");
    const std::string person_days = build.leaf(
        at + "person_days", label("person_days"), week.person_days, "person-days",
        Origin::documented, "carrying and planting of each block spread evenly over its window");
    const std::string people = build.computed(at + "people", label("people"), week.people, "people",
                                              "tending.people", {work_days, person_days});
    table.rows.push_back({cell(std::optional<Date>(week.first)), cell(std::int64_t{week.days}),
                          cell(week.work_days, work_days), cell(week.person_days, person_days),
                          cell(std::int64_t{week.people}, people)});
  }
  return table;
}

Message people_line(const char* key, const NeedColumn& one, const Window& window) {
  const std::string at = "tending/crew/" + one.name + "/";
  return opening(say(key, {{"people", std::int64_t{one.need.people_planting}},
                           {"distributors", std::int64_t{one.need.distributors}},
                           {"days", std::round(10 * one.need.work_days) / 10},
                           {"calendar", std::int64_t{one.need.calendar_days}},
                           {"first", window.first},
                           {"last", window.last},
                           {"trees", rounded(one.need.trees)}}),
                 {{"people", at + "crew_people"},
                  {"distributors", at + "crew_distributors"},
                  {"days", at + "crew_work_days"},
                  {"trees", at + "crew_trees"}});
}

LetterPart loads_part(const NeedColumn& one, const Year& year) {
  const std::string at = "tending/crew/" + one.name + "/";
  LetterPart part{say("year.heading.loads"), {}};
  part.sentences.push_back(
      opening(say("year.crew.loads", {{"carries", rounded(one.need.carries)},
                                      {"crates", std::int64_t{one.need.crates}},
                                      {"trips", std::int64_t{one.need.trips}},
                                      {"load", std::round(10 * one.need.load_t) / 10}}),
              {{"carries", at + "crew_carries"},
               {"crates", at + "crew_crates"},
               {"trips", at + "crew_trips"},
               {"load", at + "crew_load"}}));
  part.sentences.push_back(
      opening(say("year.crew.pits", {{"days", rounded(one.need.pits.used)},
                                     {"low", rounded(one.need.pits.low)},
                                     {"high", rounded(one.need.pits.high)},
                                     {"people", std::int64_t{one.need.people_with_pits}}}),
              {{"days", at + "crew_pits"},
               {"low", at + "crew_pits_low"},
               {"high", at + "crew_pits_high"},
               {"people", at + "crew_people_with_pits"}}));
  part.sentences.push_back(rates_sentence(year));
  return part;
}

/// Person-days of pits at the fast and the slow rate.
void add_pits_range(Workings& workings, const NeedColumn& one, const Parameters& parameters) {
  const std::string at = "tending/crew/" + one.name + "/";
  WorkingsBuilder build(workings);
  const auto add = [&](const char* name, double value, const char* rate) {
    build.computed(
        at + name, say(std::string("year.label.") + name), value, "person-days", "tending.days",
        {at + "crew_trees", add_parameter(workings, parameters.at(rate)), at + "crew_slope"});
  };
  add("crew_pits_low", one.need.pits.low, "tending.rate.pits.fast");
  add("crew_pits_high", one.need.pits.high, "tending.rate.pits.slow");
}

}  // namespace

Reply crew_reply(const Year& year) {
  Reply reply = new_reply("crew", year);
  const std::vector<BlockCare> blocks = planted_blocks(year);
  if (blocks.empty()) throw Error(ErrorKind::input, "", say("year.nothing_planted"));
  const Window window = window_of(blocks);
  const Date two_weeks = std::min(window.last, window.first + std::chrono::days(kFortnight - 1));
  const double trees = trees_of(blocks);
  const double slope = slope_of(blocks, year.rates);
  std::vector<NeedColumn> columns;
  columns.push_back({"window", tending::crew_for(trees, window.first, window.last, slope,
                                                 year.normals, year.rates)});
  columns.push_back({"fortnight", tending::crew_for(trees, window.first, two_weeks, slope,
                                                    year.normals, year.rates)});
  for (const NeedColumn& one : columns) {
    tending::add_workings(reply.workings, one.name, one.need, year.rates);
    distributors_key(reply.workings, one, year.rates);
  }
  add_pits_range(reply.workings, columns[0], year.rates);
  reply.answer = people_line("year.crew.answer", columns[1], {window.first, two_weeks});
  LetterPart part{
      say("year.heading.people"),
      {people_line("year.crew.window", columns[0], window), say("year.crew.rain_days")}};
  if (!year.programme.weather) part.sentences.push_back(say("year.crew.no_log"));
  reply.parts = {std::move(part), loads_part(columns[0], year)};
  reply.tables = {need_table(columns), block_table(year, blocks, reply.workings),
                  week_table(year, blocks, reply.workings)};
  if (auto rates = rates_table(year, reply.workings)) reply.tables.push_back(std::move(*rates));
  return reply;
}

}  // namespace wildling::plan
