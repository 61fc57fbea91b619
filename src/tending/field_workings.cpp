#include "tending/field_workings.hpp"

#include <fmt/format.h>

namespace wildling::tending {
namespace {

using Keys = std::vector<std::string>;
using Arguments = std::map<std::string, Argument>;

/// Adds nodes below one key, whose labels all take the same arguments.
class Nodes {
 public:
  Nodes(Workings& workings, std::string at, Arguments arguments)
      : workings_(workings), at_(std::move(at)), arguments_(std::move(arguments)) {}

  std::string leaf(const std::string& name, double value, std::string unit, Origin origin) {
    return add(name, value, std::move(unit), origin, {}, {});
  }

  std::string node(const std::string& name, double value, std::string unit, std::string formula,
                   Keys inputs) {
    return add(name, value, std::move(unit), Origin::computed, std::move(formula),
               std::move(inputs));
  }

 private:
  std::string add(const std::string& name, double value, std::string unit, Origin origin,
                  std::string formula, Keys inputs) {
    WorkingsNode full;
    full.key = at_ + name;
    full.label = say("tending.label." + name, arguments_);
    full.value = value;
    full.unit = std::move(unit);
    full.origin = origin;
    full.formula = std::move(formula);
    full.inputs = std::move(inputs);
    return workings_.add(std::move(full));
  }

  Workings& workings_;
  std::string at_;
  Arguments arguments_;
};

std::string add_parameter_of(Workings& workings, const Parameters& parameters,
                             const std::string& name) {
  return add_parameter(workings, parameters.at("tending." + name));
}

}  // namespace

void add_workings(Workings& workings, std::span<const DueLine> lines,
                  const Parameters& parameters) {
  constexpr std::array<const char*, 3> kGroups = {"pioneer", "early", "late"};
  for (const DueLine& line : lines) {
    if (line.urgency == Urgency::cannot_tell) continue;
    Nodes nodes(workings, "tending/walk/" + line.block + "/", {{"block", line.block}});
    const std::string cover = nodes.node(
        "cover_ahead", line.cover_ahead_m, "m", "tending.walked_cover",
        {nodes.leaf("cover_full", line.rule.full_height_m, "m", Origin::assumed),
         nodes.leaf("cover_cut", line.rule.cut_height_m, "m", Origin::assumed),
         nodes.leaf("cover_growth", line.rule.growth_per_month, "1/month", Origin::assumed),
         nodes.leaf("walked_cover", line.walked_cover_m, "m", Origin::measured),
         nodes.leaf("months_ahead", line.months_ahead, "wet months", Origin::measured)});
    Keys inputs = {cover};
    for (std::size_t g = 0; g < 3; ++g) {
      inputs.push_back(nodes.leaf(std::string("height_ahead_") + kGroups[g],
                                  line.heights_ahead_m[g], "m", Origin::assumed));
    }
    for (std::size_t g = 0; g < 3; ++g) {
      inputs.push_back(
          nodes.leaf(std::string("living_") + kGroups[g], line.living[g], "trees", Origin::told));
    }
    inputs.push_back(nodes.leaf("climbed", line.climbed_share, "share", Origin::measured));
    inputs.push_back(add_parameter_of(workings, parameters, "risk.height_cv"));
    const std::string risk =
        nodes.node("trees_at_risk", line.trees_at_risk, "trees", "tending.trees_at_risk", inputs);
    if (!(line.person_days > 0)) continue;
    const std::string days =
        nodes.leaf("walk_days", line.person_days, "person-days", Origin::documented);
    nodes.node("at_risk_per_day", line.at_risk_per_day, "trees/person-day", "tending.quotient",
               {risk, days});
  }
}

void add_workings(Workings& workings, std::span<const OwnRate> rates,
                  const Parameters& parameters) {
  for (const OwnRate& own : rates) {
    Nodes nodes(workings, "tending/diary/" + own.rate + "/", {{"rate", own.rate}});
    const std::string quantity =
        nodes.leaf("diary_quantity", own.own_quantity, "", Origin::measured);
    const std::string days =
        nodes.leaf("diary_days", own.own_days, "person-days", Origin::measured);
    nodes.node("diary_own", own.own, "per day", "tending.own_rate", {quantity, days});
    if (own.replaces_book) {
      nodes.node("diary_used", own.used, "per day", "tending.own_rate", {quantity, days});
    } else {
      nodes.node("diary_used", own.used, "per day", "tending.shrunk_rate",
                 {quantity, days, add_parameter_of(workings, parameters, "rate." + own.rate),
                  add_parameter_of(workings, parameters, "diary.book_days")});
    }
  }
}

void add_workings(Workings& workings, const std::string& name, const CrewNeed& need,
                  const Parameters& parameters) {
  Nodes nodes(workings, "tending/crew/" + name + "/", {{"window", name}});
  const auto parameter = [&](const char* key) {
    return add_parameter_of(workings, parameters, key);
  };
  const std::string trees = nodes.leaf("crew_trees", need.trees, "trees", Origin::chosen);
  const std::string slope = nodes.leaf("crew_slope", need.slope_factor, "", Origin::assumed);
  const std::string work_days =
      nodes.leaf("crew_work_days", need.work_days, "days", Origin::measured);
  const std::string carries =
      nodes.node("crew_carries", need.carries, "carries", "tending.carries",
                 {trees, parameter("carry.load_kg"), parameter("carry.seedling_kg")});
  const std::string pits = nodes.node("crew_pits", need.pits.used, "person-days", "tending.days",
                                      {trees, parameter("rate.pits"), slope});
  const std::string carrying =
      nodes.node("crew_carrying", need.carrying.used, "person-days", "tending.days",
                 {carries, parameter("rate.carries"), slope});
  const std::string planting =
      nodes.node("crew_planting", need.planting.used, "person-days", "tending.crew_planting_days",
                 {trees, parameter("rate.plant"), slope, parameter("planters_per_distributor")});
  const std::string crates = nodes.node("crew_crates", need.crates, "crates", "tending.crates",
                                        {trees, parameter("crate.seedlings")});
  nodes.node("crew_trips", need.trips, "trips", "tending.crates",
             {crates, parameter("trip.crates")});
  nodes.node("crew_load", need.load_t, "t", "tending.load",
             {trees, parameter("carry.seedling_kg")});
  if (!(need.work_days > 0)) return;
  nodes.node("crew_people", need.people_planting, "people", "tending.people",
             {work_days, carrying, planting});
  nodes.node("crew_people_with_pits", need.people_with_pits, "people", "tending.people",
             {work_days, carrying, planting, pits});
}

void add_workings(Workings& workings, const std::string& block, const RefillAdvice& advice) {
  if (advice.looked_at == 0) return;
  Nodes nodes(workings, "tending/refill/" + block + "/", {{"block", block}});
  const std::string dead = nodes.leaf("refill_dead", advice.dead, "trees", Origin::measured);
  const std::string seen =
      nodes.leaf("refill_looked_at", advice.looked_at, "trees", Origin::measured);
  nodes.leaf("refill_in_gaps", advice.in_gaps, "trees", Origin::measured);
  nodes.node("refill_dead_share", advice.dead_share, "share", "tending.quotient", {dead, seen});
  nodes.node("refill_low", advice.share_low, "share", "tending.wilson_low", {dead, seen});
  nodes.node("refill_high", advice.share_high, "share", "tending.wilson_high", {dead, seen});
}

void add_workings(Workings& workings, const std::string& name, const CashTable& table) {
  const std::string at = "tending/money/" + name + "/";
  Nodes all(workings, at, {{"name", name}});
  std::string before = all.leaf("money_opening", table.opening, "money", Origin::told);
  if (table.months.empty()) return;
  Keys balances = {
      all.leaf("money_first_month", table.months.front().month, "months", Origin::chosen)};
  for (const CashMonth& month : table.months) {
    Nodes nodes(workings, at + month_text(month.month) + "/",
                {{"name", name}, {"month", month_text(month.month)}});
    before = nodes.node("money_balance", month.balance, "money", "tending.balance",
                        {before, nodes.leaf("money_in", month.in, "money", Origin::told),
                         nodes.leaf("money_out", month.out, "money", Origin::told)});
    balances.push_back(before);
  }
  all.node("money_runs_out", table.runs_out.value_or(0), "months", "tending.runs_out", balances);
}

void add_workings(Workings& workings, const CostPerTree& cost) {
  Nodes nodes(workings, fmt::format("tending/per_tree/{:g}/", cost.years), {{"years", cost.years}});
  const std::string spent = nodes.leaf("per_tree_spent", cost.spent, "money", Origin::told);
  const std::string alive = nodes.leaf("per_tree_alive", cost.alive, "trees", Origin::assumed);
  nodes.node("per_tree_cost", cost.per_alive, "money", "tending.quotient", {spent, alive});
}

}  // namespace wildling::tending
