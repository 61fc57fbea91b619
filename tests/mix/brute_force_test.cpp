// The search against trying every mix, on questions small enough for it. Nothing here uses the
// solver's model.
#include <cmath>
#include <limits>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "small_cases.hpp"

namespace wildling::mix {
namespace {

using Table = std::vector<std::vector<int>>;

double column_sum(const Table& x, std::size_t i) {
  double sum = 0;
  for (const auto& row : x) sum += row[i];
  return sum;
}

bool ground_holds(const Question& q, const Table& x, std::size_t g) {
  double living = 0;
  double total = 0;
  double pioneers = 0;
  for (std::size_t i = 0; i < q.candidates.size(); ++i) {
    living += q.survival[g].of_candidate[i].share * x[g][i];
    total += x[g][i];
    if (q.candidates[i].species.group == species::Group::pioneer) pioneers += x[g][i];
  }
  const GroundNeed& need = q.grounds[g];
  if (need.target_stems_per_ha <= need.natural_stems_per_ha) return total == 0;
  return living >= need.target_stems_per_ha - need.natural_stems_per_ha - 1e-9 &&
         total <= static_cast<double>(*need.places) &&
         pioneers >= q.demands.pioneer_share_min * total - 1e-9 &&
         pioneers <= q.demands.pioneer_share_max * total + 1e-9;
}

bool order_holds(const Question& q, const Table& x) {
  double total = 0;
  double cost = 0;
  int used = 0;
  for (std::size_t i = 0; i < q.candidates.size(); ++i) total += column_sum(x, i);
  for (std::size_t i = 0; i < q.candidates.size(); ++i) {
    const double n = column_sum(x, i);
    cost += n * *q.candidates[i].stock.price_per_seedling;
    used += n > 0 ? 1 : 0;
    if (n > 0 && n < q.demands.fewest_each) return false;
    if (q.candidates[i].stock.can_raise && n > *q.candidates[i].stock.can_raise) return false;
    if (n > q.demands.species_cap_share * total + 1e-9) return false;
  }
  return used >= q.demands.fewest_species &&
         (!q.demands.budget || cost <= *q.demands.budget + 1e-9);
}

// What mix.hpp says is minimised, from its definition.
double objective(const Question& q, const Table& x) {
  double cost = 0;
  double mean_price = 0;
  for (const auto& c : q.candidates)
    mean_price += *c.stock.price_per_seedling / double(q.candidates.size());
  for (std::size_t g = 0; g < x.size(); ++g) {
    double mean_share = 0;
    const double n = static_cast<double>(q.candidates.size());
    for (const auto& s : q.survival[g].of_candidate) mean_share += s.share / n;
    const double even =
        (q.grounds[g].target_stems_per_ha - q.grounds[g].natural_stems_per_ha) / mean_share / n;
    for (std::size_t i = 0; i < x[g].size(); ++i) {
      cost += x[g][i] * *q.candidates[i].stock.price_per_seedling;
      const double crowd = std::max(0.0, x[g][i] - even) + std::max(0.0, x[g][i] - 2 * even);
      cost += q.demands.spread_price_share * mean_price * crowd;
    }
  }
  return cost;
}

double cheapest_by_trying_all(const Question& q, int most) {
  const std::size_t n = q.candidates.size();
  Table x(q.grounds.size(), std::vector<int>(n, 0));
  double best = std::numeric_limits<double>::infinity();
  for (bool more = true; more;) {
    bool holds = order_holds(q, x);
    for (std::size_t g = 0; g < x.size() && holds; ++g) holds = ground_holds(q, x, g);
    if (holds) best = std::min(best, objective(q, x));
    more = false;
    for (std::size_t k = 0; k < x.size() * n && !more; ++k) {
      int& digit = x[k / n][k % n];
      more = digit < most;
      digit = more ? digit + 1 : 0;
    }
  }
  return best;
}

Question random_question(std::size_t grounds, std::size_t candidates, int most) {
  using species::Group;
  Question q;
  for (std::size_t i = 0; i < candidates; ++i) {
    const Group group = *rc::gen::element(Group::pioneer, Group::early);
    const double price = *rc::gen::inRange(1, 9);
    std::optional<int> stock;
    if (*rc::gen::inRange(0, 3) > 0) stock = *rc::gen::inRange(0, most + 3);
    q.candidates.push_back(tree(std::string(1, static_cast<char>('A' + i)), group, price, stock));
  }
  for (std::size_t g = 0; g < grounds; ++g) {
    q.grounds.push_back(ground("g" + std::to_string(g), *rc::gen::inRange(1, 2 * most),
                               *rc::gen::inRange(1, most + 1)));
    std::vector<double> shares;
    for (std::size_t i = 0; i < candidates; ++i) shares.push_back(*rc::gen::inRange(3, 11) / 10.0);
    q.survival.push_back(survival(shares));
  }
  q.demands.age_months = 36;
  q.demands.fewest_species = *rc::gen::inRange(0, static_cast<int>(candidates) + 1);
  q.demands.fewest_each = *rc::gen::inRange(0, 3);
  q.demands.pioneer_share_min = *rc::gen::element(0.0, 0.2, 0.34);
  q.demands.pioneer_share_max = *rc::gen::element(0.5, 0.75, 1.0);
  q.demands.species_cap_share = *rc::gen::element(0.4, 0.6, 1.0);
  if (*rc::gen::inRange(0, 2) > 0) q.demands.budget = *rc::gen::inRange(1, 12 * most);
  q.demands.spread_price_share = *rc::gen::element(0.0, 0.1, 0.5);
  q.demands.gap = 0;
  return q;
}

void agree(const Question& q, int most) {
  const double best = cheapest_by_trying_all(q, most);
  const Choice choice = answer(q);
  if (std::isinf(best)) {
    RC_ASSERT(choice.verdict == Verdict::none_exists);
    return;
  }
  RC_ASSERT(choice.verdict == Verdict::found);
  RC_ASSERT(choice.proven);
  RC_ASSERT(std::abs(choice.objective - best) < 1e-6 * std::max(1.0, best));  // CBC's own tolerance
  RC_ASSERT(std::abs(objective(q, choice.planted) - choice.objective) < 1e-9 * std::max(1.0, best));
}

RC_GTEST_PROP(BruteForce, OneGroundFourSpeciesHasTheCheapestMix, ()) {
  agree(random_question(1, 4, 9), 9);
}

RC_GTEST_PROP(BruteForce, TwoGroundsTwoSpeciesHaveTheCheapestMix, ()) {
  agree(random_question(2, 2, 9), 9);
}

RC_GTEST_PROP(BruteForce, TwoGroundsThreeSpeciesHaveTheCheapestMix, ()) {
  agree(random_question(2, 3, 4), 4);
}

// With a gap the search goes through real counts and rounding: still feasible, and within the gap.
RC_GTEST_PROP(BruteForce, AMixWithinAGapKeepsTheDemandsAndTheGap, ()) {
  Question q = random_question(1, 4, 9);
  q.demands.gap = 0.3;
  const double best = cheapest_by_trying_all(q, 9);
  const Choice choice = answer(q);
  if (std::isinf(best)) {
    RC_ASSERT(choice.verdict == Verdict::none_exists);
    return;
  }
  RC_ASSERT(choice.verdict == Verdict::found);
  RC_ASSERT(ground_holds(q, choice.planted, 0) && order_holds(q, choice.planted));
  RC_ASSERT(choice.bound <= best + 1e-6 * best);
  RC_ASSERT(choice.objective * (1 - q.demands.gap) <= best + 1e-6 * best);
}

Question granted(Question q, const Clash& c) {
  switch (c.kind) {
    case DemandKind::living:
      q.grounds[*c.ground].target_stems_per_ha = c.reachable;
      break;
    case DemandKind::places:
      q.grounds[*c.ground].places = std::llround(c.reachable);
      break;
    case DemandKind::species:
      q.demands.fewest_species = static_cast<int>(c.reachable);
      break;
    case DemandKind::fewest_each:
      q.demands.fewest_each = static_cast<int>(c.reachable);
      break;
    case DemandKind::cap:
      q.demands.species_cap_share = c.reachable;
      break;
    case DemandKind::pioneers_min:
      q.demands.pioneer_share_min = c.reachable;
      break;
    case DemandKind::pioneers_max:
      q.demands.pioneer_share_max = c.reachable;
      break;
    case DemandKind::budget:
      q.demands.budget = c.reachable;
      break;
    case DemandKind::stock:
    case DemandKind::suitable_species:
      break;
  }
  return q;
}

// Grants of order-wide demands and of places, one at a time: a mix must then exist.
RC_GTEST_PROP(Clashes, EachConcessionNamedAloneMakesAMixPossible, ()) {
  const Question q = random_question(2, 3, 4);
  const Choice choice = answer(q);
  RC_PRE(choice.verdict == Verdict::none_exists);
  for (const Clash& c : choice.alone) {
    if (c.kind != DemandKind::stock) RC_ASSERT(answer(granted(q, c)).verdict == Verdict::found);
  }
}

RC_GTEST_PROP(Clashes, TheNearestMixBreaksOnlyWhatTheClashesName, ()) {
  const Question q = random_question(2, 3, 4);
  const Choice choice = answer(q);
  RC_PRE(choice.verdict == Verdict::none_exists && !choice.nearest.empty());
  RC_ASSERT(!choice.clashes.empty());
  Question eased = q;
  for (const Clash& c : choice.clashes) eased = granted(eased, c);
  for (auto& c : eased.candidates) c.stock.can_raise.reset();
  bool pioneers = false;
  bool stock = false;
  for (const Clash& c : choice.clashes) {
    pioneers = pioneers || c.kind == DemandKind::pioneers_min || c.kind == DemandKind::pioneers_max;
    stock = stock || c.kind == DemandKind::stock;
  }
  if (pioneers)
    return;  // its concession is a ground's own and cannot be granted through the demands
  if (!stock) eased.candidates = q.candidates;
  RC_ASSERT(
      broken_demands(eased.grounds, eased.candidates, eased.survival, eased.demands, choice.nearest)
          .empty());
}

}  // namespace
}  // namespace wildling::mix
