#pragma once
#include <string>
#include <vector>

#include "mix/mix.hpp"

/// Small invented questions for the tests of this room.
namespace wildling::mix {

struct Question {
  std::vector<GroundNeed> grounds;
  std::vector<species::Candidate> candidates;
  std::vector<SurvivalRow> survival;
  Demands demands;
};

inline species::Candidate tree(const std::string& name, species::Group group,
                               std::optional<double> price, std::optional<int> can_raise = {}) {
  species::Candidate c;
  c.species.scientific_name = name;
  c.species.group = group;
  c.stock.price_per_seedling = price;
  c.stock.can_raise = can_raise;
  if (can_raise) c.stock.seedlings_ready = 0;
  if (group == species::Group::late) {
    c.own_open = species::OwnSurvival{
        .alive_pct = 50, .age_months = {}, .origin = Origin::told, .source = "invented"};
  }
  return c;
}

inline GroundNeed ground(const std::string& name, double needed, long long places) {
  return {.ground_type = name,
          .area_ha = 1,
          .target_stems_per_ha = needed,
          .natural_stems_per_ha = 0,
          .places_per_ha = 0,
          .places = places,
          .flooded = false,
          .under_cover = false};
}

inline SurvivalRow survival(const std::vector<double>& shares) {
  SurvivalRow row;
  for (const double share : shares) {
    species::Survival s;
    s.share = share;
    s.low = share;
    s.high = share;
    row.of_candidate.push_back(s);
  }
  return row;
}

/// Two pioneers and two early species on one ground: 60 living wanted, 200 places. A mix exists.
inline Question four_trees() {
  using species::Group;
  Question q;
  q.grounds = {ground("slope", 60, 200)};
  q.candidates = {tree("A", Group::pioneer, 1.0, 100), tree("B", Group::pioneer, 2.0, 100),
                  tree("C", Group::early, 1.5, 100), tree("D", Group::early, 3.0, 100)};
  q.survival = {survival({0.8, 0.6, 0.7, 0.5})};
  q.demands.age_months = 36;
  q.demands.fewest_species = 3;
  q.demands.fewest_each = 5;
  q.demands.pioneer_share_min = 0.3;
  q.demands.pioneer_share_max = 0.6;
  q.demands.species_cap_share = 0.5;
  q.demands.spread_price_share = 0.1;
  q.demands.gap = 0;
  return q;
}

inline Choice answer(const Question& q) {
  return choose(q.grounds, q.candidates, q.survival, q.demands);
}

}  // namespace wildling::mix
