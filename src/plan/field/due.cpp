#include <algorithm>
#include <cmath>

#include "plan/field/facts.hpp"
#include "plan/field/nodes.hpp"
#include "plan/field/replies.hpp"
#include "plan/field/tomorrow_work.hpp"
#include "plan/season.hpp"
#include "tending/field_workings.hpp"

namespace wildling::plan {
namespace {

using tending::DueLine;
using tending::Urgency;

bool now(const DueLine& line) {
  return line.urgency == Urgency::overdue || line.urgency == Urgency::tomorrow;
}

Message job_words(const DueLine& line) {
  return say("tending.job." + std::string(tending::job_name(line.job)));
}

std::string at(const DueLine& line, const char* name) {
  return "tending/walk/" + line.block + "/" + name;
}

std::string block_names(const std::vector<DueLine>& lines, bool (*take)(const DueLine&)) {
  std::string names;
  for (const DueLine& line : lines) {
    if (take(line)) names += (names.empty() ? "" : ", ") + line.block;
  }
  return names;
}

std::int64_t count_of(const std::vector<DueLine>& lines, bool (*take)(const DueLine&)) {
  return std::count_if(lines.begin(), lines.end(), take);
}

const DueLine* next_due(const std::vector<DueLine>& lines) {
  const DueLine* next = nullptr;
  for (const DueLine& line : lines) {
    if (line.due && (next == nullptr || *line.due < *next->due)) next = &line;
  }
  return next;
}

Message due_answer(const std::vector<DueLine>& lines) {
  if (lines.empty()) return say("fieldbook.due.nothing_planted");
  const auto known = [](const DueLine& line) { return line.urgency != Urgency::cannot_tell; };
  if (std::none_of(lines.begin(), lines.end(), known))
    return say("fieldbook.due.cannot_tell", {{"blocks", static_cast<std::int64_t>(lines.size())}});
  const auto first = std::find_if(lines.begin(), lines.end(), now);
  if (first != lines.end()) {
    return opening(say("fieldbook.due.now", {{"count", count_of(lines, now)},
                                             {"block", first->block},
                                             {"job", std::string(tending::job_name(first->job))},
                                             {"days", first->person_days},
                                             {"trees", std::round(first->trees_at_risk)}}),
                   {{"days", at(*first, "walk_days")}, {"trees", at(*first, "trees_at_risk")}});
  }
  if (const DueLine* next = next_due(lines))
    return say("fieldbook.due.next", {{"block", next->block}, {"day", *next->due}});
  return say("fieldbook.due.none");
}

Table due_table(const std::vector<DueLine>& lines) {
  Table table;
  table.name = "due";
  table.caption = say("fieldbook.due.caption");
  table.columns = {{"block", say("fieldbook.column.block"), 0},
                   {"when", say("fieldbook.column.when"), 0},
                   {"due", say("fieldbook.column.due"), 0},
                   {"job", say("fieldbook.column.job"), 0},
                   {"at_risk_per_day", say("fieldbook.column.at_risk_per_day"), 1},
                   {"at_risk", say("fieldbook.column.at_risk"), 0},
                   {"person_days", say("fieldbook.column.person_days"), 1},
                   {"cover_m", say("fieldbook.column.cover"), 2},
                   {"tree_m", say("fieldbook.column.trees"), 2},
                   {"walked_days_ago", say("fieldbook.column.walked_ago"), 0},
                   {"note", say("fieldbook.column.note"), 0}};
  for (const DueLine& line : lines) {
    const Message when = say("tending.urgency." + std::string(tending::urgency_name(line.urgency)));
    const Cell note = line.notes.empty() ? Cell{} : cell(line.notes.front());
    const Cell ago = line.walked_days_ago < 0 ? Cell{} : cell(line.walked_days_ago);
    if (line.urgency == Urgency::cannot_tell) {
      table.rows.push_back({cell(line.block),
                            cell(when),
                            {},
                            cell(say("fieldbook.due.walk")),
                            {},
                            {},
                            {},
                            {},
                            {},
                            ago,
                            note});
      continue;
    }
    table.rows.push_back({cell(line.block), cell(when), cell(line.due), cell(job_words(line)),
                          cell(line.at_risk_per_day, at(line, "at_risk_per_day")),
                          cell(line.trees_at_risk, at(line, "trees_at_risk")),
                          cell(line.person_days, at(line, "walk_days")),
                          cell(line.cover_m, at(line, "cover_today")),
                          cell(line.tree_m, at(line, "tree_today")), ago, note});
  }
  return table;
}

Table walk_table(const FieldBook& book, const std::vector<PlantedBlock>& planted, Date today) {
  Table table;
  table.name = "next_walk";
  table.caption = say("fieldbook.due.walks");
  table.columns = {{"block", say("fieldbook.column.block"), 0},
                   {"last_walk", say("fieldbook.column.last_walk"), 0},
                   {"walk_by", say("fieldbook.column.walk_by"), 0}};
  const auto every = std::chrono::days(
      static_cast<int>(std::lround(book.programme.parameters.value("tending.walk.every_days"))));
  std::vector<std::pair<Date, std::vector<Cell>>> rows;
  for (const PlantedBlock& block : planted) {
    std::optional<Date> last;
    for (const WalkNote& walk : book.walks) {
      if (walk.block == block.care.block) last = walk.day;
    }
    const Date by =
        last ? std::max(*last + every, today + std::chrono::days(1)) : today + std::chrono::days(1);
    rows.push_back({by, {cell(block.care.block), cell(last), cell(std::optional<Date>(by))}});
  }
  std::stable_sort(rows.begin(), rows.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  for (auto& row : rows) table.rows.push_back(std::move(row.second));
  return table;
}

/// Works of the plan that are no tending rounds: those come from the walks.
Table month_table(const FieldBook& book, int days, Date today, FieldNodes& nodes) {
  Table table;
  table.name = "planned";
  table.caption = say("fieldbook.due.planned", {{"days", std::int64_t{days}}});
  table.columns = {{"due", say("fieldbook.column.due"), 0},
                   {"block", say("fieldbook.column.block"), 0},
                   {"job", say("fieldbook.column.job"), 0},
                   {"person_days", say("fieldbook.column.person_days"), 1}};
  if (!book.plan) return table;
  for (const WorkPart& work : book.plan->works) {
    const auto job = tending::parse_job(work.job);
    const bool round = job && *job >= tending::Job::ring && *job <= tending::Job::climber_cutting;
    if (!job || round || work.due <= today || work.due > today + std::chrono::days(days)) continue;
    const std::string key =
        nodes.leaf("field/planned/" + work.block + "/" + work.job + "/" + iso_date(work.due),
                   say("fieldbook.label.planned_days", {{"block", work.block}}), work.person_days,
                   "person-days", Origin::chosen, "plan " + std::to_string(book.plan->head.number));
    table.rows.push_back({cell(std::optional<Date>(work.due)), cell(work.block),
                          cell(say("tending.job." + work.job)), cell(work.person_days, key)});
  }
  return table;
}

void add_today(FieldNodes& nodes, const std::vector<DueLine>& lines) {
  for (const DueLine& line : lines) {
    if (line.urgency == Urgency::cannot_tell) continue;
    nodes.leaf(at(line, "cover_today"), say("fieldbook.label.cover_today", {{"block", line.block}}),
               line.cover_m, "m", Origin::assumed, "walk, grown on by the rule of its cover");
    nodes.leaf(at(line, "tree_today"), say("fieldbook.label.tree_today", {{"block", line.block}}),
               line.tree_m, "m", Origin::assumed, "walk or growth of the slowest group");
  }
}

/// What rings leave uncut, for the spacing of the block with the most trees per hectare.
std::optional<Message> rings_leave(const std::vector<PlantedBlock>& planted,
                                   const std::vector<DueLine>& lines, const Parameters& parameters,
                                   FieldNodes& nodes) {
  const PlantedBlock* most = nullptr;
  for (const PlantedBlock& block : planted) {
    const bool rings = std::any_of(lines.begin(), lines.end(), [&](const DueLine& line) {
      return line.block == block.care.block && line.job == tending::Job::ring &&
             line.urgency != Urgency::cannot_tell;
    });
    if (rings && (most == nullptr || block.care.planted() / block.care.area_ha >
                                         most->care.planted() / most->care.area_ha))
      most = &block;
  }
  if (most == nullptr) return {};
  const double per_ha = most->care.planted() / most->care.area_ha;
  const double left = 1 - tending::ring_share(per_ha, parameters.value("tending.ring_diameter_m"));
  const std::string density =
      nodes.leaf("field/rings/per_ha", say("fieldbook.label.per_ha", {{"block", most->care.block}}),
                 per_ha, "trees/ha", Origin::measured);
  const std::string diameter = nodes.parameter(parameters, "tending.ring_diameter_m");
  const std::string share = nodes.node("field/rings/left", say("fieldbook.label.rings_left"), left,
                                       "share", "field.ring_left", {density, diameter});
  const std::string percent =
      nodes.node("field/rings/left_percent", say("fieldbook.label.rings_left"), 100 * left, "%",
                 "field.product",
                 {share, nodes.leaf("field/hundred", say("fieldbook.label.hundred"), 100, "%",
                                    Origin::documented, "per cent")});
  return opening(
      say("fieldbook.due.rings_leave", {{"diameter", parameters.value("tending.ring_diameter_m")},
                                        {"per_ha", per_ha},
                                        {"percent", 100 * left}}),
      {{"diameter", diameter}, {"per_ha", density}, {"percent", percent}});
}

LetterPart harm_part(const FieldBook& book, const std::vector<PlantedBlock>& planted,
                     const std::vector<DueLine>& lines, Date today, FieldNodes& nodes) {
  LetterPart part{say("fieldbook.due.harm"), {}};
  const Parameters& parameters = book.programme.parameters;
  std::vector<CrewOrder> orders;
  for (const DueLine& line : lines) {
    CrewOrder order;
    order.block = line.block;
    order.job = line.job;
    if (line.urgency != Urgency::cannot_tell) orders.push_back(order);
  }
  part.sentences = cautions_for(book, orders, today + std::chrono::days(1));
  const auto dry = tending::dry_season(normals_of(book.programme), parameters);
  if (dry.exists()) {
    const Date start = tending::dry_start(dry, today);
    const Date last = start - std::chrono::days(static_cast<int>(
                                  std::lround(parameters.value("tending.late_clearing_days"))));
    if (today < last)
      part.sentences.push_back(say("fieldbook.due.clear_until", {{"day", last}, {"dry", start}}));
  }
  const std::string free =
      block_names(lines, [](const DueLine& l) { return l.urgency == Urgency::free; });
  if (!free.empty()) part.sentences.push_back(say("fieldbook.due.free", {{"blocks", free}}));
  if (const auto rings = rings_leave(planted, lines, parameters, nodes))
    part.sentences.push_back(*rings);
  return part;
}

LetterPart what_part(const std::vector<DueLine>& lines, int days, Date today, FieldNodes& nodes) {
  LetterPart part{say("fieldbook.due.heading"), {}};
  std::vector<std::string> keys;
  double sum = 0;
  std::int64_t blocks = 0;
  for (const DueLine& line : lines) {
    if (!line.due || *line.due > today + std::chrono::days(days)) continue;
    sum += line.person_days;
    ++blocks;
    keys.push_back(at(line, "walk_days"));
  }
  if (blocks > 0) {
    const std::string key = nodes.node("field/due/person_days", say("fieldbook.label.due_days"),
                                       sum, "person-days", "plan.sum", std::move(keys));
    part.sentences.push_back(
        opening(say("fieldbook.due.month",
                    {{"days", std::int64_t{days}}, {"blocks", blocks}, {"sum", sum}}),
                {{"sum", key}}));
  }
  const auto unknown = [](const DueLine& l) { return l.urgency == Urgency::cannot_tell; };
  if (const std::int64_t n = count_of(lines, unknown); n > 0) {
    part.sentences.push_back(
        say("fieldbook.due.walk_these", {{"count", n}, {"blocks", block_names(lines, unknown)}}));
  }
  return part;
}

void put_plan_numbers(LetterPart& part, const std::vector<PlantedBlock>& planted) {
  std::string names;
  for (const PlantedBlock& block : planted) {
    if (!block.counted) names += (names.empty() ? "" : ", ") + block.care.block;
  }
  if (!names.empty()) part.sentences.push_back(say("fieldbook.due.by_plan", {{"blocks", names}}));
}

}  // namespace

Reply due_reply(const FieldBook& full, int days, Date today) {
  const FieldBook book = book_until(full, today);
  Reply reply;
  reply.name = "due";
  FieldNodes nodes(reply.workings);
  const auto planted = planted_blocks(book, today);
  const std::vector<DueLine> lines = due_lines(book, planted, today);
  const Parameters used = tending::with_own_rates(book.programme.parameters, rates_of(book));
  tending::add_workings(reply.workings, lines, used);
  add_today(nodes, lines);
  reply.answer = due_answer(lines);
  if (!lines.empty()) {
    LetterPart harm = harm_part(book, planted, lines, today, nodes);
    if (!harm.sentences.empty()) reply.parts.push_back(std::move(harm));
    LetterPart what = what_part(lines, days, today, nodes);
    put_plan_numbers(what, planted);
    if (!what.sentences.empty()) reply.parts.push_back(std::move(what));
    reply.tables.push_back(due_table(lines));
    reply.tables.push_back(walk_table(book, planted, today));
  }
  Table month = month_table(book, days, today, nodes);
  if (!month.rows.empty()) reply.tables.push_back(std::move(month));
  return reply;
}

}  // namespace wildling::plan
