#include <algorithm>
#include <cmath>
#include <map>

#include "base/workings_build.hpp"
#include "ground/common_area.hpp"
#include "plan/field/year_replies.hpp"
#include "stat/interval.hpp"
#include "tending/fire.hpp"

namespace wildling::plan {
namespace {

const Fire* fire_of(const Year& year, std::optional<Date> day) {
  const Fire* found = nullptr;
  for (const Fire& fire : year.book.fires) {
    if (!day || fire.day == *day) found = &fire;
  }
  return found;
}

Table steps_table(const tending::AfterFire& after) {
  Table table;
  table.name = "steps";
  table.caption = say("year.burnt_steps.caption");
  table.columns = {column("from"), column("to"), column("step")};
  const auto row = [&](Date from, std::optional<Date> to, const char* what) {
    table.rows.push_back({cell(std::optional<Date>(from)), cell(to),
                          cell(say(std::string("year.burnt_step.") + what))});
  };
  row(after.walk_edge, after.walk_edge, "edge");
  row(after.count_from, after.count_to, "count");
  row(after.refill_not_before, {}, "refill");
  return table;
}

/// Area inside the walked edge with its error.
std::vector<Message> area_lines(Workings& workings, const Year& year, const Fire& fire) {
  if (fire.edge.parts.empty())
    return {say(fire.edge_words.empty() ? "year.burnt.no_edge" : "year.burnt.edge_by_hand")};
  WorkingsBuilder build(workings);
  const double area = ground::area_m2(fire.edge) / 10000;
  const double error =
      1.96 *
      ground::area_sd_walked_m2(fire.edge, year.programme.parameters.value("ground.vertex_error_m"),
                                year.programme.parameters.value("ground.vertex_error_over_m")) /
      10000;
  const std::string area_key =
      build.leaf("year/burnt/area", say("year.label.burnt_area"), area, "ha", Origin::measured,
                 "walked edge; geodesic on WGS 84 (Karney 2013)");
  const std::string error_key =
      build.leaf("year/burnt/error", say("year.label.burnt_error"), error, "ha", Origin::assumed,
                 "", "1.96 standard deviations for the error of a phone; see docs/ground.md");
  return {opening(say("year.burnt.area", {{"area", std::round(100 * area) / 100},
                                          {"error", std::round(100 * error) / 100}}),
                  {{"area", area_key}, {"error", error_key}})};
}

bool touches(const Fire& fire, const BlockPart& part) {
  return std::find(fire.blocks.begin(), fire.blocks.end(), part.block.code) != fire.blocks.end();
}

/// Blocks that the fire touched, with the burnt area and the trees that stood in it.
Table blocks_table(Workings& workings, const Year& year, const Fire& fire) {
  Table table;
  table.name = "blocks";
  table.caption =
      say(fire.edge.parts.empty() ? "year.burnt_blocks.caption_told" : "year.burnt_blocks.caption");
  table.columns = {column("block"), column("area_ha", 2), column("burnt_ha", 2),
                   column("trees_planned"), column("trees_burnt")};
  WorkingsBuilder build(workings);
  for (const BlockPart& part : year.plan.blocks) {
    const bool walked = !fire.edge.parts.empty();
    const double burnt_ha =
        walked ? ground::common_area_m2(part.block.shape, fire.edge) / 10000 : 0;
    if (burnt_ha < 0.0001 && !touches(fire, part)) continue;
    const std::string at = "year/burnt/" + part.block.code + "/";
    const auto label = [&](const char* what) {
      return say(std::string("year.label.burnt_") + what, {{"block", part.block.code}});
    };
    const std::string area = build.leaf(at + "block_area", label("block_area"), part.area_ha, "ha",
                                        Origin::measured, "boundary walked");
    const std::string planted =
        build.leaf(at + "planted", label("planted"), static_cast<double>(part.planted), "trees",
                   Origin::chosen, "of the plan; what was planted stands on the slips");
    std::vector<Cell> row = {cell(part.block.code), cell(part.area_ha, area), Cell{},
                             cell(part.planted, planted), Cell{}};
    if (walked) {
      const std::string burnt =
          build.leaf(at + "burnt_area", label("burnt_area"), burnt_ha, "ha", Origin::measured,
                     "what the walked edge and the block have in common");
      const double trees = static_cast<double>(part.planted) * burnt_ha / part.area_ha;
      row[2] = cell(burnt_ha, burnt);
      row[4] = cell(trees, build.computed(at + "trees", label("trees"), trees, "trees",
                                          "year.part_of", {planted, burnt, area}));
    }
    table.rows.push_back(std::move(row));
  }
  return table;
}

struct Resprouts {
  int alive = 0, counted = 0;
  Date last = {};
};

std::map<std::string, Resprouts> resprouts_of(const Year& year, const Fire& fire) {
  std::map<std::pair<std::string, int>, const RowCount*> rows;
  for (const RowCount& count : year.book.counts) {
    if (count.cohort == "resprout" && count.day >= fire.day)
      rows[{count.block, count.row}] = &count;
  }
  std::map<std::string, Resprouts> blocks;
  for (const auto& [key, count] : rows) {
    Resprouts& block = blocks[key.first];
    block.alive += count->alive;
    block.counted += count->counted;
    block.last = std::max(block.last, count->day);
  }
  return blocks;
}

Message resprout_line(Workings& workings, const std::string& block, const Resprouts& counted,
                      const tending::AfterFire& after) {
  WorkingsBuilder build(workings);
  const std::string at = "year/burnt/" + block + "/";
  const auto label = [&](const char* what) {
    return say(std::string("year.label.resprout_") + what, {{"block", block}});
  };
  const std::string alive =
      build.leaf(at + "resprouted", label("alive"), counted.alive, "trees", Origin::measured);
  const std::string n =
      build.leaf(at + "counted", label("counted"), counted.counted, "trees", Origin::measured);
  const stat::Interval range = stat::wilson(counted.alive, counted.counted);
  const std::string low = build.computed(at + "low", label("low"), 100 * range.low, "%",
                                         "year.wilson_low_percent", {alive, n});
  const std::string high = build.computed(at + "high", label("high"), 100 * range.high, "%",
                                          "year.wilson_high_percent", {alive, n});
  const bool early = counted.last < after.count_from;
  return opening(say(early ? "year.burnt.resprout_early" : "year.burnt.resprout",
                     {{"block", block},
                      {"alive", std::int64_t{counted.alive}},
                      {"counted", std::int64_t{counted.counted}},
                      {"low", rounded(100 * range.low)},
                      {"high", rounded(100 * range.high)},
                      {"day", counted.last},
                      {"from", after.count_from}}),
                 {{"alive", alive}, {"counted", n}, {"low", low}, {"high", high}});
}

Message answer_line(const Year& year, const Fire& fire, const tending::AfterFire& after,
                    bool counted) {
  if (counted || year.today > after.count_to) {
    const char* key = counted ? "year.burnt.refill_from" : "year.burnt.count_late";
    return say(key, {{"day", after.refill_not_before}, {"to", after.count_to}});
  }
  if (year.today >= after.count_from) return say("year.burnt.count_now", {{"to", after.count_to}});
  if (fire.edge.parts.empty() && fire.edge_words.empty())
    return say("year.burnt.walk", {{"day", after.walk_edge}, {"from", after.count_from}});
  return say(
      "year.burnt.wait",
      {{"from", after.count_from}, {"to", after.count_to}, {"refill", after.refill_not_before}});
}

}  // namespace

Reply burnt_reply(const Year& year, std::optional<Date> day) {
  Reply reply = new_reply("burnt", year);
  const Fire* fire = fire_of(year, day);
  if (fire == nullptr) {
    reply.answer = day ? say("year.burnt.none_on_day", {{"day", *day}}) : say("year.burnt.none");
    reply.parts = {{say("year.heading.how"), {say("year.burnt.how")}}};
    return reply;
  }
  const tending::AfterFire after = tending::after_fire(fire->day, year.normals, year.rates);
  const auto resprouts = resprouts_of(year, *fire);
  reply.answer = answer_line(year, *fire, after, !resprouts.empty());
  LetterPart part{say("year.heading.fire", {{"day", fire->day}}),
                  area_lines(reply.workings, year, *fire)};
  for (const auto& [block, counted] : resprouts)
    part.sentences.push_back(resprout_line(reply.workings, block, counted, after));
  part.sentences.push_back(say("year.burnt.not_before", {{"day", after.refill_not_before}}));
  reply.parts = {std::move(part), {say("year.heading.how"), {say("year.burnt.how")}}};
  reply.tables = {steps_table(after)};
  Table blocks = blocks_table(reply.workings, year, *fire);
  if (!blocks.rows.empty()) reply.tables.push_back(std::move(blocks));
  return reply;
}

}  // namespace wildling::plan
