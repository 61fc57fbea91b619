#include <algorithm>
#include <cmath>

#include "mix/problem.hpp"

namespace wildling::mix {

Demands demands(const Parameters& p) {
  return {.age_months = p.value("mix.age"),
          .fewest_species = static_cast<int>(std::lround(p.value("mix.fewest_species"))),
          .fewest_each = static_cast<int>(std::lround(p.value("mix.fewest_each"))),
          .pioneer_share_min = p.value("mix.pioneer_share_min"),
          .pioneer_share_max = p.value("mix.pioneer_share_max"),
          .species_cap_share = p.value("mix.species_cap_share"),
          .budget = {},
          .only_ready = false,
          .spread_price_share = p.value("mix.spread_price_share"),
          .gap = p.value("mix.gap"),
          .node_limit = static_cast<int>(std::lround(p.value("mix.node_limit"))),
          .seconds_limit = p.value("mix.seconds_limit")};
}

std::vector<SurvivalRow> survival_rows(std::span<const GroundNeed> grounds,
                                       std::span<const species::Candidate> candidates,
                                       double age_months,
                                       std::span<const species::PublishedSurvival> published,
                                       const Parameters& parameters) {
  std::vector<SurvivalRow> rows;
  for (const GroundNeed& ground : grounds) {
    SurvivalRow row;
    for (const species::Candidate& c : candidates) {
      row.of_candidate.push_back(
          species::expected_survival(c, ground.under_cover, age_months, published, parameters));
    }
    rows.push_back(std::move(row));
  }
  return rows;
}

Suits suits(const GroundNeed& ground, const species::Candidate& candidate,
            const species::Survival& survival, const Demands& demands) {
  if (!candidate.use) return Suits::left_out;
  if (demands.only_ready && !candidate.stock.seedlings_ready) return Suits::not_counted;
  if (ground.flooded) {
    const species::Answer stands = species::stands_flood(candidate.species);
    if (stands == species::Answer::no) return Suits::drowns;
    if (stands == species::Answer::unknown) return Suits::flood_unknown;
  }
  const auto group = candidate.species.group;
  const bool own_count =
      (ground.under_cover ? candidate.own_cover : candidate.own_open).has_value();
  if (!own_count && !ground.under_cover && group == species::Group::late) return Suits::needs_cover;
  const bool stands_shade =
      candidate.species.shade_tolerance.value_or(species::Level::low) != species::Level::low;
  if (!own_count && ground.under_cover && group == species::Group::pioneer && !stands_shade) {
    return Suits::needs_light;
  }
  return survival.share > 0 ? Suits::yes : Suits::none_live;
}

Eased ease_to_list(const Demands& demands, std::span<const GroundNeed> grounds,
                   std::span<const species::Candidate> candidates,
                   std::span<const SurvivalRow> survival) {
  const Problem p = make_problem(grounds, candidates, survival, demands);
  int usable = 0;
  for (std::size_t i = 0; i < p.candidates; ++i) usable += p.may_anywhere(i) ? 1 : 0;
  Eased eased{.demands = demands, .said = {}};
  if (usable == 0) return eased;
  if (demands.fewest_species > usable) {
    eased.demands.fewest_species = usable;
    eased.said.push_back(say("mix.eased_species", {{"asked", std::int64_t{demands.fewest_species}},
                                                   {"usable", std::int64_t{usable}}}));
  }
  const double fair = std::min(1.0, 2.0 / usable);
  if (demands.species_cap_share < fair) {
    eased.demands.species_cap_share = fair;
    eased.said.push_back(say("mix.eased_cap", {{"asked", 100 * demands.species_cap_share},
                                               {"eased", 100 * fair},
                                               {"usable", std::int64_t{usable}}}));
  }
  return eased;
}

}  // namespace wildling::mix
