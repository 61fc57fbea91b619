// The linear model of mix.hpp. Names as there: x counts, y presence, s survival, E_g even share.
#include <algorithm>
#include <cmath>

#include "mix/problem.hpp"

namespace wildling::mix {
namespace {

class Builder {
 public:
  Builder(const Problem& problem, std::span<const Elastic> elastic)
      : p_(problem), elastic_(elastic), charged_(elastic.empty()) {
    model_.slack.resize(elastic.size());
  }

  Model build() {
    add_columns();
    for (std::size_t g = 0; g < p_.grounds; ++g) add_ground_rows(g);
    for (std::size_t i = 0; i < p_.candidates; ++i) {
      if (model_.y[i] >= 0) add_species_rows(i);
    }
    add_number_of_species();
    if (p_.demands.budget && p_.any_price) add_budget();
    return std::move(model_);
  }

 private:
  using Terms = std::vector<std::pair<int, double>>;

  void add_columns() {
    model_.x.assign(p_.grounds, std::vector<int>(p_.candidates, -1));
    model_.y.assign(p_.candidates, -1);
    for (std::size_t g = 0; g < p_.grounds; ++g) {
      for (std::size_t i = 0; i < p_.candidates; ++i) {
        if (p_.may(g, i)) model_.x[g][i] = add_count(g, i);
      }
    }
    for (std::size_t i = 0; i < p_.candidates; ++i) {
      if (p_.may_anywhere(i)) model_.y[i] = linear().add({0, 1, 0, true});
    }
  }

  // In the elastic model places may give, so a count may pass them; it never needs more than
  // `most`.
  double upper_bound(std::size_t g, std::size_t i) const {
    const double places = static_cast<double>(p_.places[g]);
    if (charged_) return places;
    const double most = std::ceil(p_.need[g] / p_.survival[g][i]) + p_.demands.fewest_each;
    return std::max(places, most);
  }

  // The elastic model's price of a seedling: 1e-4 for the whole order at the mean price.
  double tie_cost(std::size_t i) const {
    double mean = 0;
    for (const double price : p_.price) mean += price / static_cast<double>(p_.candidates);
    return mean > 0 ? 1e-4 * p_.price[i] / (mean * order_of(p_)) : 0;
  }

  int add_count(std::size_t g, std::size_t i) {
    const int x = linear().add({0, upper_bound(g, i), charged_ ? p_.price[i] : tie_cost(i), true});
    if (!charged_ || p_.spread_price <= 0) return x;
    for (const double times : {1.0, 2.0}) {
      const int excess = linear().add({0, kInfinity, p_.spread_price, false});
      add_row({-kInfinity, times * p_.even[g], {{x, 1.0}, {excess, -1.0}}});
    }
    return x;
  }

  void add_ground_rows(std::size_t g) {
    Terms living;
    Terms places;
    Terms low;
    Terms high;
    for (std::size_t i = 0; i < p_.candidates; ++i) {
      const int x = model_.x[g][i];
      if (x < 0) continue;
      const double pioneer = p_.pioneer[i] ? 1 : 0;
      living.emplace_back(x, p_.survival[g][i]);
      places.emplace_back(x, 1);
      low.emplace_back(x, pioneer - p_.demands.pioneer_share_min);
      high.emplace_back(x, pioneer - p_.demands.pioneer_share_max);
    }
    if (living.empty()) return;
    add_demand({p_.need[g], kInfinity, living}, DemandKind::living, g, 1);
    add_demand({-kInfinity, static_cast<double>(p_.places[g]), places}, DemandKind::places, g, -1);
    if (p_.open[g]) add_demand({0, kInfinity, low}, DemandKind::pioneers_min, g, 1);
    add_demand({-kInfinity, 0, high}, DemandKind::pioneers_max, g, -1);
  }

  Terms counts_of_species(std::size_t i) const {
    Terms terms;
    for (std::size_t g = 0; g < p_.grounds; ++g) {
      if (model_.x[g][i] >= 0) terms.emplace_back(model_.x[g][i], 1);
    }
    return terms;
  }

  void add_species_rows(std::size_t i) {
    const Terms mine = counts_of_species(i);
    double most = 0;
    for (const auto& term : mine)
      most += linear().columns[static_cast<std::size_t>(term.first)].upper;
    if (p_.stock[i]) {
      if (charged_) most = std::min(most, static_cast<double>(*p_.stock[i]));
      add_demand({-kInfinity, static_cast<double>(*p_.stock[i]), mine}, DemandKind::stock, kAll,
                 -1);
    }
    Terms above = mine;
    above.emplace_back(model_.y[i], -most);
    add_row({-kInfinity, 0, above});
    Terms below = mine;
    below.emplace_back(model_.y[i], -static_cast<double>(std::max(1, p_.demands.fewest_each)));
    add_demand({0, kInfinity, below}, DemandKind::fewest_each, kAll, 1);
    Terms used = mine;
    used.emplace_back(model_.y[i], -1.0);
    if (!charged_)
      add_row({0, kInfinity, used});  // a used species is planted at least once, whatever gives
    add_cap(mine);
  }

  void add_cap(const Terms& mine) {
    Terms terms;
    for (std::size_t g = 0; g < p_.grounds; ++g) {
      for (const int x : model_.x[g]) {
        if (x < 0) continue;
        const bool is_mine =
            std::any_of(mine.begin(), mine.end(), [&](const auto& t) { return t.first == x; });
        terms.emplace_back(x, (is_mine ? 1.0 : 0.0) - p_.demands.species_cap_share);
      }
    }
    add_demand({-kInfinity, 0, terms}, DemandKind::cap, kAll, -1);
  }

  void add_number_of_species() {
    Terms terms;
    for (const int y : model_.y) {
      if (y >= 0) terms.emplace_back(y, 1);
    }
    if (p_.anything()) {
      add_demand({static_cast<double>(p_.demands.fewest_species), kInfinity, terms},
                 DemandKind::species, kAll, 1);
    }
  }

  void add_budget() {
    Terms terms;
    for (std::size_t g = 0; g < p_.grounds; ++g) {
      for (std::size_t i = 0; i < p_.candidates; ++i) {
        if (model_.x[g][i] >= 0) terms.emplace_back(model_.x[g][i], p_.price[i]);
      }
    }
    add_demand({-kInfinity, *p_.demands.budget, terms}, DemandKind::budget, kAll, -1);
  }

  // Adds the row, with slack in the direction that eases it when this demand is elastic.
  void add_demand(LinearRow row, DemandKind kind, std::size_t ground, double sign) {
    for (std::size_t e = 0; e < elastic_.size(); ++e) {
      if (elastic_[e].kind != kind || elastic_[e].ground != ground) continue;
      row.terms.emplace_back(slack_column(e, kind), sign);
    }
    add_row(std::move(row));
  }

  // The cap's and the least count's rows of all species share one slack: the worst of them is what
  // counts.
  int slack_column(std::size_t e, DemandKind kind) {
    std::vector<int>& columns = model_.slack[e];
    const bool shared = kind == DemandKind::cap || kind == DemandKind::fewest_each;
    if (shared && !columns.empty()) return columns.front();
    columns.push_back(linear().add({0, kInfinity, elastic_[e].weight, false}));
    return columns.back();
  }

  void add_row(LinearRow row) { linear().rows.push_back(std::move(row)); }

  LinearModel& linear() { return model_.linear; }

  const Problem& p_;
  std::span<const Elastic> elastic_;
  bool charged_;
  Model model_;
};

}  // namespace

Model make_model(const Problem& problem, std::span<const Elastic> elastic) {
  return Builder(problem, elastic).build();
}

Counts counts_of(const Model& model, const Problem& problem, const Solution& solution) {
  Counts counts(problem.grounds, std::vector<int>(problem.candidates, 0));
  for (std::size_t g = 0; g < problem.grounds; ++g) {
    for (std::size_t i = 0; i < problem.candidates; ++i) {
      const int x = model.x[g][i];
      if (x >= 0)
        counts[g][i] = static_cast<int>(std::lround(solution.values[static_cast<std::size_t>(x)]));
    }
  }
  return counts;
}

}  // namespace wildling::mix
