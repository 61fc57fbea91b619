#include "mix/problem.hpp"

#include <algorithm>
#include <cmath>

#include "base/error.hpp"

namespace wildling::mix {
namespace {

constexpr double kLargestCount =
    5e7;  // seedlings on one ground type: about 10,000 ha at 5,000 a hectare

[[noreturn]] void refuse(std::string where, const char* what, double value) {
  throw Error(ErrorKind::input, std::move(where), say(what, {{"value", value}}));
}

void need_inside(const std::string& where, const char* what, double value, double low,
                 double high) {
  if (!(value >= low && value <= high)) refuse(where, what, value);
}

void check_ground(const GroundNeed& g) {
  const std::string& where = g.ground_type;
  need_inside(where, "mix.bad_area", g.area_ha, 0, 1e6);
  need_inside(where, "mix.bad_density", g.target_stems_per_ha, 0, 1e5);
  need_inside(where, "mix.bad_density", g.natural_stems_per_ha, 0, 1e6);
  if (!g.places) need_inside(where, "mix.bad_density", g.places_per_ha, 0, 1e5);
  if (g.places)
    need_inside(where, "mix.bad_places", static_cast<double>(*g.places), 0, kLargestCount);
}

void check_demands(const Demands& d) {
  need_inside("", "mix.bad_share", d.pioneer_share_min, 0, 1);
  need_inside("", "mix.bad_share", d.pioneer_share_max, 0, 1);
  need_inside("", "mix.bad_share", d.species_cap_share, 1e-6, 1);
  need_inside("", "mix.bad_share", d.spread_price_share, 0, 10);
  need_inside("", "mix.bad_share", d.gap, 0, 1);
  need_inside("", "mix.bad_count", d.fewest_species, 0, 1e6);
  need_inside("", "mix.bad_count", d.fewest_each, 0, 1e7);
  if (d.budget) need_inside("", "mix.bad_budget", *d.budget, 0, 1e15);
  if (d.pioneer_share_min > d.pioneer_share_max) {
    throw Error(
        ErrorKind::input, "",
        say("mix.pioneers_crossed", {{"low", d.pioneer_share_min}, {"high", d.pioneer_share_max}}));
  }
}

void check_candidate(const species::Candidate& c) {
  const auto negative = [](const std::optional<int>& n) { return n && *n < 0; };
  if (negative(c.stock.seedlings_ready))
    refuse(c.name(), "mix.bad_stock", *c.stock.seedlings_ready);
  if (negative(c.stock.can_raise)) refuse(c.name(), "mix.bad_stock", *c.stock.can_raise);
  if (c.stock.price_per_seedling)
    need_inside(c.name(), "mix.bad_price", *c.stock.price_per_seedling, 0, 1e12);
}

// Stock limits only where it is known: with `can_raise` blank, nobody said that no more can be
// raised.
std::optional<long long> stock_of(const species::StockLine& stock, const Demands& demands) {
  if (demands.only_ready)
    return stock.seedlings_ready.value_or(0);  // blank: not suitable, see suits()
  if (!stock.can_raise) return {};
  return static_cast<long long>(stock.seedlings_ready.value_or(0)) + *stock.can_raise;
}

void set_prices(Problem& p, std::span<const species::Candidate> candidates) {
  double sum = 0;
  int known = 0;
  for (const auto& c : candidates) {
    if (!c.stock.price_per_seedling) continue;
    sum += *c.stock.price_per_seedling;
    ++known;
  }
  p.any_price = known > 0;
  const double mean = known > 0 ? sum / known : 1;
  for (const auto& c : candidates) {
    p.price_known.push_back(c.stock.price_per_seedling.has_value());
    p.price.push_back(c.stock.price_per_seedling.value_or(mean));
  }
  p.spread_price = p.demands.spread_price_share * mean;
}

long long places_of(const GroundNeed& g) {
  if (g.places) return *g.places;
  return static_cast<long long>(
      std::floor(std::min(kLargestCount, g.places_per_ha * g.area_ha) + 1e-9));
}

void add_ground(Problem& p, const GroundNeed& g, std::span<const species::Candidate> candidates,
                const SurvivalRow& row, const Demands& demands) {
  std::vector<Suits> fit;
  std::vector<double> alive;
  for (std::size_t i = 0; i < candidates.size(); ++i) {
    const double share = row.of_candidate[i].share;
    need_inside(candidates[i].name(), "mix.bad_share", share, 0, 1);
    fit.push_back(suits(g, candidates[i], row.of_candidate[i], demands));
    alive.push_back(share);
  }
  p.suitability.push_back(std::move(fit));
  p.survival.push_back(std::move(alive));
  p.need.push_back(std::max(0.0, g.area_ha * (g.target_stems_per_ha - g.natural_stems_per_ha)));
  p.places.push_back(places_of(g));
  p.open.push_back(!g.under_cover);
  const std::size_t here = p.even.size();
  const auto n = std::count(p.suitability[here].begin(), p.suitability[here].end(), Suits::yes);
  // E_g: the seedlings the ground takes at its suitable species' mean survival, shared evenly.
  p.even.push_back(p.planted(here) && n > 0
                       ? p.need[here] / mean_survival(p, here) / static_cast<double>(n)
                       : 0);
}

}  // namespace

bool Problem::anything() const {
  return std::any_of(need.begin(), need.end(), [](double n) { return n > 0; });
}

bool Problem::may_anywhere(std::size_t i) const {
  for (std::size_t g = 0; g < grounds; ++g) {
    if (may(g, i)) return true;
  }
  return false;
}

Problem make_problem(std::span<const GroundNeed> grounds,
                     std::span<const species::Candidate> candidates,
                     std::span<const SurvivalRow> survival, const Demands& demands) {
  if (grounds.empty()) throw Error(ErrorKind::input, "", say("mix.no_ground"));
  if (candidates.empty()) throw Error(ErrorKind::input, "", say("mix.no_species"));
  if (survival.size() != grounds.size())
    throw Error(ErrorKind::usage, "survival", say("mix.sizes"));
  check_demands(demands);
  Problem p;
  p.demands = demands;
  p.grounds = grounds.size();
  p.candidates = candidates.size();
  for (const auto& c : candidates) {
    check_candidate(c);
    p.stock.push_back(stock_of(c.stock, demands));
    p.pioneer.push_back(c.species.group == species::Group::pioneer);
  }
  set_prices(p, candidates);
  for (std::size_t g = 0; g < grounds.size(); ++g) {
    check_ground(grounds[g]);
    if (survival[g].of_candidate.size() != candidates.size()) {
      throw Error(ErrorKind::usage, "survival", say("mix.sizes"));
    }
    add_ground(p, grounds[g], candidates, survival[g], demands);
  }
  return p;
}

double mean_survival(const Problem& p, std::size_t g) {
  double sum = 0;
  int n = 0;
  for (std::size_t i = 0; i < p.candidates; ++i) {
    if (p.suitability[g][i] != Suits::yes) continue;
    sum += p.survival[g][i];
    ++n;
  }
  return n == 0 ? 0 : sum / n;
}

double order_of(const Problem& p) {
  double order = 0;
  for (std::size_t g = 0; g < p.grounds; ++g) {
    if (p.planted(g) && mean_survival(p, g) > 0) order += p.need[g] / mean_survival(p, g);
  }
  return order;
}

double cost_of(const Problem& p, const Counts& planted) {
  double sum = 0;
  for (std::size_t g = 0; g < p.grounds; ++g) {
    for (std::size_t i = 0; i < p.candidates; ++i) sum += p.price[i] * planted[g][i];
  }
  return sum;
}

double spread_charge_of(const Problem& p, const Counts& planted) {
  double crowding = 0;
  for (std::size_t g = 0; g < p.grounds; ++g) {
    if (!p.planted(g)) continue;
    for (std::size_t i = 0; i < p.candidates; ++i) {
      const double x = planted[g][i];
      crowding += std::max(0.0, x - p.even[g]) + std::max(0.0, x - 2 * p.even[g]);
    }
  }
  return p.spread_price * crowding;
}

SolveLimits limits_of(const Demands& demands) {
  return {.gap = demands.gap, .nodes = demands.node_limit, .seconds = demands.seconds_limit};
}

}  // namespace wildling::mix
