#include <algorithm>
#include <string_view>

#include "plan/export_files.hpp"

namespace wildling::plan {
namespace {

using exports::Cell;
using exports::Column;
using exports::Holds;
using exports::Table;
using exports::Use;

Table table_of(const char* name, Use use, std::vector<std::string> blocks,
               const std::vector<const char*>& columns) {
  Table table;
  table.name = name;
  table.use = use;
  table.blocks = std::move(blocks);
  for (const char* column : columns) {
    const bool block = std::string_view(column) == "block";
    table.columns.push_back(
        {.name = column, .holds = block ? Holds::block : Holds::plain, .sensitive = {}});
  }
  return table;
}

void add_row(Table& table, std::vector<Cell> cells) {
  exports::TableRow row;
  row.cells = std::move(cells);
  table.rows.push_back(std::move(row));
}

Cell whole(const std::optional<int>& value) {
  return value ? Cell(std::int64_t{*value}) : Cell();
}

Cell real(const std::optional<double>& value) {
  return value ? Cell(*value) : Cell();
}

Cell day(const std::optional<Date>& value) {
  return value ? Cell(*value) : Cell();
}

std::vector<std::string> planted_codes(const PlanResult& plan) {
  std::vector<std::string> codes;
  for (const BlockPart& part : plan.blocks) {
    if (to_be_planted(part)) codes.push_back(part.block.code);
  }
  return codes;
}

void add_sums(Table& table, const char* kind, const std::vector<SumPart>& sums) {
  for (const SumPart& sum : sums)
    add_row(table, {std::string(kind), sum.name, sum.person_days, sum.wages, sum.materials,
                    sum.wages + sum.materials});
}

}  // namespace

Table species_table(const PlanResult& plan) {
  Table table =
      table_of("species", Use::office, {},
               {"species", "local_name", "group", "ready", "can_raise", "planted", "draft"});
  for (const SpeciesPart& part : plan.species)
    add_row(table, {part.name, part.local_name, part.group, whole(part.ready),
                    whole(part.can_raise), std::int64_t{part.planted}, std::int64_t{part.draft}});
  return table;
}

Table seed_table(const PlanResult& plan) {
  Table table =
      table_of("seed", Use::seed_list, planted_codes(plan),
               {"species", "local_name", "way", "to_field", "ready", "count", "seed_kg", "fruit_kg",
                "trees_to_visit", "collect_from", "collect_by", "sow_by", "prick_out",
                "harden_from", "dispatch", "timing", "confidence", "stand_in"});
  for (const CollectPart& part : plan.collections)
    add_row(table, {part.species, part.local_name, part.way, part.to_field, part.ready, part.count,
                    real(part.seed_kg), real(part.fruit_kg), std::int64_t{part.trees_to_visit},
                    day(part.collect_from), day(part.collect_by), day(part.sow_by),
                    day(part.prick_out), day(part.harden_from), day(part.dispatch), part.timing,
                    part.confidence, part.stand_in});
  return table;
}

Table work_table(const PlanResult& plan) {
  Table table = table_of("work", Use::crew_list, planted_codes(plan),
                         {"block", "job", "round", "from", "due", "quantity", "unit", "person_days",
                          "person_days_low", "person_days_high", "wages", "materials"});
  for (const WorkPart& work : plan.works) {
    if (std::find(table.blocks.begin(), table.blocks.end(), work.block) == table.blocks.end())
      continue;
    add_row(table, {work.block, work.job, std::int64_t{work.round}, work.from, work.due,
                    work.quantity, work.unit, work.person_days, work.person_days_low,
                    work.person_days_high, work.wages, work.materials});
  }
  return table;
}

Table weeks_table(const PlanResult& plan) {
  Table table =
      table_of("weeks", Use::office, {}, {"first", "days", "work_days", "person_days", "people"});
  for (const WeekPart& week : plan.weeks)
    add_row(table, {week.first, std::int64_t{week.days}, week.work_days, week.person_days,
                    std::int64_t{week.people}});
  return table;
}

Table money_table(const PlanResult& plan) {
  Table table = table_of("money", Use::office, {},
                         {"sum_of", "name", "person_days", "wages", "materials", "total"});
  const MoneyPart& money = plan.money;
  add_sums(table, "job", money.by_job);
  add_sums(table, "month", money.by_month);
  add_sums(table, "block", money.by_block);
  add_row(table, {std::string("seedlings"), std::string(), Cell(), Cell(), Cell(),
                  money.seedlings_known ? Cell(money.seedlings) : Cell()});
  add_row(table, {std::string("all"), std::string(), money.person_days, money.wages,
                  money.materials, money.total});
  return table;
}

}  // namespace wildling::plan
