#include <algorithm>
#include <cmath>

#include "base/workings_build.hpp"
#include "mix/problem.hpp"

namespace wildling::mix {
namespace {

using Inputs = std::vector<std::string>;
using Values = std::span<const double>;

double sum(Values x) {
  double total = 0;
  for (const double value : x) total += value;
  return total;
}

// Inputs in pairs a1, b1, a2, b2 ...
double sum_of_products(Values x) {
  double total = 0;
  for (std::size_t i = 0; i + 1 < x.size(); i += 2) total += x[i] * x[i + 1];
  return total;
}

double crowding(Values x) {  // w, E, counts ...
  double total = 0;
  for (std::size_t i = 2; i < x.size(); ++i)
    total += std::max(0.0, x[i] - x[1]) + std::max(0.0, x[i] - 2 * x[1]);
  return x[0] * total;
}

class Writer {
 public:
  Writer(Workings& workings, const Problem& p, std::span<const GroundNeed> grounds,
         std::span<const species::Candidate> candidates, std::span<const SurvivalRow> survival,
         const Choice& choice, const Parameters& parameters)
      : w_(workings),
        p_(p),
        grounds_(grounds),
        candidates_(candidates),
        survival_(survival),
        choice_(choice),
        parameters_(parameters) {}

  void write() {
    for (std::size_t g = 0; g < p_.grounds; ++g) ground(g);
    order();
    species_shares();
    if (p_.any_price) cost();
    search();
  }

 private:
  std::string leaf(const std::string& key, Message label, double value, const char* unit,
                   Origin origin, const std::string& source, const std::string& note = {}) {
    return WorkingsBuilder(w_).leaf(key, std::move(label), value, unit, origin, source, note);
  }

  std::string computed(const std::string& key, Message label, double value, const char* unit,
                       const char* formula, Inputs inputs) {
    return WorkingsBuilder(w_).computed(key, std::move(label), value, unit, formula,
                                        std::move(inputs));
  }

  std::string path(std::size_t g) const { return "mix/" + grounds_[g].ground_type; }

  std::string count_key(std::size_t g, std::size_t i) const {
    return path(g) + "/planted/" + candidates_[i].name();
  }

  Message about(const char* key, std::size_t g) const {
    return say(key, {{"ground", grounds_[g].ground_type}});
  }

  void ground(std::size_t g) {
    const GroundNeed& need = grounds_[g];
    const std::string area = leaf(path(g) + "/area", about("mix.w_area", g), need.area_ha, "ha",
                                  Origin::measured, "boundary of the ground type");
    const std::string target =
        leaf(path(g) + "/target", about("mix.w_target", g), need.target_stems_per_ha, "stems/ha",
             Origin::chosen, "the programme's target");
    const std::string natural =
        leaf(path(g) + "/natural", about("mix.w_natural", g), need.natural_stems_per_ha, "stems/ha",
             Origin::measured, "natural trees counted");
    computed(path(g) + "/needed", about("mix.w_needed", g), p_.need[g], "stems", "mix.needed",
             {area, target, natural});
    counts(g);
  }

  void counts(std::size_t g) {
    Inputs all;
    Inputs pioneers;
    Inputs living, living_low, living_high;
    for (std::size_t i = 0; i < p_.candidates; ++i) {
      const int x = choice_.planted[g][i];
      if (x == 0) continue;
      const std::string& name = candidates_[i].name();
      all.push_back(leaf(count_key(g, i), label("mix.w_planted", g, name), x, "seedlings",
                         Origin::chosen, "mixed-integer programme, CBC"));
      if (p_.pioneer[i]) pioneers.push_back(all.back());
      living.push_back(all.back());
      living.push_back(species::add_survival(w_, path(g) + "/survival/" + name, name,
                                             survival_[g].of_candidate[i], parameters_));
      end_of_range(g, i, "low", living_low);
      end_of_range(g, i, "high", living_high);
    }
    const GroundResult& r = choice_.grounds[g];
    const std::string total = computed(path(g) + "/planted", about("mix.w_planted_all", g),
                                       static_cast<double>(r.planted), "seedlings", "mix.sum", all);
    totals_.push_back(total);
    computed(path(g) + "/living", about("mix.w_living", g), r.expected_living, "stems",
             "mix.living", living);
    computed(path(g) + "/living_low", about("mix.w_living_low", g), r.living_low, "stems",
             "mix.living", living_low);
    computed(path(g) + "/living_high", about("mix.w_living_high", g), r.living_high, "stems",
             "mix.living", living_high);
    if (r.planted == 0) return;
    const std::string of_pioneers =
        computed(path(g) + "/pioneers", about("mix.w_pioneers", g), static_cast<double>(r.pioneers),
                 "seedlings", "mix.sum", pioneers);
    computed(path(g) + "/pioneer_share", about("mix.w_pioneer_share", g),
             static_cast<double>(r.pioneers) / static_cast<double>(r.planted), "share", "mix.share",
             {of_pioneers, total});
  }

  /// The share alive at one end of what was published, with the number planted.
  void end_of_range(std::size_t g, std::size_t i, const std::string& which, Inputs& inputs) {
    const species::Survival& survival = survival_[g].of_candidate[i];
    const std::string& name = candidates_[i].name();
    inputs.push_back(count_key(g, i));
    inputs.push_back(
        leaf(path(g) + "/survival/" + name + "/range_" + which,
             label(which == "low" ? "mix.w_survival_low" : "mix.w_survival_high", g, name),
             which == "low" ? survival.low : survival.high, "share", survival.origin,
             survival.source, "survival at that end of what was published; docs/species.md"));
  }

  Message label(const char* key, std::size_t g, const std::string& name) const {
    return say(key, {{"ground", grounds_[g].ground_type}, {"species", name}});
  }

  void order() {
    total_ = computed("mix/planted", say("mix.w_order"), static_cast<double>(choice_.total),
                      "seedlings", "mix.sum", totals_);
  }

  void species_shares() {
    for (std::size_t i = 0; i < p_.candidates; ++i) {
      Inputs counts;
      double mine = 0;
      for (std::size_t g = 0; g < p_.grounds; ++g) {
        if (choice_.planted[g][i] == 0) continue;
        counts.push_back(count_key(g, i));
        mine += choice_.planted[g][i];
      }
      if (counts.empty()) continue;
      const std::string& name = candidates_[i].name();
      const std::string key = "mix/species/" + name;
      const Message what = say("mix.w_species", {{"species", name}});
      const std::string all = computed(key, what, mine, "seedlings", "mix.sum", counts);
      const Message share = say("mix.w_species_share", {{"species", name}});
      computed(key + "/share", share, mine / static_cast<double>(choice_.total), "share",
               "mix.share", {all, total_});
      species_.push_back(all);
      species_.push_back(price(i));
    }
  }

  std::string price(std::size_t i) {
    const std::string& name = candidates_[i].name();
    const bool known = p_.price_known[i];
    return leaf("mix/price/" + name, say("mix.w_price", {{"species", name}}), p_.price[i],
                "currency/seedling", known ? Origin::told : Origin::assumed,
                known ? candidates_[i].stock.source : "",
                known          ? ""
                : p_.any_price ? "no price given: the mean of the known prices"
                               : "no price known: each seedling counts the same");
  }

  void cost() {
    computed("mix/cost", say("mix.w_cost"), *choice_.cost, "currency", "mix.living", species_);
  }

  // What the search minimised, how low it could be, and the gap between them.
  void search() {
    if (choice_.verdict != Verdict::found) return;
    const std::string key = "mix/search";
    const std::string at_prices =
        computed(key + "/cost", say("mix.w_search_cost"), cost_of(p_, choice_.planted), "currency",
                 "mix.living", species_);
    Inputs charges;
    const std::string w =
        leaf(key + "/spread_price", say("mix.w_spread_price"), p_.spread_price, "currency/seedling",
             Origin::assumed, "", "parameter mix.spread_price_share x mean price");
    for (std::size_t g = 0; g < p_.grounds; ++g) {
      if (p_.planted(g)) charges.push_back(charge(g, w));
    }
    const std::string spread = computed(key + "/spread", say("mix.w_spread"), choice_.spread_charge,
                                        "currency", "mix.sum", charges);
    const std::string objective =
        computed(key + "/objective", say("mix.w_objective"), choice_.objective, "currency",
                 "mix.sum", {at_prices, spread});
    const std::string bound =
        leaf(key + "/bound", say("mix.w_bound"), choice_.bound, "currency", Origin::chosen,
             "mixed-integer programme, CBC: no mix can be lower");
    computed(key + "/gap", say("mix.w_gap"), choice_.gap, "share", "mix.gap", {objective, bound});
  }

  std::string charge(std::size_t g, const std::string& w) {
    Inputs inputs = {
        w, leaf(path(g) + "/even_share", about("mix.w_even", g), p_.even[g], "seedlings",
                Origin::chosen, "order of the ground at mean survival over its suitable species")};
    double value = 0;
    for (std::size_t i = 0; i < p_.candidates; ++i) {
      const double x = choice_.planted[g][i];
      if (x == 0) continue;
      inputs.push_back(count_key(g, i));
      value += std::max(0.0, x - p_.even[g]) + std::max(0.0, x - 2 * p_.even[g]);
    }
    return computed(path(g) + "/crowding", about("mix.w_crowding", g), p_.spread_price * value,
                    "currency", "mix.crowding", std::move(inputs));
  }

  Workings& w_;
  const Problem& p_;
  std::span<const GroundNeed> grounds_;
  std::span<const species::Candidate> candidates_;
  std::span<const SurvivalRow> survival_;
  const Choice& choice_;
  const Parameters& parameters_;
  Inputs totals_;
  Inputs species_;  // count, price, count, price ...
  std::string total_;
};

}  // namespace

void add_workings(Workings& workings, std::span<const GroundNeed> grounds,
                  std::span<const species::Candidate> candidates,
                  std::span<const SurvivalRow> survival, const Demands& demands,
                  const Choice& choice, const Parameters& parameters) {
  const Problem p = make_problem(grounds, candidates, survival, demands);
  Writer(workings, p, grounds, candidates, survival, choice, parameters).write();
}

const Formulas& formulas() {
  static const Formulas list = {
      {"mix.needed", "living needed = area x (target - natural), not below 0", "ours",
       [](Values x) { return std::max(0.0, x[0] * (x[1] - x[2])); }},
      {"mix.sum", "sum of the inputs", "arithmetic", sum},
      {"mix.living", "sum of number x factor over the pairs", "arithmetic", sum_of_products},
      {"mix.share", "part / whole", "arithmetic", [](Values x) { return x[0] / x[1]; }},
      {"mix.crowding", "w x sum( max(0, x - E) + max(0, x - 2 E) )", "ours", crowding},
      {"mix.gap", "(objective - bound) / objective", "usual for branch and bound",
       [](Values x) { return x[0] > 0 ? (x[0] - x[1]) / x[0] : 0.0; }}};
  return list;
}

}  // namespace wildling::mix
