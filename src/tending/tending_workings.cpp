#include "tending/tending_workings.hpp"

#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "base/workings_build.hpp"

namespace wildling::tending {
namespace {

using Keys = std::vector<std::string>;

std::string add(Workings& workings, std::string key, Message label, double value, std::string unit,
                std::string formula, Keys inputs) {
  return WorkingsBuilder(workings).computed(std::move(key), std::move(label), value,
                                            std::move(unit), std::move(formula), std::move(inputs));
}

std::string add_leaf(Workings& workings, std::string key, Message label, double value,
                     std::string unit, Origin origin, std::string note = {}) {
  return WorkingsBuilder(workings).leaf(std::move(key), std::move(label), value, std::move(unit),
                                        origin, {}, std::move(note));
}

/// Nodes of one block.
class BlockNodes {
 public:
  BlockNodes(Workings& workings, const BlockCare& block, const BlockRounds& rounds,
             const Parameters& parameters, const Keys& rain)
      : workings_(workings),
        block_(block),
        rounds_(rounds),
        parameters_(parameters),
        rain_(rain),
        at_("tending/" + block.block + "/") {
    planted_ = leaf("planted", block.planted(), "trees", Origin::chosen);
    area_ = leaf("area", block.area_ha, "ha", Origin::measured);
    row_spacing_ = leaf("row_spacing", block.row_spacing_m, "m", Origin::chosen);
    add_slope();
    node("ring_share", rounds.ring_share, "share", "tending.ring_share",
         {planted_, area_, parameter("ring_diameter_m")});
    add_rounds();
  }

  /// @return key of the work's person-days and, by `money`, of its cost
  std::string add_work(const Work& work, std::string& money) {
    const std::string key =
        at_ + std::string(job_name(work.job)) + "/" + std::to_string(work.round) + "/";
    const Message label =
        say("tending.label.days", {{"block", block_.block},
                                   {"job", std::string(job_name(work.job))},
                                   {"round", static_cast<std::int64_t>(work.round)}});
    std::string days = add_days(work, key + "days", label);
    const auto money_label = [&](const char* what) {
      return say(what, {{"block", block_.block},
                        {"job", std::string(job_name(work.job))},
                        {"round", static_cast<std::int64_t>(work.round)}});
    };
    const std::string wages =
        add(workings_, key + "wages", money_label("tending.label.wages"), work.wages, "money",
            "tending.product", {days, parameter("wage_per_day")});
    Keys parts = {wages};
    if (work.materials > 0) {
      const bool refill = work.job == Job::refill;
      parts.push_back(add(
          workings_, key + "materials", money_label("tending.label.materials"), work.materials,
          "money", "tending.product",
          {refill ? refilled_ : planted_, parameter(refill ? "price.seedling" : "price.stake")}));
    }
    money = add(workings_, key + "cost", money_label("tending.label.cost"), work.cost(), "money",
                "tending.sum", parts);
    return days;
  }

 private:
  [[nodiscard]] Message label(const std::string& what) const {
    return say("tending.label." + what, {{"block", block_.block}});
  }

  std::string leaf(const std::string& name, double value, std::string unit, Origin origin,
                   std::string note = {}) {
    return add_leaf(workings_, at_ + name, label(name), value, std::move(unit), origin,
                    std::move(note));
  }

  std::string node(const std::string& name, double value, std::string unit, std::string formula,
                   Keys inputs) {
    return add(workings_, at_ + name, label(name), value, std::move(unit), std::move(formula),
               std::move(inputs));
  }

  std::string parameter(const std::string& name) {
    return add_parameter(workings_, parameters_.at("tending." + name));
  }

  void add_slope() {
    if (!block_.slope_deg) {
      slope_ = leaf("slope_factor", 1, "", Origin::assumed, "slope not known: as on flat land");
      return;
    }
    const std::string slope = leaf("slope", *block_.slope_deg, "degrees", Origin::measured);
    slope_ = node(
        "slope_factor", slope_factor(block_.slope_deg, parameters_), "", "tending.slope_factor",
        {slope, parameter("slope.free_deg"), parameter("slope.per_deg"), parameter("slope.most")});
  }

  /// In the order that read_rule of formulas.cpp takes them.
  Keys rule_keys() {
    const std::string cover = "cover." + std::string(ground::cover_name(block_.cover));
    Keys keys = {parameter(cover + ".full_height_m"), parameter("cover.cut_height_m")};
    keys.push_back(block_.own_growth_per_month ? leaf("own_growth", *block_.own_growth_per_month,
                                                      "1/month", Origin::measured)
                                               : parameter(cover + ".growth_per_month"));
    for (const std::string& name :
         {std::string("tree.height_at_planting_m"),
          "tree.growth." + std::string(species::group_name(rounds_.slowest)),
          std::string("due_share"), std::string("least_gap_days"),
          std::string("late_clearing_days"), std::string("wet_month_mm")}) {
      keys.push_back(parameter(name));
    }
    keys.push_back(add_parameter(workings_, parameters_.at("climate.month.dry_mm")));
    keys.insert(keys.end(), rain_.begin(), rain_.end());
    keys.push_back(leaf("planting_first",
                        static_cast<double>(block_.planting_first.time_since_epoch().count()),
                        "days since 1970-01-01", Origin::chosen));
    return keys;
  }

  [[nodiscard]] double after_planting(Date day) const {
    return static_cast<double>((day - block_.planting_first).count());
  }

  void add_rounds() {
    const Keys rule = rule_keys();
    const std::string end =
        leaf("end", after_planting(rounds_.end), "days after planting", Origin::chosen);
    const std::string length =
        leaf("planting_days", after_planting(block_.planting_last) + 1, "days", Origin::chosen);
    const std::string cleared =
        leaf("cleared", after_planting(rounds_.cleared), "days after planting", Origin::chosen);
    std::string last = cleared;
    for (const Round& round : rounds_.rounds) {
      const auto label_of = [&](const char* what) {
        return say(what,
                   {{"block", block_.block}, {"round", static_cast<std::int64_t>(round.number)}});
      };
      const std::string at = at_ + "round/" + std::to_string(round.number) + "/";
      Keys inputs = rule;
      if (round.number == 1) {
        for (const std::string& key :
             {parameter("cleared_days_before"), parameter("first_round_days"), length, end}) {
          inputs.push_back(key);
        }
      } else {
        inputs.push_back(last);
        inputs.push_back(end);
      }
      const std::string day =
          add(workings_, at + "day", label_of("tending.label.round_day"), after_planting(round.due),
              "days after planting",
              round.number == 1 ? "tending.first_round" : "tending.next_round", inputs);
      Keys heights = rule;
      heights.push_back(day);
      heights.push_back(last);
      add(workings_, at + "cover", label_of("tending.label.round_cover"), round.cover_m, "m",
          "tending.cover_height", heights);
      add(workings_, at + "tree", label_of("tending.label.round_tree"), round.tree_m, "m",
          "tending.tree_height", {rule[3], rule[4], day});
      last = day;
    }
  }

  /// What clearing treats, as the kind of round that treats the same.
  [[nodiscard]] Job cleared_kind() const {
    if (block_.cover == ground::Cover::fern || block_.cover == ground::Cover::shrubs)
      return Job::line;
    const bool whole = block_.cover == ground::Cover::climbers ||
                       rounds_.ring_share >= parameters_.value("tending.whole_from_share");
    return whole ? Job::whole : Job::ring;
  }

  /// Key of what a round treats, in m2.
  std::string treated(const Work& work) {
    Job kind = work.job;
    if (kind == Job::clear) kind = cleared_kind();
    switch (kind) {
      case Job::ring:
        return node("ring_m2", work.quantity, "m2", "tending.ring_m2",
                    {planted_, area_, parameter("ring_diameter_m")});
      case Job::line:
        return node("line_m2", work.quantity, "m2", "tending.line_m2",
                    {area_, parameter("line_width_m"), row_spacing_});
      case Job::pressing:
        return node("between_rings_m2", work.quantity, "m2", "tending.between_rings_m2",
                    {planted_, area_, parameter("ring_diameter_m")});
      default:
        return node("area_m2", work.quantity, "m2", "tending.area_m2", {area_});
    }
  }

  std::string add_days(const Work& work, std::string key, Message label) {
    const auto days = [&](std::string formula, Keys inputs) {
      return add(workings_, std::move(key), std::move(label), work.days.used, "person-days",
                 std::move(formula), std::move(inputs));
    };
    switch (work.job) {
      case Job::mark_places:
        return days("tending.days", {planted_, parameter("rate.mark_places"), slope_});
      case Job::dig_pits:
        return days("tending.days", {planted_, parameter("rate.pits"), slope_});
      case Job::climber_cutting:
        return days("tending.days", {planted_, parameter("rate.climber_cutting"), slope_});
      case Job::carry:
        return days("tending.carry_days",
                    {planted_, parameter("rate.carries"), slope_, parameter("carry.load_kg"),
                     parameter("carry.seedling_kg")});
      case Job::plant:
        return days("tending.plant_days", {planted_, parameter("rate.plant"), slope_,
                                           parameter("planters_per_distributor")});
      case Job::firebreak:
        return days("tending.firebreak_days",
                    {leaf("firebreak", work.quantity, "m", Origin::measured),
                     parameter("rate.slash"), slope_, parameter("firebreak.width_m")});
      case Job::refill:
        refilled_ = node("refilled", work.quantity, "trees", "tending.product",
                         {planted_, parameter("refill.share")});
        return days(
            "tending.refill_days",
            {refilled_, slope_, parameter("rate.plant"), parameter("planters_per_distributor"),
             parameter("carry.load_kg"), parameter("carry.seedling_kg"), parameter("rate.carries"),
             parameter("rate.pits"), parameter("refill.times")});
      default:
        break;
    }
    const char* rate_name = work.job == Job::pressing ? "rate.pressing" : "rate.slash";
    return days("tending.days", {treated(work), parameter(rate_name), slope_});
  }

  Workings& workings_;
  const BlockCare& block_;
  const BlockRounds& rounds_;
  const Parameters& parameters_;
  const Keys& rain_;
  std::string at_, planted_, area_, row_spacing_, slope_, refilled_;
};

Keys add_rain(Workings& workings, const RainByMonth& rain) {
  Keys keys;
  for (std::size_t i = 0; i < 12; ++i) {
    const std::string note = rain.known[i] ? "" : "no figure for this month: taken as wet";
    keys.push_back(
        add_leaf(workings, fmt::format("tending/rain/{:02}", i + 1),
                 say("tending.label.rain", {{"month", static_cast<std::int64_t>(i) + 1}}),
                 rain.mm[i], "mm", rain.known[i] ? Origin::measured : Origin::assumed, note));
  }
  return keys;
}

void add_sums(Workings& workings, const std::string& name, const std::map<std::string, Sum>& sums,
              const std::map<std::string, Keys>& days, const std::map<std::string, Keys>& costs) {
  for (const auto& [key, sum] : sums) {
    std::string at = "tending/by_";
    at.append(name).append("/").append(key);
    add(workings, at + "/days", say("tending.label.sum_days", {{"of", key}}), sum.days.used,
        "person-days", "tending.sum", days.at(key));
    add(workings, at + "/cost", say("tending.label.sum_cost", {{"of", key}}), sum.cost(), "money",
        "tending.sum", costs.at(key));
  }
}

}  // namespace

void add_workings(Workings& workings, const CarePlan& plan, const Parameters& parameters) {
  const Keys rain = add_rain(workings, plan.rain);
  std::map<std::string, BlockNodes> blocks;
  for (std::size_t i = 0; i < plan.inputs.size(); ++i) {
    blocks.try_emplace(plan.inputs[i].block, workings, plan.inputs[i], plan.blocks[i], parameters,
                       rain);
  }
  std::map<std::string, Keys> days[3];
  std::map<std::string, Keys> costs[3];
  Keys all_days;
  Keys all_costs;
  for (const Work& work : plan.works) {
    std::string cost;
    const std::string key = blocks.at(work.block).add_work(work, cost);
    const std::string groups[3] = {
        work.block, std::string(job_name(work.job)),
        fmt::format("{:04}-{:02}", year_of(work.due), month_of(work.due))};
    for (std::size_t g = 0; g < 3; ++g) {
      days[g][groups[g]].push_back(key);
      costs[g][groups[g]].push_back(cost);
    }
    all_days.push_back(key);
    all_costs.push_back(cost);
  }
  add_sums(workings, "block", plan.by_block, days[0], costs[0]);
  add_sums(workings, "job", plan.by_job, days[1], costs[1]);
  add_sums(workings, "month", plan.by_month, days[2], costs[2]);
  add(workings, "tending/total/days", say("tending.label.total_days"), plan.total.days.used,
      "person-days", "tending.sum", all_days);
  add(workings, "tending/total/cost", say("tending.label.total_cost"), plan.total.cost(), "money",
      "tending.sum", all_costs);
}

}  // namespace wildling::tending
