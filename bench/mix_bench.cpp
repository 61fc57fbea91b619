// The mix of 30 species on 6 ground types, and one 1,000-ha ground of 1.1 million places.
#include <benchmark/benchmark.h>

#include "mix/mix.hpp"
#include "mix/share.hpp"
#include "species/library.hpp"

namespace {

using namespace wildling;

struct Setup {
  std::vector<mix::GroundNeed> grounds;
  std::vector<species::Candidate> candidates;
  std::vector<mix::SurvivalRow> survival;
  mix::Demands demands;
};

// The first `species` pioneers and early species of the shipped library, then late ones; invented
// stock and prices.
std::vector<species::Candidate> invented_candidates(const species::Library& library,
                                                    std::size_t count) {
  std::vector<species::Candidate> list;
  for (const bool late : {false, true}) {
    for (const species::Species& s : library.all()) {
      if ((s.group == species::Group::late) != late || list.size() == count) continue;
      species::Candidate c;
      c.species = s;
      c.stock.price_per_seedling = 2000 + 37.0 * static_cast<double>(list.size() * 7 % 31);
      list.push_back(c);
    }
  }
  return list;
}

Setup setup(std::size_t grounds, std::size_t species, double area_ha) {
  const species::Library library = species::Library::shipped();
  const Parameters parameters = Parameters::shipped();
  Setup s;
  s.candidates = invented_candidates(library, species);
  for (std::size_t g = 0; g < grounds; ++g) {
    s.grounds.push_back({.ground_type = "ground " + std::to_string(g),
                         .area_ha = area_ha + static_cast<double>(g),
                         .target_stems_per_ha = 650,
                         .natural_stems_per_ha = 20.0 * static_cast<double>(g),
                         .places_per_ha = 1100,
                         .places = {},
                         .flooded = g % 6 == 5,
                         .under_cover = false});
  }
  s.survival = mix::survival_rows(s.grounds, s.candidates, 36, library.survival(), parameters);
  s.demands =
      mix::ease_to_list(mix::demands(parameters), s.grounds, s.candidates, s.survival).demands;
  return s;
}

void run(benchmark::State& state, const Setup& s) {
  mix::Choice choice;
  for (auto _ : state) {
    choice = mix::choose(s.grounds, s.candidates, s.survival, s.demands);
    if (choice.verdict != mix::Verdict::found) {
      state.SkipWithError(choice.verdict == mix::Verdict::not_found ? "not found" : "none exists");
    }
  }
  state.counters["seedlings"] = static_cast<double>(choice.total);
  state.counters["gap"] = choice.gap;
  state.counters["species"] = choice.species;
}

void mix_30_species_6_grounds(benchmark::State& state) {
  run(state, setup(6, 30, 20));
}

void mix_30_species_1000_ha(benchmark::State& state) {
  run(state, setup(1, 30, 1000));
}

void mix_42_species_24_grounds(benchmark::State& state) {
  run(state, setup(24, 42, 20));
}

// Stock too small: how long the explanation takes.
void explain(benchmark::State& state, Setup s) {
  for (auto& c : s.candidates) {
    c.stock.seedlings_ready = 0;
    c.stock.can_raise = 1500;
  }
  for (auto _ : state) {
    const mix::Choice choice = mix::choose(s.grounds, s.candidates, s.survival, s.demands);
    if (choice.verdict != mix::Verdict::none_exists) state.SkipWithError("a mix exists");
    state.counters["clashes"] = static_cast<double>(choice.clashes.size());
    state.counters["alone"] = static_cast<double>(choice.alone.size());
  }
}

void clashes_30_species_6_grounds(benchmark::State& state) {
  explain(state, setup(6, 30, 20));
}

void clashes_42_species_24_grounds(benchmark::State& state) {
  explain(state, setup(24, 42, 20));
}

void share_1000_blocks_30_species(benchmark::State& state) {
  const std::vector<int> counts(30, 36667);
  std::vector<mix::BlockRoom> blocks;
  for (int b = 0; b < 1000; ++b) blocks.push_back({1.0 + b % 7, 3500});
  for (auto _ : state) benchmark::DoNotOptimize(mix::share_among_blocks(counts, blocks));
}

BENCHMARK(mix_30_species_6_grounds)->Unit(benchmark::kMillisecond);
BENCHMARK(mix_30_species_1000_ha)->Unit(benchmark::kMillisecond);
BENCHMARK(mix_42_species_24_grounds)->Unit(benchmark::kMillisecond);
BENCHMARK(clashes_30_species_6_grounds)->Unit(benchmark::kMillisecond);
BENCHMARK(clashes_42_species_24_grounds)->Unit(benchmark::kMillisecond);
BENCHMARK(share_1000_blocks_30_species)->Unit(benchmark::kMillisecond);

}  // namespace
