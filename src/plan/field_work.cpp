#include "plan/field_work.hpp"

#include <algorithm>

namespace wildling::plan {
namespace {

std::string timing_word(nursery::Timing timing) {
  if (timing == nursery::Timing::in_time) return "in_time";
  return timing == nursery::Timing::hurry ? "hurry" : "too_late";
}

void put_dates(CollectPart& part, const nursery::Dates& dates) {
  part.collect_from = dates.collect_from;
  part.collect_by = dates.collect_by;
  part.sow_by = dates.start_by;
  part.prick_out = dates.prick_out;
  part.harden_from = dates.harden_from;
  part.dispatch = dates.dispatch;
  part.timing = timing_word(dates.timing);
}

std::array<double, 3> by_group(const BlockPart& part, const Programme& programme) {
  std::array<double, 3> sums{};
  for (std::size_t i = 0; i < part.counts.size(); ++i) {
    // A species of unknown group is tended as if it were the slowest.
    const auto group = programme.candidates[i].species.group.value_or(species::Group::late);
    sums[static_cast<std::size_t>(group)] += part.counts[i];
  }
  return sums;
}

SumPart sum_part(const std::string& name, const tending::Sum& sum) {
  return {name, sum.days.used, sum.wages, sum.materials};
}

std::vector<SumPart> sum_parts(const std::map<std::string, tending::Sum>& sums) {
  std::vector<SumPart> parts;
  for (const auto& [name, sum] : sums) parts.push_back(sum_part(name, sum));
  return parts;
}

}  // namespace

double firebreak_m(const BlockPart& part, const Programme& programme,
                   const std::vector<BlockPart>& blocks) {
  double sum = 0;
  for (const BlockPart& other : blocks) {
    if (other.block.site == part.block.site) sum += other.perimeter_m;
  }
  const auto found = programme.site_perimeters_m.find(part.block.site);
  return found == programme.site_perimeters_m.end() ? 0 : found->second * part.perimeter_m / sum;
}

nursery::CollectionPlan collect(const Programme& programme, const std::vector<SpeciesPart>& species,
                                const PlantingDays& days, Date today) {
  std::vector<nursery::Order> orders;
  for (std::size_t i = 0; i < species.size(); ++i) {
    const species::Candidate& candidate = programme.candidates[i];
    nursery::Order order;
    order.species = species[i].name;
    order.to_field = species[i].planted;
    order.facts = &candidate.species;
    order.ready = candidate.stock.seedlings_ready.value_or(0);
    if (candidate.stock.can_raise) order.can_raise = *candidate.stock.can_raise;
    order.mother_trees = candidate.stock.mother_trees;
    orders.push_back(std::move(order));
  }
  return nursery::collections(orders, {days.first, today},
                              programme.parameters.value("plan.order_confidence"),
                              programme.parameters);
}

std::optional<tending::CarePlan> tend(const Programme& programme, const Land& land,
                                      const PlantingDays& days) {
  std::vector<tending::BlockCare> cares;
  for (const BlockPart& part : land.blocks) {
    if (!part.open || part.planted == 0) continue;
    tending::BlockCare care;
    care.block = part.block.code;
    care.area_ha = part.area_ha;
    care.cover = part.block.cover;
    if (part.block.slope_known) care.slope_deg = part.block.slope_deg;
    care.planted_by_group = by_group(part, programme);
    care.row_spacing_m = programme.parameters.value("layout.spacing");
    care.planting_first = days.first;
    care.planting_last = days.last;
    care.firebreak_m = firebreak_m(part, programme, land.blocks);
    cares.push_back(std::move(care));
  }
  if (cares.empty()) return {};
  return tending::care(cares, programme.parameters.value("plan.years"), normals_of(programme),
                       programme.parameters);
}

std::vector<CollectPart> collect_parts(const nursery::CollectionPlan& plan,
                                       const std::vector<SpeciesPart>& species) {
  std::vector<CollectPart> parts;
  for (const nursery::Collection& collection : plan.collections) {
    CollectPart part;
    part.species = collection.species;
    const auto found = std::find_if(species.begin(), species.end(), [&](const SpeciesPart& s) {
      return s.name == collection.species;
    });
    if (found != species.end()) part.local_name = found->local_name;
    part.way = nursery::way_word(collection.way);
    part.to_field = collection.to_field;
    part.ready = collection.ready;
    part.count = collection.count;
    part.by_means = collection.by_means;
    part.confidence = collection.confidence;
    part.chance = collection.chance;
    part.mean_yield = collection.mean_yield;
    part.seed_kg = collection.seed_kg;
    part.fruit_kg = collection.fruit_kg;
    part.trees_to_visit = collection.trees_to_visit;
    if (collection.dates) put_dates(part, *collection.dates);
    part.short_likely = collection.short_likely;
    part.stand_in = collection.stand_in;
    part.first_line = collection.first_line;
    part.notes = collection.notes;
    parts.push_back(std::move(part));
  }
  return parts;
}

void put_care(PlanResult& result, const tending::CarePlan& care) {
  for (const tending::Work& work : care.works) {
    result.works.push_back({work.block, std::string(tending::job_name(work.job)), work.from,
                            work.due, work.round, work.quantity, work.unit, work.days.used,
                            work.days.low, work.days.high, work.wages, work.materials, work.why});
  }
  for (const tending::PlantingWeek& week : care.weeks) {
    result.weeks.push_back({week.first, week.days, week.work_days, week.person_days, week.people});
  }
  result.tending_notes.push_back(care.first_line);
  result.tending_notes.insert(result.tending_notes.end(), care.notes.begin(), care.notes.end());
  result.money.wages = care.total.wages;
  result.money.materials = care.total.materials;
  result.money.person_days = care.total.days.used;
  result.money.years = care.years;
  result.money.by_job = sum_parts(care.by_job);
  result.money.by_month = sum_parts(care.by_month);
  result.money.by_block = sum_parts(care.by_block);
}

}  // namespace wildling::plan
