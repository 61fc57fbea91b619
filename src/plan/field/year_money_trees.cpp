// What a living tree costs, and what dropping a job saves and costs.
#include <algorithm>
#include <cmath>

#include "base/workings_build.hpp"
#include "plan/field/year_money.hpp"
#include "species/library.hpp"
#include "species/survival.hpp"
#include "tending/smother.hpp"

namespace wildling::plan {
namespace {

using Keys = std::vector<std::string>;
using tending::Work;

const BlockPart& part_of(const Year& year, const std::string& code) {
  return *std::find_if(year.plan.blocks.begin(), year.plan.blocks.end(),
                       [&](const BlockPart& part) { return part.block.code == code; });
}

/// The programme's candidate, or one that knows no more than its group.
species::Candidate candidate_of(const Year& year, const SpeciesPart& part) {
  for (const species::Candidate& candidate : year.programme.candidates) {
    if (candidate.name() == part.name) return candidate;
  }
  species::Candidate unknown;
  unknown.species.scientific_name = part.name;
  unknown.species.group = species::parse_group(part.group);
  return unknown;
}

/// Survival of every species on one kind of ground at one age, with nodes.
struct SpeciesAlive {
  std::vector<species::Survival> survival;
  Keys share, low, high;
};

SpeciesAlive species_alive(Workings& workings, const Year& year, bool under_cover, double years,
                           const std::string& at) {
  static const species::Library library = species::Library::shipped();
  SpeciesAlive all;
  WorkingsBuilder build(workings);
  for (const SpeciesPart& part : year.plan.species) {
    if (part.planted == 0) {
      all.survival.emplace_back();
      for (Keys* keys : {&all.share, &all.low, &all.high}) keys->emplace_back();
      continue;
    }
    all.survival.push_back(species::expected_survival(candidate_of(year, part), under_cover,
                                                      12 * years, library.survival(),
                                                      year.programme.parameters));
    const species::Survival& one = all.survival.back();
    const std::string key = at + (under_cover ? "under_cover/" : "open/") + part.name + "/survival";
    all.share.push_back(
        species::add_survival(workings, key, part.name, one, year.programme.parameters));
    const auto end = [&](const char* what, double value) {
      return build.leaf(key + "/" + what,
                        say(std::string("year.label.survival_") + what,
                            {{"species", part.name}, {"years", years}}),
                        value, "share", one.origin, one.source,
                        "the level at the end of what was published; see docs/species.md");
    };
    all.low.push_back(end("range_low", one.low));
    all.high.push_back(end("range_high", one.high));
  }
  return all;
}

struct BlockAlive {
  double alive = 0, low = 0, high = 0;
  Keys alive_inputs, low_inputs, high_inputs;
};

BlockAlive block_alive(Workings& workings, const Year& year, const BlockPart& part,
                       const SpeciesAlive& species) {
  BlockAlive block;
  WorkingsBuilder build(workings);
  for (std::size_t i = 0; i < part.counts.size(); ++i) {
    if (part.counts[i] == 0) continue;
    const std::string& name = year.plan.species[i].name;
    const std::string count =
        build.leaf("block/" + part.block.code + "/planted/" + name,
                   say("plan.node.block_species", {{"block", part.block.code}, {"species", name}}),
                   part.counts[i], "seedlings", Origin::chosen, "shared out of the chosen mix");
    const auto add = [&](double& sum, Keys& inputs, double share, const std::string& key) {
      sum += share * part.counts[i];
      inputs.push_back(key);
      inputs.push_back(count);
    };
    add(block.alive, block.alive_inputs, species.survival[i].share, species.share[i]);
    add(block.low, block.low_inputs, species.survival[i].low, species.low[i]);
    add(block.high, block.high_inputs, species.survival[i].high, species.high[i]);
  }
  return block;
}

/// Keys of everything paid until `years` after each block's first planting day.
Keys spent_keys(const MoneyQuestion& question, double years) {
  std::map<std::string, Date> until;
  Date last = question.care.inputs.front().planting_first;
  for (const tending::BlockCare& block : question.care.inputs) {
    until[block.block] =
        block.planting_first + std::chrono::days(static_cast<int>(std::lround(years * 365.25)));
    last = std::max(last, until[block.block]);
  }
  Keys keys;
  for (const Work& work : question.paid.works) {
    if (work.due > until.at(work.block)) continue;
    keys.push_back(work_key(work) + "wages");
    if (work.materials > 0) keys.push_back(work_key(work) + "materials");
  }
  return keys;
}

double other_until(const MoneyQuestion& question, double years, Keys& keys, const Year& year) {
  Date last = {};
  for (const tending::BlockCare& block : question.care.inputs)
    last = std::max(last, block.planting_first);
  last += std::chrono::days(static_cast<int>(std::lround(years * 365.25)));
  double sum = 0;
  for (const OtherCost& cost : question.other) {
    if (cost.day > last) continue;
    sum += cost.amount;
    if (cost.what == "seedlings") {
      keys.push_back("year/seedlings/" + cost.block);
    } else if (cost.what == "trips") {
      keys.push_back("year/trips_cost");
    } else {
      keys.push_back("year/price/month/" +
                     iso_date(step_on(year.book.prices, "month", cost.day)->from));
    }
  }
  return sum;
}

/// Where a block's uncut cover stands highest above its trees: the first of each month is looked
/// at.
struct WorstDay {
  Date day = {};
  double cover_m = 0;
  std::array<double, 3> heights_m{};
  double trees = 0;
};

WorstDay worst_day(const tending::BlockCare& block, const tending::BlockRounds& rounds,
                   const Parameters& parameters) {
  WorstDay worst;
  worst.day = block.planting_first;
  for (Date day = block.planting_first; day < rounds.end; day = add_months(day, 1)) {
    WorstDay one;
    one.day = day;
    one.cover_m = tending::height_after(rounds.numbers.cover,
                                        tending::wet_months(rounds.numbers, rounds.cleared, day));
    for (std::size_t g = 0; g < 3; ++g)
      one.heights_m[g] = tending::tree_height_m(static_cast<species::Group>(g),
                                                block.planting_first, day, parameters);
    one.trees = tending::trees_at_risk(one.cover_m, one.heights_m, block.planted_by_group, 0,
                                       parameters.value("tending.risk.height_cv"));
    if (one.trees > worst.trees || day == block.planting_first) worst = one;
  }
  return worst;
}

/// Nodes of the trees below the uncut cover of a block. @return key
std::string overtopped_key(Workings& workings, const Year& year, const tending::BlockCare& block,
                           const WorstDay& worst) {
  constexpr std::array<const char*, 3> kGroups = {"pioneer", "early", "late"};
  WorkingsBuilder build(workings);
  const std::string at = "year/uncut/" + block.block + "/";
  const auto label = [&](const std::string& what) {
    return say("year.label.uncut_" + what, {{"block", block.block}});
  };
  const std::string day = build.leaf(
      at + "day", label("day"), static_cast<double>((worst.day - block.planting_first).count()),
      "days after planting", Origin::chosen);
  // The rule that the block's first round looks at, with another day.
  const WorkingsNode* round = workings.find("tending/" + block.block + "/round/1/cover");
  std::string cover;
  if (round != nullptr && round->inputs.size() > 2) {
    Keys inputs(round->inputs.begin(), round->inputs.end() - 2);
    inputs.push_back(day);
    inputs.push_back("tending/" + block.block + "/cleared");
    cover = build.computed(at + "cover", label("cover"), worst.cover_m, "m", "tending.cover_height",
                           inputs);
  } else {
    cover = build.leaf(at + "cover", label("cover"), worst.cover_m, "m", Origin::assumed);
  }
  Keys inputs = {cover};
  for (std::size_t g = 0; g < 3; ++g) {
    const auto parameter = [&](const std::string& key) {
      return add_parameter(workings, year.rates.at("tending.tree." + key));
    };
    inputs.push_back(build.computed(
        at + "height_" + kGroups[g], label(std::string("height_") + kGroups[g]), worst.heights_m[g],
        "m", "tending.tree_height",
        {parameter("height_at_planting_m"), parameter(std::string("growth.") + kGroups[g]), day}));
  }
  for (std::size_t g = 0; g < 3; ++g)
    inputs.push_back(build.leaf(at + "trees_" + kGroups[g],
                                label(std::string("trees_") + kGroups[g]),
                                block.planted_by_group[g], "trees", Origin::chosen));
  inputs.push_back(build.leaf("year/uncut/climbed", say("year.label.uncut_climbed"), 0, "share",
                              Origin::chosen));
  inputs.push_back(add_parameter(workings, year.rates.at("tending.risk.height_cv")));
  return build.computed(at + "trees", label("trees"), worst.trees, "trees", "tending.trees_at_risk",
                        inputs);
}

struct JobKeys {
  Keys cost, days, places;
};

/// What is done already can be dropped no more.
tending::CarePlan still_to_do(const MoneyQuestion& question) {
  tending::CarePlan plan = question.paid;
  std::erase_if(plan.works, [&](const Work& work) { return work.due < question.start; });
  tending::add_up(plan);
  return plan;
}

std::map<tending::Job, JobKeys> job_keys(const MoneyQuestion& question) {
  std::map<tending::Job, JobKeys> jobs;
  for (const Work& work : still_to_do(question).works) {
    JobKeys& keys = jobs[work.job];
    keys.cost.push_back(work_key(work) + "wages");
    if (work.materials > 0) keys.cost.push_back(work_key(work) + "materials");
    keys.days.push_back("tending/" + work.block + "/" + std::string(tending::job_name(work.job)) +
                        "/" + std::to_string(work.round) + "/days");
    if (work.job == tending::Job::refill)
      keys.places.push_back("tending/" + work.block + "/refilled");
  }
  return jobs;
}

}  // namespace

AliveAt alive_at(Workings& workings, const Year& year, const MoneyQuestion& question,
                 double years) {
  AliveAt at;
  at.years = years;
  at.key = "year/tree/" + std::to_string(static_cast<int>(years)) + "/";
  WorkingsBuilder build(workings);
  std::map<bool, SpeciesAlive> grounds;
  Keys alive, low, high;
  for (const tending::BlockCare& care : question.care.inputs) {
    const BlockPart& part = part_of(year, care.block);
    const bool cover = care.cover == ground::Cover::under_trees;
    if (!grounds.contains(cover))
      grounds[cover] = species_alive(workings, year, cover, years, at.key);
    const BlockAlive block = block_alive(workings, year, part, grounds[cover]);
    at.share.push_back(care.planted() > 0 ? block.alive / care.planted() : 0);
    at.alive_low += block.low;
    at.alive_high += block.high;
    alive.push_back(
        build.computed(at.key + care.block + "/alive",
                       say("year.label.alive_block", {{"block", care.block}, {"years", years}}),
                       block.alive, "trees", "plan.sum_of_products", block.alive_inputs));
    low.insert(low.end(), block.low_inputs.begin(), block.low_inputs.end());
    high.insert(high.end(), block.high_inputs.begin(), block.high_inputs.end());
  }
  const SpeciesAlive& any = grounds.begin()->second;
  for (std::size_t i = 0; i < year.plan.species.size(); ++i) {
    if (year.plan.species[i].planted == 0) continue;
    ++at.species;
    at.assumed_species += any.survival[i].origin == Origin::assumed ? 1 : 0;
  }
  Keys spent = spent_keys(question, years);
  const double other = other_until(question, years, spent, year);
  at.cost = tending::cost_per_tree(question.paid, years, at.share, other);
  const auto node = [&](const char* what, double value, const std::string& unit,
                        const std::string& formula, Keys inputs) {
    return build.computed(at.key + what,
                          say(std::string("year.label.tree_") + what, {{"years", years}}), value,
                          unit, formula, std::move(inputs));
  };
  const std::string all = node("alive", at.cost.alive, "trees", "plan.sum", alive);
  const std::string all_low = node("alive_low", at.alive_low, "trees", "plan.sum_of_products", low);
  const std::string all_high =
      node("alive_high", at.alive_high, "trees", "plan.sum_of_products", high);
  const std::string paid = node("spent", at.cost.spent, "money", "plan.sum", spent);
  const auto per = [&](const char* what, double trees, const std::string& key) {
    if (trees > 0) node(what, at.cost.spent / trees, "money/tree", "tending.quotient", {paid, key});
  };
  per("cost", at.cost.alive, all);
  per("cost_high", at.alive_low, all_low);
  per("cost_low", at.alive_high, all_high);
  Keys planted;
  double trees = 0;
  for (const tending::BlockCare& care : question.care.inputs) {
    planted.push_back("tending/" + care.block + "/planted");
    trees += care.planted();
  }
  const std::string all_planted =
      build.computed("year/trees", say("year.label.trees"), trees, "trees", "plan.sum", planted);
  node("cost_planted", at.cost.per_planted, "money/tree", "tending.quotient", {paid, all_planted});
  return at;
}

std::vector<tending::Dropped> jobs_dropped(Workings& workings, const Year& year,
                                           const MoneyQuestion& question) {
  std::vector<tending::Dropped> list = tending::dropping(still_to_do(question), year.rates);
  WorkingsBuilder build(workings);
  Keys uncut;
  double below = 0;
  for (std::size_t b = 0; b < question.care.inputs.size(); ++b) {
    const WorstDay worst = worst_day(question.care.inputs[b], question.care.blocks[b], year.rates);
    below += worst.trees;
    uncut.push_back(overtopped_key(workings, year, question.care.inputs[b], worst));
  }
  build.computed("year/uncut/trees", say("year.label.uncut_all"), below, "trees", "plan.sum",
                 uncut);
  const auto keys = job_keys(question);
  for (const tending::Dropped& job : list) {
    const std::string name(tending::job_name(job.job));
    const std::string at = "year/job/" + name + "/";
    const auto label = [&](const char* what) {
      return say(std::string("year.label.job_") + what, {{"job", name}});
    };
    build.computed(at + "cost", label("cost"), job.saves, "money", "plan.sum",
                   keys.at(job.job).cost);
    build.computed(at + "days", label("days"), job.person_days, "person-days", "plan.sum",
                   keys.at(job.job).days);
    if (!keys.at(job.job).places.empty())
      build.computed(at + "places", label("places"), job.trees_not_refilled, "trees", "plan.sum",
                     keys.at(job.job).places);
  }
  return list;
}

}  // namespace wildling::plan
