#include "plan/species_mix.hpp"

#include <algorithm>
#include <numeric>

#include "base/error.hpp"
#include "mix/share.hpp"
#include "species/library.hpp"

namespace wildling::plan {
namespace {

bool plants(const BlockPart& part) {
  return part.places > 0;
}

double natural_of(const BlockPart& part) {
  return part.block.gates.natural_trees_per_ha.value_or(0);
}

bool floods(const Programme& programme, const std::string& ground_type) {
  const auto& list = programme.flooded_ground;
  return std::find(list.begin(), list.end(), ground_type) != list.end();
}

// Ground that nobody has typed is called after its site.
const std::string& type_of(const BlockPart& part) {
  return part.block.ground_type.empty() ? part.block.site : part.block.ground_type;
}

std::size_t ground_for(Grounds& grounds, const BlockPart& part, const Programme& programme) {
  const bool cover = part.block.cover == ground::Cover::under_trees;
  for (std::size_t g = 0; g < grounds.needs.size(); ++g) {
    if (grounds.needs[g].ground_type == type_of(part) && grounds.needs[g].under_cover == cover)
      return g;
  }
  mix::GroundNeed need;
  need.ground_type = type_of(part);
  need.target_stems_per_ha = programme.parameters.value("plan.target_stems_per_ha");
  need.flooded = floods(programme, part.block.ground_type);
  need.under_cover = cover;
  need.places = 0;
  grounds.needs.push_back(need);
  grounds.blocks.emplace_back();
  return grounds.needs.size() - 1;
}

// What the nearest mix is expected to give, counted from its numbers.
mix::GroundResult result_of(const SolvedMix& solved, std::size_t g) {
  const mix::GroundNeed& need = solved.grounds.needs[g];
  mix::GroundResult result;
  result.needed_living =
      std::max(0.0, need.area_ha * (need.target_stems_per_ha - need.natural_stems_per_ha));
  result.places = need.places.value_or(0);
  const auto& planted = solved.choice.planted[g];
  for (std::size_t i = 0; i < planted.size(); ++i) {
    const species::Survival& survival = solved.survival[g].of_candidate[i];
    result.planted += planted[i];
    result.species += planted[i] > 0 ? 1 : 0;
    result.expected_living += planted[i] * survival.share;
    result.living_low += planted[i] * survival.low;
    result.living_high += planted[i] * survival.high;
  }
  return result;
}

void grant(SolvedMix& solved) {
  solved.choice.planted = solved.choice.nearest;
  solved.choice.grounds.clear();
  for (std::size_t g = 0; g < solved.grounds.needs.size(); ++g)
    solved.choice.grounds.push_back(result_of(solved, g));
  for (const mix::Clash& clash : solved.choice.clashes) solved.granted.push_back(clash.message);
}

[[noreturn]] void refuse(const mix::Choice& choice) {
  if (choice.clashes.empty()) throw Error(ErrorKind::infeasible, "", say("plan.mix_not_found"));
  throw Error(ErrorKind::infeasible, "", choice.clashes.front().message);
}

}  // namespace

Grounds grounds_of(const Land& land, const Programme& programme, bool open) {
  Grounds grounds;
  std::vector<double> natural;
  for (std::size_t b = 0; b < land.blocks.size(); ++b) {
    const BlockPart& part = land.blocks[b];
    if (part.open != open || !plants(part)) continue;
    const std::size_t g = ground_for(grounds, part, programme);
    natural.resize(grounds.needs.size());
    mix::GroundNeed& need = grounds.needs[g];
    need.area_ha += part.area_ha;
    // A block that has enough of its own must not count for its neighbours.
    natural[g] += part.area_ha * std::min(natural_of(part), need.target_stems_per_ha);
    *need.places += part.places;
    grounds.blocks[g].push_back(b);
  }
  for (std::size_t g = 0; g < grounds.needs.size(); ++g) {
    grounds.needs[g].natural_stems_per_ha = natural[g] / grounds.needs[g].area_ha;
    grounds.needs[g].places_per_ha =
        static_cast<double>(*grounds.needs[g].places) / grounds.needs[g].area_ha;
  }
  return grounds;
}

SolvedMix solve_mix(Grounds grounds, const std::vector<species::Candidate>& candidates, bool draft,
                    const Parameters& parameters, const Progress& progress) {
  static const species::Library library = species::Library::shipped();
  SolvedMix solved;
  solved.grounds = std::move(grounds);
  solved.demands = mix::demands(parameters);
  solved.survival = mix::survival_rows(solved.grounds.needs, candidates, solved.demands.age_months,
                                       library.survival(), parameters);
  mix::Eased eased =
      mix::ease_to_list(solved.demands, solved.grounds.needs, candidates, solved.survival);
  solved.demands = eased.demands;
  solved.eased = std::move(eased.said);
  solved.choice =
      mix::choose(solved.grounds.needs, candidates, solved.survival, solved.demands, progress);
  if (solved.choice.verdict == mix::Verdict::found) return solved;
  if (!draft || solved.choice.nearest.empty()) refuse(solved.choice);
  grant(solved);
  return solved;
}

std::vector<species::Candidate> stock_left(const std::vector<species::Candidate>& candidates,
                                           const mix::Choice& used) {
  std::vector<species::Candidate> left = candidates;
  for (std::size_t i = 0; i < left.size(); ++i) {
    int taken = 0;
    for (const auto& row : used.planted) taken += row[i];
    auto& stock = left[i].stock;
    const int from_ready = std::min(taken, stock.seedlings_ready.value_or(0));
    if (stock.seedlings_ready) stock.seedlings_ready = *stock.seedlings_ready - from_ready;
    if (stock.can_raise) stock.can_raise = std::max(0, *stock.can_raise - (taken - from_ready));
  }
  return left;
}

void share_out(const SolvedMix& mix, const Programme& programme, Land& land) {
  for (std::size_t g = 0; g < mix.grounds.needs.size(); ++g) {
    std::vector<mix::BlockRoom> rooms;
    for (const std::size_t b : mix.grounds.blocks[g]) {
      const BlockPart& part = land.blocks[b];
      const double missing =
          std::max(0.0, mix.grounds.needs[g].target_stems_per_ha - natural_of(part));
      rooms.push_back({part.area_ha * missing, part.places});
    }
    if (std::all_of(rooms.begin(), rooms.end(),
                    [](const mix::BlockRoom& r) { return r.weight <= 0; }))
      continue;
    const auto shares = mix::share_among_blocks(mix.choice.planted[g], rooms);
    for (std::size_t k = 0; k < shares.size(); ++k) {
      BlockPart& part = land.blocks[mix.grounds.blocks[g][k]];
      part.counts = shares[k];
      part.planted = std::accumulate(shares[k].begin(), shares[k].end(), std::int64_t{0});
      part.empty = part.places - part.planted;
    }
  }
  for (BlockPart& part : land.blocks) part.counts.resize(programme.candidates.size());
}

std::vector<GroundPart> ground_parts(const SolvedMix& mix, bool open) {
  std::vector<GroundPart> parts;
  for (std::size_t g = 0; g < mix.grounds.needs.size(); ++g) {
    const mix::GroundNeed& need = mix.grounds.needs[g];
    const mix::GroundResult& result = mix.choice.grounds[g];
    parts.push_back({need.ground_type, open, need.area_ha, need.target_stems_per_ha,
                     need.natural_stems_per_ha, result.needed_living, result.expected_living,
                     result.living_low, result.living_high, result.planted, result.places,
                     result.pioneers, result.species});
  }
  return parts;
}

}  // namespace wildling::plan
