#include "nursery/collection.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "base/error.hpp"
#include "base/exact_math.hpp"
#include "base/parallel.hpp"
#include "nursery/words_of.hpp"

namespace wildling::nursery {
namespace {

void check(const Order& order) {
  const bool numbers = order.to_field >= 0 && order.ready >= 0 && order.to_field <= 50'000'000;
  if (!numbers || order.lots < 1 || order.lots > 12) {
    throw Error(
        ErrorKind::input, order.species,
        say("nursery.order_impossible", {{"to_field", static_cast<std::int64_t>(order.to_field)},
                                         {"ready", static_cast<std::int64_t>(order.ready)},
                                         {"lots", static_cast<std::int64_t>(order.lots)}}));
  }
}

bool propagated_by(const Order& order, std::string_view word) {
  if (order.facts == nullptr) return false;
  const auto& ways = order.facts->propagation;
  return std::find(ways.begin(), ways.end(), word) != ways.end();
}

stat::YieldDistribution yield_of(std::span<const StageUsed> stages, int lots) {
  const stat::YieldDistribution one = stat::product_of_stages(plain(stages));
  if (lots <= 1 || one.cells() == 1) return one;
  const std::vector<stat::YieldDistribution> parts(static_cast<std::size_t>(lots), one);
  const std::vector<double> weights(static_cast<std::size_t>(lots), 1.0 / lots);
  return stat::mean_of_lots(parts, weights);
}

/// Seed when its time fits; else wildling seedlings where the species gives them; else nothing can
/// be promised.
void choose_way(Collection& result, const Order& order, const Season& season,
                const Parameters& parameters) {
  const bool seed_way =
      order.facts == nullptr || order.facts->propagation.empty() || propagated_by(order, "seed");
  const bool wildling_way = propagated_by(order, "wildling");
  const Dates seed = dates_from_seed(order, season, parameters);
  const Dates lifted = dates_from_wildlings(order, season, parameters);
  const bool no_fruit =
      seed.fruit == Fruit::misses || seed.fruit == Fruit::mast || order.fruit_seen == false;
  const bool seed_fits = seed_way && !no_fruit && seed.timing != Timing::too_late;
  if (!seed_fits) result.notes = why_no_seed(order, seed);
  if (seed_fits) {
    result.way = Way::seed;
    result.dates = seed;
  } else if (wildling_way && lifted.timing != Timing::too_late) {
    result.way = Way::wildlings;
    result.dates = lifted;
  } else {
    result.way = Way::cannot_tell;
    result.dates = seed_way || !wildling_way ? seed : lifted;
  }
  result.stages = result.way == Way::wildlings ? stages_from_wildlings(order, parameters)
                                               : stages_from_seed(order, parameters);
}

void set_counts(Collection& result, const Order& order, const stat::InHand& in_hand) {
  const stat::YieldDistribution yield = yield_of(result.stages, order.lots);
  result.mean_yield = mean_yield(result.stages);
  result.yield_low = yield.quantile(0.05);
  result.yield_high = yield.quantile(0.95);
  result.lots = order.lots;
  result.count = stat::smallest_count(result.to_field, yield, result.confidence, in_hand);
  result.chance = stat::chance_of_enough(result.to_field, result.count, yield, in_hand);
  result.chance_of_one_less =
      result.count > 0 ? stat::chance_of_enough(result.to_field, result.count - 1, yield, in_hand)
                       : 0;
  const double missing =
      std::max(0.0, static_cast<double>(result.to_field) - result.ready_arriving_mean);
  result.by_means = static_cast<long long>(std::ceil(missing / result.mean_yield - 1e-9));
  result.per_lot = (result.count + result.lots - 1) / result.lots;
}

/// Kilograms, trees, and the carpet that must stand so that enough is left.
void set_weights(Collection& result, const Order& order, const Parameters& parameters) {
  result.trees_to_visit =
      static_cast<int>(std::lround(parameters.value("nursery.mother_trees.least")));
  const auto count = static_cast<double>(result.count);
  if (result.way == Way::wildlings) {
    result.carpet_at_least = static_cast<long long>(
        std::ceil(count / parameters.value("nursery.wildling.take_share") - 1e-9));
    return;
  }
  if (order.facts != nullptr && order.facts->seeds_per_kg) {
    result.seeds_per_kg = order.facts->seeds_per_kg;
    result.seed_kg = count / *result.seeds_per_kg;
    if (order.facts->has_tag("dipterocarp"))
      result.fruit_kg = result.seed_kg;  // one-seeded nut, wings off
  }
  if (order.seeds_per_kg_of_fruit && *order.seeds_per_kg_of_fruit > 0) {
    result.fruit_kg = count / *order.seeds_per_kg_of_fruit;
  }
}

Collection collect(const Order& order, const Season& season, double confidence,
                   const Parameters& parameters) {
  Collection result;
  result.species = order.species;
  result.to_field = order.to_field;
  result.ready = order.ready;
  result.confidence = confidence;
  stat::InHand in_hand;
  if (order.ready > 0) {
    result.ready_stages = stages_of_ready(order, parameters);
    const stat::YieldDistribution ready_yield = yield_of(result.ready_stages, 1);
    result.ready_arriving_mean = static_cast<double>(order.ready) * mean_yield(result.ready_stages);
    result.chance_with_ready_only =
        stat::chance_of_enough(order.to_field, order.ready, ready_yield);
    in_hand = stat::arriving(order.ready, ready_yield);
  }
  if (result.chance_with_ready_only >= confidence) {
    result.chance = result.chance_with_ready_only;
    return result;
  }
  choose_way(result, order, season, parameters);
  set_counts(result, order, in_hand);
  if (result.way != Way::cannot_tell) set_weights(result, order, parameters);
  return result;
}

bool same_group(const Order& a, const Order& b) {
  return a.facts != nullptr && b.facts != nullptr && a.facts->group &&
         a.facts->group == b.facts->group;
}

/// Seedlings over what its own order needs.
long long spare(const Order& order) {
  return order.ready + order.can_raise.value_or(0) - order.to_field;
}

/// The species of the same group with the most to spare.
std::string stand_in_for(std::size_t place, std::span<const Order> orders) {
  const Order* best = nullptr;
  for (std::size_t i = 0; i < orders.size(); ++i) {
    if (i == place || !same_group(orders[i], orders[place]) || spare(orders[i]) <= 0) continue;
    if (best == nullptr || spare(orders[i]) > spare(*best)) best = &orders[i];
  }
  return best == nullptr ? std::string() : best->species;
}

void judge_shortage(Collection& result, std::size_t place, std::span<const Order> orders,
                    const Parameters& parameters) {
  if (result.way == Way::none) return;
  const Order& order = orders[place];
  const bool late = result.dates && result.dates->timing != Timing::in_time;
  const bool few_trees =
      order.mother_trees && *order.mother_trees < parameters.value("nursery.mother_trees.least");
  const bool unknown_fruit = result.way == Way::seed &&
                             result.dates->fruit == Fruit::month_unknown &&
                             !order.fruit_seen.value_or(false);
  result.short_likely = result.way == Way::cannot_tell || late || few_trees || unknown_fruit;
  if (result.short_likely) result.stand_in = stand_in_for(place, orders);
}

Space space_for(std::span<const Collection> collections, const Parameters& parameters) {
  Space space;
  double pots = 0;
  for (const Collection& c : collections) {
    if (c.way != Way::seed && c.way != Way::wildlings) continue;
    double potted = static_cast<double>(c.count);
    for (const StageUsed& used : c.stages) {
      if (used.stage == StageName::pricking_out || used.stage == StageName::growing_on) break;
      potted *= used.mean;
    }
    pots += potted;
  }
  space.pots = static_cast<long long>(std::ceil(pots - 1e-9));
  const double d_cm = parameters.value("nursery.pot_diameter_cm");
  const auto count = static_cast<double>(space.pots);
  space.bed_m2 = count / (10000 / (d_cm * d_cm)) * parameters.value("nursery.bed_factor");
  space.water_low_l_day = count / 1000 * parameters.value("nursery.water.low_l_per_1000_day");
  space.water_high_l_day = count / 1000 * parameters.value("nursery.water.high_l_per_1000_day");
  return space;
}

}  // namespace

std::string_view way_word(Way way) {
  constexpr std::array<std::string_view, 4> kWords = {"none", "seed", "wildlings", "cannot_tell"};
  return kWords[static_cast<std::size_t>(way)];
}

CollectionPlan collections(std::span<const Order> orders, const Season& season, double confidence,
                           const Parameters& parameters) {
  if (!(confidence >= 0.5) || !(confidence <= 0.999)) {
    throw Error(ErrorKind::input, "",
                say("nursery.confidence_impossible", {{"percent", confidence * 100}}));
  }
  CollectionPlan plan;
  plan.order_confidence = confidence;
  for (const Order& order : orders) {
    check(order);
    if (order.to_field > 0) ++plan.species_counted;
  }
  plan.species_confidence =
      plan.species_counted > 0 ? exact_pow(confidence, 1.0 / plan.species_counted) : confidence;
  std::vector<std::size_t> wanted;
  for (std::size_t i = 0; i < orders.size(); ++i) {
    if (orders[i].to_field > 0) wanted.push_back(i);
  }
  plan.collections.resize(wanted.size());
  parallel_for(wanted.size(), 1, 0, [&](std::size_t begin, std::size_t end) {
    for (std::size_t k = begin; k < end; ++k) {
      Collection one = collect(orders[wanted[k]], season, plan.species_confidence, parameters);
      judge_shortage(one, wanted[k], orders, parameters);
      put_words(one, orders[wanted[k]], parameters);
      plan.collections[k] = std::move(one);
    }
  });
  plan.space = space_for(plan.collections, parameters);
  put_words(plan);
  return plan;
}

}  // namespace wildling::nursery
