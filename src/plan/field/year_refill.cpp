#include <algorithm>
#include <cmath>
#include <map>

#include "base/workings_build.hpp"
#include "plan/field/year_money.hpp"
#include "plan/field/year_replies.hpp"
#include "stat/interval.hpp"
#include "tending/field_workings.hpp"
#include "tending/planting_work.hpp"
#include "tending/refill.hpp"

namespace wildling::plan {
namespace {

using tending::PlaceState;
using tending::RefillVerdict;

/// The newest counts of one cohort of one block, by row.
struct CohortCount {
  std::string block, cohort;
  std::map<int, RowCount> rows;
  Date last = {};
  int alive = 0, counted = 0;
  std::vector<int> unplaced;  ///< rows with dead whose places nobody wrote down
};

/// "first" 0, "refill_1" 1, "refill_2" 2.
int refills_before(const std::string& cohort) {
  if (cohort == "refill_1") return 1;
  return cohort == "refill_2" ? 2 : 0;
}

std::vector<CohortCount> cohorts_of(const Year& year, const std::string& block) {
  std::map<std::pair<std::string, std::string>, CohortCount> all;
  for (const RowCount& count : year.book.counts) {  // by day: a later count of a row replaces
    if (count.cohort == "resprout" || (!block.empty() && count.block != block)) continue;
    CohortCount& one = all[{count.block, count.cohort}];
    one.block = count.block;
    one.cohort = count.cohort;
    one.rows[count.row] = count;
    one.last = std::max(one.last, count.day);
  }
  std::vector<CohortCount> list;
  for (auto& [key, one] : all) {
    for (const auto& [row, count] : one.rows) {
      one.alive += count.alive;
      one.counted += count.counted;
      if (count.alive < count.counted && !count.dead_places) one.unplaced.push_back(row);
    }
    list.push_back(std::move(one));
  }
  return list;
}

/// States of one row: dead where they were written, else spread evenly.
std::vector<PlaceState> row_states(const RowCount& count) {
  std::vector<PlaceState> states(static_cast<std::size_t>(count.counted), PlaceState::alive);
  if (count.dead_places) {
    for (const int place : *count.dead_places)
      states[static_cast<std::size_t>(place - 1)] = PlaceState::dead;
    return states;
  }
  const int dead = count.counted - count.alive;
  for (int k = 0; k < dead; ++k)
    states[static_cast<std::size_t>((2 * k + 1) * count.counted / (2 * dead))] = PlaceState::dead;
  return states;
}

/// @param planted  trees of the block: what was not counted was not looked at
tending::PlaceRows place_rows(const CohortCount& cohort, double planted) {
  tending::PlaceRows rows;
  for (const auto& [row, count] : cohort.rows) {
    rows.resize(std::max(rows.size(), static_cast<std::size_t>(row)));
    rows[static_cast<std::size_t>(row - 1)] = row_states(count);
  }
  const double unseen = cohort.cohort == "first" ? planted - cohort.counted : 0;
  if (unseen >= 1) {
    rows.emplace_back();  // keeps the last row from having neighbours
    rows.emplace_back(static_cast<std::size_t>(unseen), PlaceState::not_looked_at);
  }
  return rows;
}

struct Judged {
  CohortCount count;
  tending::RefillAdvice advice;
  bool places_missing = false;  ///< so many are dead that their places decide, and they are missing
};

std::string at_of(const Judged& one) {
  return "tending/refill/" + one.count.block + "/" + one.count.cohort + "/";
}

Judged judge(Workings& workings, const Year& year, CohortCount count, double planted) {
  Judged one;
  one.advice =
      tending::refill_advice(place_rows(count, planted), refills_before(count.cohort), year.rates);
  const double limit = year.rates.value("tending.refill.dead_share");
  one.places_missing = !count.unplaced.empty() && one.advice.dead_share > limit &&
                       one.advice.verdict != RefillVerdict::cannot_tell;
  tending::add_workings(workings, count.block + "/" + count.cohort, one.advice);
  one.count = std::move(count);
  const std::string at = at_of(one);
  WorkingsBuilder build(workings);
  const auto percent = [&](const char* what, double share) {
    build.computed(at + what + std::string("_percent"),
                   say("year.label.percent_of", {{"block", one.count.block}}), 100 * share, "%",
                   "year.hundredfold", {at + what});
  };
  percent("refill_dead_share", one.advice.dead_share);
  percent("refill_low", one.advice.share_low);
  percent("refill_high", one.advice.share_high);
  return one;
}

std::string listed(const std::vector<int>& rows) {
  std::string text;
  for (const int row : rows) text += (text.empty() ? "" : ", ") + std::to_string(row);
  return text;
}

/// The verdict as a sentence that names its block and cohort.
Message verdict_line(const Judged& one) {
  const std::string at = at_of(one);
  const std::string verdict = one.places_missing
                                  ? "places_missing"
                                  : std::string(tending::verdict_name(one.advice.verdict));
  Message line = opening(
      say("year.refill." + verdict, {{"block", one.count.block},
                                     {"cohort", one.count.cohort},
                                     {"trees", static_cast<std::int64_t>(one.advice.in_gaps)},
                                     {"percent", rounded(100 * one.advice.dead_share)},
                                     {"low", rounded(100 * one.advice.share_low)},
                                     {"high", rounded(100 * one.advice.share_high)},
                                     {"n", static_cast<std::int64_t>(one.advice.looked_at)},
                                     {"rows", listed(one.count.unplaced)},
                                     {"day", one.count.last}}),
      {{"trees", at + "refill_in_gaps"},
       {"percent", at + "refill_dead_share_percent"},
       {"low", at + "refill_low_percent"},
       {"high", at + "refill_high_percent"},
       {"n", at + "refill_looked_at"}});
  if (one.places_missing) line.opens.erase("trees");
  return line;
}

/// What one refilled tree costs at today's wage and price, by the norms used, with nodes.
struct RefillPrice {
  double planted = 0, living = 0;
  std::string planted_key, living_key;
};

std::string wage_key(Workings& workings, const Year& year, const char* item, const char* parameter,
                     double& value) {
  const PriceStep* step = step_on(year.book.prices, item, year.today);
  value = step == nullptr ? year.rates.value(parameter) : step->price;
  if (step == nullptr) return add_parameter(workings, year.rates.at(parameter));
  return WorkingsBuilder(workings).leaf(
      std::string("year/price/") + item + "/" + iso_date(step->from),
      say("year.label.price", {{"item", std::string(item)}, {"day", step->from}}), step->price,
      "money", Origin::told, step->note);
}

RefillPrice refill_price(Workings& workings, const Year& year, const std::string& block,
                         double survival, const std::string& survival_key) {
  RefillPrice price;
  double wage = 0, seedling = 0;
  const std::string wage_at = wage_key(workings, year, "wage", "tending.wage_per_day", wage);
  const std::string seedling_at =
      wage_key(workings, year, "refill_seedling", "tending.price.seedling", seedling);
  const auto parameter = [&](const char* key) {
    return add_parameter(workings, year.rates.at(std::string("tending.") + key));
  };
  WorkingsBuilder build(workings);
  tending::PersonDays each = tending::planting_days_per_tree(year.rates);
  each += tending::person_days(1, tending::rate("pits", year.rates));
  const std::string days = build.computed(
      "year/refill/days_per_tree", say("year.label.refill_days"), each.used, "person-days",
      "year.refill_days",
      {parameter("rate.plant"), parameter("planters_per_distributor"), parameter("carry.load_kg"),
       parameter("carry.seedling_kg"), parameter("rate.carries"), parameter("rate.pits")});
  price.planted = each.used * year.rates.value("tending.refill.times") * wage + seedling;
  price.planted_key = build.computed("year/refill/per_planted", say("year.label.refill_planted"),
                                     price.planted, "money/tree", "year.refill_cost",
                                     {days, parameter("refill.times"), wage_at, seedling_at});
  if (!(survival > 0)) return price;
  price.living = price.planted / survival;
  price.living_key = build.computed(
      "year/refill/" + block + "/per_living", say("year.label.refill_living", {{"block", block}}),
      price.living, "money/tree", "tending.quotient", {price.planted_key, survival_key});
  return price;
}

struct Blocks {
  MoneyQuestion question;
  AliveAt at;

  std::size_t index_of(const std::string& code) const {
    for (std::size_t b = 0; b < question.care.inputs.size(); ++b) {
      if (question.care.inputs[b].block == code) return b;
    }
    return question.care.inputs.size();
  }
};

/// Cost of a refilled tree that lives, beside what waiting leaves.
std::vector<Message> cost_lines(Workings& workings, const Year& year, const Blocks& blocks,
                                const Judged& one) {
  const std::size_t b = blocks.index_of(one.count.block);
  if (b == blocks.question.care.inputs.size()) return {};
  WorkingsBuilder build(workings);
  const tending::BlockCare& care = blocks.question.care.inputs[b];
  const std::string survival = build.computed(
      "year/refill/" + one.count.block + "/survival",
      say("year.label.refill_survival", {{"block", one.count.block}}), blocks.at.share[b], "share",
      "tending.quotient",
      {blocks.at.key + one.count.block + "/alive", "tending/" + one.count.block + "/planted"});
  const RefillPrice price =
      refill_price(workings, year, one.count.block, blocks.at.share[b], survival);
  std::vector<Message> lines;
  if (price.living > 0)
    lines.push_back(opening(say("year.refill.cost", {{"block", one.count.block},
                                                     {"living", rounded(price.living)},
                                                     {"planted", rounded(price.planted)},
                                                     {"first", rounded(blocks.at.cost.per_alive)}}),
                            {{"living", price.living_key},
                             {"planted", price.planted_key},
                             {"first", blocks.at.key + "cost"}}));
  if (one.count.cohort != "first") return lines;
  const double per_ha = (1 - one.advice.dead_share) * care.planted() / care.area_ha;
  const std::string at = "year/refill/" + one.count.block + "/";
  const std::string now =
      build.computed(at + "per_ha", say("year.label.refill_per_ha", {{"block", one.count.block}}),
                     per_ha, "trees/ha", "year.living_per_ha",
                     {at_of(one) + "refill_dead_share", "tending/" + one.count.block + "/planted",
                      "tending/" + one.count.block + "/area"});
  const double target = year.programme.parameters.value("plan.target_stems_per_ha");
  const std::string target_key =
      add_parameter(workings, year.programme.parameters.at("plan.target_stems_per_ha"));
  lines.push_back(opening(
      say("year.refill.waiting",
          {{"block", one.count.block}, {"now", rounded(per_ha)}, {"target", rounded(target)}}),
      {{"now", now}, {"target", target_key}}));
  return lines;
}

Table cohorts_table(const std::vector<Judged>& judged) {
  Table table;
  table.name = "cohorts";
  table.caption = say("year.cohorts.caption");
  table.columns = {column("block"),
                   column("cohort"),
                   column("day"),
                   column("counted"),
                   column("dead"),
                   column("dead_percent", 1),
                   column("low_percent", 1),
                   column("high_percent", 1),
                   column("in_gaps"),
                   column("verdict")};
  for (const Judged& one : judged) {
    const std::string at = at_of(one);
    const std::string verdict =
        one.places_missing ? "cannot_tell" : std::string(tending::verdict_name(one.advice.verdict));
    table.rows.push_back(
        {cell(one.count.block), cell(say("year.cohort", {{"cohort", one.count.cohort}})),
         cell(std::optional<Date>(one.count.last)),
         cell(static_cast<std::int64_t>(one.advice.looked_at), at + "refill_looked_at"),
         cell(static_cast<std::int64_t>(one.advice.dead), at + "refill_dead"),
         cell(100 * one.advice.dead_share, at + "refill_dead_share_percent"),
         cell(100 * one.advice.share_low, at + "refill_low_percent"),
         cell(100 * one.advice.share_high, at + "refill_high_percent"),
         one.places_missing
             ? Cell{}
             : cell(static_cast<std::int64_t>(one.advice.in_gaps), at + "refill_in_gaps"),
         cell(say("year.verdict", {{"verdict", verdict}}))});
  }
  return table;
}

/// The order of refill: places of each row.
Table rows_table(const std::vector<Judged>& judged) {
  Table table;
  table.name = "rows";
  table.caption = say("year.refill_rows.caption");
  table.columns = {column("block"), column("cohort"), column("row"),     column("counted"),
                   column("alive"), column("dead"),   column("in_gaps"), column("dead_places")};
  for (const Judged& one : judged) {
    for (const auto& [row, count] : one.count.rows) {
      std::string places;
      if (count.dead_places) places = listed(*count.dead_places);
      const auto gaps =
          static_cast<std::int64_t>(one.advice.gaps_by_row[static_cast<std::size_t>(row - 1)]);
      table.rows.push_back(
          {cell(one.count.block), cell(say("year.cohort", {{"cohort", one.count.cohort}})),
           cell(std::int64_t{row}), cell(std::int64_t{count.counted}),
           cell(std::int64_t{count.alive}), cell(std::int64_t{count.counted} - count.alive),
           count.dead_places ? cell(gaps) : Cell{}, cell(places)});
    }
  }
  return table;
}

/// Each block by its newest cohort.
std::vector<const Judged*> newest(const std::vector<Judged>& judged) {
  std::vector<const Judged*> list;
  for (const Judged& one : judged) {
    if (!list.empty() && list.back()->count.block == one.count.block) {
      list.back() = &one;
    } else {
      list.push_back(&one);
    }
  }
  return list;
}

Message summary_line(const std::vector<const Judged*>& blocks) {
  std::int64_t refill = 0, trees = 0, unclear = 0;
  for (const Judged* one : blocks) {
    if (one->places_missing || one->advice.verdict == RefillVerdict::cannot_tell) {
      ++unclear;
    } else if (one->advice.verdict == RefillVerdict::refill) {
      ++refill;
      trees += one->advice.in_gaps;
    }
  }
  return say("year.refill.summary", {{"blocks", static_cast<std::int64_t>(blocks.size())},
                                     {"refill", refill},
                                     {"trees", trees},
                                     {"unclear", unclear}});
}

}  // namespace

Reply refill_reply(const Year& year, const std::string& block) {
  Reply reply = new_reply("refill", year);
  if (!block.empty() &&
      std::none_of(year.plan.blocks.begin(), year.plan.blocks.end(),
                   [&](const BlockPart& part) { return part.block.code == block; }))
    throw Error(ErrorKind::input, "--block", say("year.no_block", {{"block", block}}));
  std::vector<CohortCount> cohorts = cohorts_of(year, block);
  if (cohorts.empty()) {
    reply.answer = say("year.refill.no_count");
    reply.parts = {{say("year.heading.how"), {say("year.refill.how_to_count")}}};
    return reply;
  }
  Blocks blocks;
  blocks.question = money_question(year, 5);
  const MoneyAnswer answer = money_answer(blocks.question, year.rates);
  add_money_nodes(reply.workings, year, blocks.question, answer);
  blocks.at = alive_at(reply.workings, year, blocks.question, 3);
  std::vector<Judged> judged;
  for (CohortCount& count : cohorts) {
    const std::size_t b = blocks.index_of(count.block);
    const double planted = b < blocks.question.care.inputs.size()
                               ? blocks.question.care.inputs[b].planted()
                               : count.counted;
    judged.push_back(judge(reply.workings, year, std::move(count), planted));
  }
  const auto current = newest(judged);
  reply.answer = current.size() == 1 ? verdict_line(*current.front()) : summary_line(current);
  LetterPart part{say("year.heading.blocks"), {}};
  for (const Judged* one : current) {
    if (current.size() > 1) part.sentences.push_back(verdict_line(*one));
    const auto lines = cost_lines(reply.workings, year, blocks, *one);
    part.sentences.insert(part.sentences.end(), lines.begin(), lines.end());
  }
  reply.parts = {
      std::move(part),
      {say("year.heading.how"),
       {say("year.refill.rule"), say("tending.refill.note"), say("year.refill.cohorts")}}};
  reply.tables = {cohorts_table(judged), rows_table(judged)};
  return reply;
}

}  // namespace wildling::plan
