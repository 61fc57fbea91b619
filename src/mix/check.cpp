// The demands of mix.hpp re-computed from the counts, without the solver and its model.
#include <algorithm>
#include <cmath>

#include "mix/problem.hpp"

namespace wildling::mix {
namespace {

bool at_least(double value, double demand) {
  return value >= demand - 1e-6 * std::max(1.0, std::abs(demand));
}

class Check {
 public:
  Check(const Problem& p, std::span<const GroundNeed> grounds,
        std::span<const species::Candidate> candidates, const Counts& planted)
      : p_(p), grounds_(grounds), candidates_(candidates), planted_(planted) {}

  std::vector<Message> broken() {
    for (std::size_t g = 0; g < p_.grounds; ++g) ground(g);
    order();
    return std::move(list_);
  }

 private:
  void want(bool kept, const char* demand, const std::string& where, double value, double asked) {
    if (kept) return;
    list_.push_back(say(
        "mix.broken",
        {{"demand", std::string(demand)}, {"where", where}, {"value", value}, {"asked", asked}}));
  }

  void ground(std::size_t g) {
    double living = 0;
    double total = 0;
    double pioneers = 0;
    const std::string& name = grounds_[g].ground_type;
    for (std::size_t i = 0; i < p_.candidates; ++i) {
      const int x = planted_[g][i];
      want(x >= 0, "count", candidates_[i].name(), x, 0);
      want(x == 0 || p_.may(g, i), "suitable", candidates_[i].name(), x, 0);
      living += x * p_.survival[g][i];
      total += x;
      pioneers += p_.pioneer[i] ? x : 0;
    }
    want(at_least(living, p_.need[g]), "living", name, living, p_.need[g]);
    want(total <= static_cast<double>(p_.places[g]), "places", name, total,
         static_cast<double>(p_.places[g]));
    const double low = p_.demands.pioneer_share_min * total;
    const double high = p_.demands.pioneer_share_max * total;
    want(!p_.open[g] || at_least(pioneers, low), "pioneers", name, pioneers, low);
    want(at_least(high, pioneers), "pioneers", name, pioneers, high);
  }

  void order() {
    double total = 0;
    for (const auto& row : planted_) {
      for (const int x : row) total += x;
    }
    int used = 0;
    for (std::size_t i = 0; i < p_.candidates; ++i) used += species(i, total) ? 1 : 0;
    const int fewest = p_.anything() ? p_.demands.fewest_species : 0;
    want(used >= fewest, "species", "", used, fewest);
    if (!p_.demands.budget || !p_.any_price) return;
    const double cost = cost_of(p_, planted_);
    want(at_least(*p_.demands.budget, cost), "budget", "", cost, *p_.demands.budget);
  }

  bool species(std::size_t i, double total) {
    double mine = 0;
    for (const auto& row : planted_) mine += row[i];
    const std::string& name = candidates_[i].name();
    if (p_.stock[i]) {
      const double stock = static_cast<double>(*p_.stock[i]);
      want(mine <= stock, "stock", name, mine, stock);
    }
    want(mine == 0 || mine >= p_.demands.fewest_each, "fewest", name, mine, p_.demands.fewest_each);
    const double cap = p_.demands.species_cap_share * total;
    want(at_least(cap, mine), "cap", name, mine, cap);
    return mine > 0;
  }

  const Problem& p_;
  std::span<const GroundNeed> grounds_;
  std::span<const species::Candidate> candidates_;
  const Counts& planted_;
  std::vector<Message> list_;
};

}  // namespace

std::vector<Message> broken_demands(std::span<const GroundNeed> grounds,
                                    std::span<const species::Candidate> candidates,
                                    std::span<const SurvivalRow> survival, const Demands& demands,
                                    const std::vector<std::vector<int>>& planted) {
  const Problem p = make_problem(grounds, candidates, survival, demands);
  return Check(p, grounds, candidates, planted).broken();
}

}  // namespace wildling::mix
