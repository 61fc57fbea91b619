#include "nursery/nursery_workings.hpp"

#include <algorithm>
#include <cmath>

#include "base/exact_math.hpp"
#include "base/workings_build.hpp"

namespace wildling::nursery {
namespace {

using Keys = std::vector<std::string>;

double product(std::span<const double> in) {
  double value = 1;
  for (const double x : in) value *= x;
  return value;
}

double quotient(std::span<const double> in) {
  return in[0] / in[1];
}

double rounded_up(double value) {
  return std::ceil(value - 1e-9);
}

stat::YieldDistribution yield_of(std::span<const double> pairs, double lots) {
  std::vector<stat::Stage> stages;
  for (std::size_t i = 0; i + 1 < pairs.size(); i += 2) stages.push_back({pairs[i], pairs[i + 1]});
  stat::YieldDistribution one = stat::product_of_stages(stages);
  const auto n = static_cast<std::size_t>(lots);
  if (n <= 1 || one.cells() == 1) return one;
  return stat::mean_of_lots(std::vector(n, one), std::vector(n, 1.0 / static_cast<double>(n)));
}

constexpr std::size_t kReadyPairs =
    6;  // three stages of ready seedlings, mean and correlation each

stat::InHand ready_of(double ready, std::span<const double> pairs) {
  return stat::arriving(static_cast<long long>(ready), yield_of(pairs, 1));
}

/// need, confidence, lots, then (mean, correlation) of each stage
double smallest(std::span<const double> in) {
  return static_cast<double>(
      stat::smallest_count(static_cast<long long>(in[0]), yield_of(in.subspan(3), in[2]), in[1]));
}

/// need, confidence, lots, ready, three stages of ready seedlings, then the stages
double smallest_after_ready(std::span<const double> in) {
  return static_cast<double>(stat::smallest_count(
      static_cast<long long>(in[0]), yield_of(in.subspan(4 + kReadyPairs), in[2]), in[1],
      ready_of(in[3], in.subspan(4, kReadyPairs))));
}

/// need, count, lots, then the stages
double chance(std::span<const double> in) {
  return stat::chance_of_enough(static_cast<long long>(in[0]), static_cast<long long>(in[1]),
                                yield_of(in.subspan(3), in[2]));
}

/// need, count, lots, ready, three stages of ready seedlings, then the stages
double chance_after_ready(std::span<const double> in) {
  return stat::chance_of_enough(static_cast<long long>(in[0]), static_cast<long long>(in[1]),
                                yield_of(in.subspan(4 + kReadyPairs), in[2]),
                                ready_of(in[3], in.subspan(4, kReadyPairs)));
}

/// need, ready, three stages
double chance_ready_only(std::span<const double> in) {
  return stat::chance_of_enough(static_cast<long long>(in[0]), static_cast<long long>(in[1]),
                                yield_of(in.subspan(2), 1));
}

struct Node {
  std::string key;
  Message label;
  double value = 0;
  std::string unit;
  std::string formula;
  Keys inputs;
};

std::string add(Workings& workings, Node node) {
  return WorkingsBuilder(workings).computed(std::move(node.key), std::move(node.label), node.value,
                                            std::move(node.unit), std::move(node.formula),
                                            std::move(node.inputs));
}

std::string add_leaf(Workings& workings, std::string key, Message label, double value,
                     std::string unit, Origin origin, std::string source = {},
                     std::string note = {}) {
  return WorkingsBuilder(workings).leaf(std::move(key), std::move(label), value, std::move(unit),
                                        origin, std::move(source), std::move(note));
}

/// Nodes of one species, built step by step.
class SpeciesNodes {
 public:
  SpeciesNodes(Workings& workings, const Collection& c, const Parameters& parameters,
               std::string confidence)
      : workings_(workings),
        c_(c),
        parameters_(parameters),
        at_("nursery/" + c.species + "/"),
        confidence_(std::move(confidence)) {}

  /// @return key of the number to be potted; empty when nothing is raised
  std::string add_all() {
    to_field_ = at_ + "to_field";
    add_leaf(workings_, to_field_, label("to_field"), static_cast<double>(c_.to_field), "trees",
             Origin::chosen);
    if (c_.ready > 0) add_ready();
    if (c_.way == Way::none) {
      add_node("chance", c_.chance, "share", "nursery.chance_ready_only",
               joined({to_field_, ready_}, ready_pairs_));
      return {};
    }
    add_counts();
    add_weights();
    return add_potted();
  }

 private:
  [[nodiscard]] Message label(const std::string& what) const {
    return say("nursery.label." + what, {{"species", c_.species}});
  }

  std::string add_node(const std::string& name, double value, std::string unit, std::string formula,
                       Keys inputs) {
    return add(workings_, {at_ + name, label(name), value, std::move(unit), std::move(formula),
                           std::move(inputs)});
  }

  static Keys joined(Keys first, const Keys& second) {
    first.insert(first.end(), second.begin(), second.end());
    return first;
  }

  /// Mean and correlation of each stage as leaves; keys in pairs.
  Keys add_stages(const std::vector<StageUsed>& stages, Keys& means) {
    Keys pairs;
    for (const StageUsed& used : stages) {
      const std::string word(stage_word(used.stage));
      const auto named = [&](const char* key) {
        return say(key, {{"species", c_.species}, {"stage", word}});
      };
      means.push_back(add_leaf(workings_, at_ + "stage/" + word + "/mean",
                               named("nursery.label.stage_mean"), used.mean, "share",
                               used.mean_origin, used.mean_source, used.mean_note));
      pairs.push_back(means.back());
      pairs.push_back(add_leaf(workings_, at_ + "stage/" + word + "/correlation",
                               named("nursery.label.stage_correlation"), used.correlation, "",
                               used.correlation_origin, used.correlation_source,
                               used.correlation_note));
    }
    return pairs;
  }

  void add_ready() {
    ready_ = add_leaf(workings_, at_ + "ready", label("ready"), static_cast<double>(c_.ready),
                      "trees", Origin::told);
    Keys means;
    ready_pairs_ = add_stages(c_.ready_stages, means);
    arriving_ = add_node("ready_arriving", c_.ready_arriving_mean, "trees", "nursery.product",
                         joined({ready_}, means));
  }

  void add_counts() {
    pairs_ = add_stages(c_.stages, means_);
    lots_ = add_leaf(workings_, at_ + "lots", label("lots"), c_.lots, "", Origin::chosen);
    const std::string yield =
        add_node("mean_yield", c_.mean_yield, "share", "nursery.product", means_);
    add_node("by_means", static_cast<double>(c_.by_means), "", "nursery.by_means",
             ready_.empty() ? Keys{yield, to_field_} : Keys{yield, to_field_, arriving_});
    const Keys middle = ready_.empty() ? Keys{lots_} : joined({lots_, ready_}, ready_pairs_);
    const Keys tail = joined(middle, pairs_);
    const char* suffix = ready_.empty() ? "" : "_after_ready";
    count_ = add_node("count", static_cast<double>(c_.count), "",
                      std::string("nursery.smallest_order") + suffix,
                      joined({to_field_, confidence_}, tail));
    add_node("chance", c_.chance, "share", std::string("nursery.chance") + suffix,
             joined({to_field_, count_}, tail));
  }

  void add_weights() {
    if (c_.seed_kg) {
      const std::string per_kg =
          add_leaf(workings_, at_ + "seeds_per_kg", label("seeds_per_kg"), *c_.seeds_per_kg,
                   "seeds/kg", Origin::documented, "species library");
      add_node("seed_kg", *c_.seed_kg, "kg", "nursery.quotient", {count_, per_kg});
    }
    if (c_.way == Way::wildlings) {
      add_node("carpet", static_cast<double>(c_.carpet_at_least), "", "nursery.quotient_up",
               {count_, add_parameter(workings_, parameters_.at("nursery.wildling.take_share"))});
    }
  }

  std::string add_potted() {
    if (c_.way == Way::cannot_tell) return {};
    Keys inputs = {count_};
    double potted = static_cast<double>(c_.count);
    for (std::size_t i = 0; i < c_.stages.size(); ++i) {
      const StageName stage = c_.stages[i].stage;
      if (stage == StageName::pricking_out || stage == StageName::growing_on) break;
      potted *= c_.stages[i].mean;
      inputs.push_back(means_[i]);
    }
    return add_node("potted", potted, "", "nursery.product", inputs);
  }

  Workings& workings_;
  const Collection& c_;
  const Parameters& parameters_;
  std::string at_, confidence_, to_field_, ready_, arriving_, lots_, count_;
  Keys ready_pairs_, pairs_, means_;
};

void add_space(Workings& workings, const Space& space, const Keys& potted,
               const Parameters& parameters) {
  if (potted.empty()) return;
  const std::string pots =
      add(workings, {"nursery/pots", say("nursery.label.pots"), static_cast<double>(space.pots), "",
                     "nursery.sum_up", potted});
  const auto parameter = [&](const char* key) {
    return add_parameter(workings, parameters.at(key));
  };
  add(workings, {"nursery/bed",
                 say("nursery.label.bed"),
                 space.bed_m2,
                 "m2",
                 "nursery.bed",
                 {pots, parameter("nursery.pot_diameter_cm"), parameter("nursery.bed_factor")}});
  add(workings, {"nursery/water_low",
                 say("nursery.label.water_low"),
                 space.water_low_l_day,
                 "l/day",
                 "nursery.per_1000",
                 {pots, parameter("nursery.water.low_l_per_1000_day")}});
  add(workings, {"nursery/water_high",
                 say("nursery.label.water_high"),
                 space.water_high_l_day,
                 "l/day",
                 "nursery.per_1000",
                 {pots, parameter("nursery.water.high_l_per_1000_day")}});
}

}  // namespace

const Formulas& formulas() {
  static const Formulas all = {
      {"nursery.product", "product of all inputs", "Siyag (2014) Table 2.3", product},
      {"nursery.quotient", "a / b", "", quotient},
      {"nursery.quotient_up", "a / b, rounded up", "",
       [](std::span<const double> in) { return rounded_up(quotient(in)); }},
      {"nursery.by_means", "(trees - ready that arrive) / mean yield, rounded up",
       "Siyag (2014) Table 2.3",
       [](std::span<const double> in) {
         const double arriving = in.size() > 2 ? in[2] : 0;
         return rounded_up(std::max(0.0, in[1] - arriving) / in[0]);
       }},
      {"nursery.split_confidence", "confidence^(1/species)", "Esary, Proschan & Walkup (1967)",
       [](std::span<const double> in) { return exact_pow(in[0], 1.0 / in[1]); }},
      {"nursery.count_positive", "how many inputs are above 0", "",
       [](std::span<const double> in) {
         return static_cast<double>(
             std::count_if(in.begin(), in.end(), [](double x) { return x > 0; }));
       }},
      {"nursery.smallest_order",
       "smallest N with E[P(Bin(N, T) >= need)] >= confidence, T = product of betas",
       "beta-binomial stages; Hoeffding (1956) for several lots", smallest},
      {"nursery.smallest_order_after_ready",
       "smallest N with E[P(ready that arrive + Bin(N, T) >= need)] >= confidence",
       "as nursery.smallest_order", smallest_after_ready},
      {"nursery.chance", "E[P(Bin(N, T) >= need)]", "as nursery.smallest_order", chance},
      {"nursery.chance_after_ready", "E[P(ready that arrive + Bin(N, T) >= need)]",
       "as nursery.smallest_order", chance_after_ready},
      {"nursery.chance_ready_only", "E[P(Bin(ready, T) >= need)]", "as nursery.smallest_order",
       chance_ready_only},
      {"nursery.sum_up", "sum of all inputs, rounded up", "",
       [](std::span<const double> in) {
         double sum = 0;
         for (const double x : in) sum += x;
         return rounded_up(sum);
       }},
      {"nursery.bed", "pots / (10,000 / d^2) x factor", "pots side by side in square metres",
       [](std::span<const double> in) { return in[0] / (10000 / (in[1] * in[1])) * in[2]; }},
      {"nursery.per_1000", "pots / 1,000 x litres", "",
       [](std::span<const double> in) { return in[0] / 1000 * in[1]; }},
  };
  return all;
}

void add_workings(Workings& workings, const CollectionPlan& plan, const Parameters& parameters) {
  if (plan.collections.empty()) return;
  const std::string asked =
      add_leaf(workings, "nursery/order_confidence", say("nursery.label.order_confidence"),
               plan.order_confidence, "share", Origin::chosen);
  const std::string key = "nursery/species_confidence";
  Keys needs;
  for (const Collection& c : plan.collections) {
    needs.push_back(add_leaf(workings, "nursery/" + c.species + "/to_field",
                             say("nursery.label.to_field", {{"species", c.species}}),
                             static_cast<double>(c.to_field), "trees", Origin::chosen));
  }
  const std::string counted = add(
      workings, {"nursery/species_counted", say("nursery.label.species_counted"),
                 static_cast<double>(plan.species_counted), "", "nursery.count_positive", needs});
  add(workings, {key,
                 say("nursery.label.species_confidence"),
                 plan.species_confidence,
                 "share",
                 "nursery.split_confidence",
                 {asked, counted}});
  Keys potted;
  for (const Collection& c : plan.collections) {
    const std::string pots = SpeciesNodes(workings, c, parameters, key).add_all();
    if (!pots.empty()) potted.push_back(pots);
  }
  add_space(workings, plan.space, potted, parameters);
}

}  // namespace wildling::nursery
