// Which demands clash, and by how much each must give: the model made elastic.
#include <algorithm>
#include <cmath>
#include <functional>

#include "mix/notes.hpp"
#include "mix/problem.hpp"

namespace wildling::mix {
namespace {

// Below this order the least concession is exact; above it, within 0.02 % and 5 seconds each.
constexpr double kExactOrder = 1000;

class Clashes {
 public:
  Clashes(const Problem& p, std::span<const GroundNeed> grounds,
          std::span<const species::Candidate> candidates, Choice& choice, const Progress& progress)
      : p_(p), grounds_(grounds), candidates_(candidates), choice_(choice), progress_(progress) {
    limits_ = limits_of(p.demands);
    limits_.gap = order_of(p) < kExactOrder ? 0 : 2e-4;
    limits_.nodes = std::min(limits_.nodes, 2000);
    limits_.seconds = std::min(limits_.seconds, 5.0);
  }

  void explain() {
    if (grounds_without_species()) return;
    const std::vector<Elastic> all = demands_that_may_give();
    together(all);
    for (const Elastic& one : all) alone(one);
    alone_share(DemandKind::cap, p_.demands.species_cap_share, 1);
    alone_share(DemandKind::pioneers_min, p_.demands.pioneer_share_min, 0);
    alone_share(DemandKind::pioneers_max, p_.demands.pioneer_share_max, 1);
  }

 private:
  bool grounds_without_species() {
    for (std::size_t g = 0; g < p_.grounds; ++g) {
      bool any = !p_.planted(g);
      for (std::size_t i = 0; i < p_.candidates; ++i) any = any || p_.may(g, i);
      if (any) continue;
      choice_.clashes.push_back(
          {.kind = DemandKind::suitable_species,
           .ground = g,
           .asked = 1,
           .reachable = 0,
           .message =
               say("mix.clash_no_species", {{"ground", grounds_[g].ground_type},
                                            {"count", static_cast<std::int64_t>(p_.candidates)}})});
    }
    return !choice_.clashes.empty();
  }

  // Weights make the slacks of different units comparable: each as a part of its own demand.
  std::vector<Elastic> demands_that_may_give() const {
    std::vector<Elastic> list;
    const double order = order_of(p_);
    for (std::size_t g = 0; g < p_.grounds; ++g) {
      if (!p_.planted(g)) continue;
      const double seedlings = p_.need[g] / mean_survival(p_, g);
      list.push_back({DemandKind::living, g, 1 / p_.need[g]});
      list.push_back({DemandKind::places, g, 1 / std::max(1.0, static_cast<double>(p_.places[g]))});
      if (p_.open[g]) list.push_back({DemandKind::pioneers_min, g, 1 / seedlings});
      list.push_back({DemandKind::pioneers_max, g, 1 / seedlings});
    }
    list.push_back({DemandKind::stock, kAll, 1 / order});
    list.push_back({DemandKind::cap, kAll, 1 / order});
    if (p_.demands.fewest_species > 0)
      list.push_back({DemandKind::species, kAll, 1.0 / p_.demands.fewest_species});
    if (p_.demands.fewest_each > 1)
      list.push_back({DemandKind::fewest_each, kAll, 1.0 / p_.demands.fewest_each});
    if (p_.demands.budget && p_.any_price) {
      list.push_back({DemandKind::budget, kAll, 1 / std::max(1.0, *p_.demands.budget)});
    }
    return list;
  }

  Counts solve_elastic(std::span<const Elastic> elastic) {
    const Model model = make_model(p_, elastic);
    const Solution least = solve_staged(model.linear, limits_, progress_.stop);
    return least.values.empty() ? Counts{} : counts_of(model, p_, least);
  }

  void together(const std::vector<Elastic>& all) {
    const Counts counts = solve_elastic(all);
    if (counts.empty()) return;
    choice_.nearest = counts;
    for (const Elastic& e : all) add_if_it_gives(e.kind, e.ground, counts, choice_.clashes);
  }

  void alone(const Elastic& one) {
    const bool share = one.kind == DemandKind::cap || one.kind == DemandKind::pioneers_min ||
                       one.kind == DemandKind::pioneers_max;
    if (share) return;  // by bisection: shares of an order that itself changes are not linear
    const Elastic elastic[] = {one};
    const Counts counts = solve_elastic(elastic);
    if (!counts.empty()) add_if_it_gives(one.kind, one.ground, counts, choice_.alone);
  }

  bool works_with(DemandKind kind, double share) {
    Problem eased = p_;
    if (kind == DemandKind::cap) eased.demands.species_cap_share = share;
    if (kind == DemandKind::pioneers_min) eased.demands.pioneer_share_min = share;
    if (kind == DemandKind::pioneers_max) eased.demands.pioneer_share_max = share;
    SolveLimits any = limits_;
    any.gap = 1;  // any mix will do
    return !solve_staged(make_model(eased, {}).linear, any, progress_.stop).values.empty();
  }

  // The least change of a share by which a mix exists, to a tenth of a per cent, rounded to the
  // safe side.
  void alone_share(DemandKind kind, double asked, double most) {
    if (asked == most || !works_with(kind, most)) return;
    double fails = asked;
    double works = most;
    while (std::abs(works - fails) > 0.0005) {
      const double middle = (works + fails) / 2;
      (works_with(kind, middle) ? works : fails) = middle;
    }
    const double safe = most > asked ? std::min(1.0, std::ceil(works * 1000) / 1000)
                                     : std::max(0.0, std::floor(works * 1000) / 1000);
    choice_.alone.push_back(clash(kind, kAll, asked, safe, ""));
  }

  double total_of(std::size_t g, const Counts& counts) const {
    double sum = 0;
    for (const int x : counts[g]) sum += x;
    return sum;
  }

  double living_of(std::size_t g, const Counts& counts) const {
    double sum = 0;
    for (std::size_t i = 0; i < p_.candidates; ++i) sum += counts[g][i] * p_.survival[g][i];
    return sum;
  }

  double pioneers_of(std::size_t g, const Counts& counts) const {
    double sum = 0;
    for (std::size_t i = 0; i < p_.candidates; ++i) sum += p_.pioneer[i] ? counts[g][i] : 0;
    const double total = total_of(g, counts);
    return total > 0 ? sum / total : 0;
  }

  std::vector<double> per_species(const Counts& counts) const {
    std::vector<double> sums(p_.candidates, 0);
    for (const auto& row : counts) {
      for (std::size_t i = 0; i < p_.candidates; ++i) sums[i] += row[i];
    }
    return sums;
  }

  void add_if_it_gives(DemandKind kind, std::size_t g, const Counts& counts,
                       std::vector<Clash>& list) const {
    const std::vector<double> sums = per_species(counts);
    double order = 0;
    for (const double n : sums) order += n;
    const auto above = [&](double asked, double value) {
      if (value > asked + 1e-6 * std::max(1.0, asked))
        list.push_back(clash(kind, g, asked, value, ""));
    };
    const auto below = [&](double asked, double value) {
      if (value < asked - 1e-6 * std::max(1.0, asked))
        list.push_back(clash(kind, g, asked, value, ""));
    };
    switch (kind) {
      case DemandKind::living:
        return below(p_.need[g], living_of(g, counts));
      case DemandKind::places:
        return above(static_cast<double>(p_.places[g]), total_of(g, counts));
      case DemandKind::pioneers_min:
        return below(p_.demands.pioneer_share_min, pioneers_of(g, counts));
      case DemandKind::pioneers_max:
        return above(p_.demands.pioneer_share_max, pioneers_of(g, counts));
      case DemandKind::cap:
        return above(p_.demands.species_cap_share,
                     order > 0 ? *std::max_element(sums.begin(), sums.end()) / order : 0);
      case DemandKind::species:
        return below(p_.demands.fewest_species,
                     static_cast<double>(
                         std::count_if(sums.begin(), sums.end(), [](double n) { return n > 0; })));
      case DemandKind::fewest_each:
        return below(p_.demands.fewest_each, least_used(sums));
      case DemandKind::budget:
        return above(*p_.demands.budget, cost_of(p_, counts));
      case DemandKind::stock:
        return add_stock(sums, list);
      case DemandKind::suitable_species:
        return;
    }
  }

  double least_used(const std::vector<double>& sums) const {
    double least = p_.demands.fewest_each;
    for (const double n : sums) {
      if (n > 0) least = std::min(least, n);
    }
    return least;
  }

  void add_stock(const std::vector<double>& sums, std::vector<Clash>& list) const {
    std::vector<std::string> names;
    double asked = 0;
    double wanted = 0;
    for (std::size_t i = 0; i < p_.candidates; ++i) {
      if (!p_.stock[i] || sums[i] <= static_cast<double>(*p_.stock[i])) continue;
      const auto more = static_cast<long long>(sums[i]) - *p_.stock[i];
      names.push_back(candidates_[i].name() + " +" + std::to_string(more));
      asked += static_cast<double>(*p_.stock[i]);
      wanted += sums[i];
    }
    if (!names.empty())
      list.push_back(clash(DemandKind::stock, kAll, asked, wanted, names_list(names)));
  }

  static const char* word(DemandKind kind, bool of_ground) {
    switch (kind) {
      case DemandKind::living:
        return "mix.clash_living";
      case DemandKind::places:
        return "mix.clash_places";
      case DemandKind::stock:
        return "mix.clash_stock";
      case DemandKind::species:
        return "mix.clash_species";
      case DemandKind::fewest_each:
        return "mix.clash_fewest_each";
      case DemandKind::cap:
        return "mix.clash_cap";
      case DemandKind::pioneers_min:
        return of_ground ? "mix.clash_pioneers_min_ground" : "mix.clash_pioneers_min";
      case DemandKind::pioneers_max:
        return of_ground ? "mix.clash_pioneers_max_ground" : "mix.clash_pioneers_max";
      case DemandKind::budget:
        return "mix.clash_budget";
      case DemandKind::suitable_species:
        break;
    }
    return "mix.clash_no_species";
  }

  Clash clash(DemandKind kind, std::size_t g, double asked, double reachable,
              const std::string& names) const {
    const bool share = kind == DemandKind::cap || kind == DemandKind::pioneers_min ||
                       kind == DemandKind::pioneers_max;
    const double unit = share ? 100 : 1;
    std::map<std::string, Argument> arguments = {
        {"asked", unit * asked},
        {"reachable", unit * reachable},
        {"difference", unit * std::abs(reachable - asked)},
        {"names", names},
        {"ground", g == kAll ? std::string() : grounds_[g].ground_type}};
    if (kind == DemandKind::living) arguments["area_ha"] = grounds_[g].area_ha;
    Clash result{.kind = kind,
                 .ground = {},
                 .asked = asked,
                 .reachable = reachable,
                 .message = say(word(kind, g != kAll), std::move(arguments))};
    if (g != kAll) result.ground = g;
    return result;
  }

  const Problem& p_;
  std::span<const GroundNeed> grounds_;
  std::span<const species::Candidate> candidates_;
  Choice& choice_;
  const Progress& progress_;
  SolveLimits limits_;
};

}  // namespace

void explain_clashes(const Problem& problem, std::span<const GroundNeed> grounds,
                     std::span<const species::Candidate> candidates, Choice& choice,
                     const Progress& progress) {
  Clashes(problem, grounds, candidates, choice, progress).explain();
}

}  // namespace wildling::mix
