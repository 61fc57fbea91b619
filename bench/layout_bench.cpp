// 1.1 million places of 30 species. The yardstick of the species is a plain Fisher-Yates shuffle of
// the same bytes with the same generator; a Mersenne twister would be slower and flatter us. The
// yardstick of the places is a loop that writes as many rotated and rounded positions with no block
// to fit them into.
#include <cmath>
#include <numbers>

#include <benchmark/benchmark.h>

#include "layout/assign.hpp"
#include "layout/baseline.hpp"
#include "layout/turn.hpp"

namespace {

using namespace wildling;
using namespace wildling::layout;

/// About 1,000 ha with 400 corners and 20 holes: 1.1 million places at 3 m.
ground::XyShape site() {
  ground::XyPolygon part;
  for (int i = 0; i < 400; ++i) {
    const double angle = 2 * std::numbers::pi * i / 400;
    const double radius = 1790 + 60 * std::sin(9 * angle) + 25 * std::sin(31 * angle);
    part.outer.push_back({radius * std::cos(angle), radius * std::sin(angle)});
  }
  for (int h = 0; h < 20; ++h) {
    const double x = -1000 + 480.0 * (h % 5);
    const double y = -800 + 480.0 * (h / 5);
    part.holes.push_back({{x, y}, {x + 60, y + 5}, {x + 50, y + 70}, {x - 5, y + 55}});
  }
  return {part};
}

Grid grid() {
  return square_grid(3, 27, 1, 2);
}

const Places& million() {
  static const Places p = places(site(), {}, grid());
  return p;
}

std::vector<int> equal_shares(std::size_t n, int species) {
  std::vector<int> counts(static_cast<std::size_t>(species), static_cast<int>(n) / species);
  counts[0] += static_cast<int>(n) % species;
  return counts;
}

void baseline_positions_in_the_open(benchmark::State& state) {
  const Direction d = direction_of(27);
  const std::size_t n = million().size();
  for (auto _ : state) {
    std::vector<std::int32_t> x;
    std::vector<std::int32_t> y;
    x.reserve(n);
    y.reserve(n);
    for (std::size_t i = 0; i < n; ++i) {
      const double u = static_cast<double>(i % 1050) * 3000;
      const double v = static_cast<double>(i / 1050) * 3000;
      x.push_back(static_cast<std::int32_t>(std::llround(u * d.east + v * d.north)));
      y.push_back(static_cast<std::int32_t>(std::llround(u * d.north - v * d.east)));
    }
    benchmark::DoNotOptimize(x.data());
    benchmark::DoNotOptimize(y.data());
  }
}

void places_of_a_site(benchmark::State& state) {
  for (auto _ : state) benchmark::DoNotOptimize(places(site(), {}, grid()).x_mm.data());
  state.counters["places"] = static_cast<double>(million().size());
}

void baseline_shuffle(benchmark::State& state) {
  const std::vector<int> counts = equal_shares(million().size(), 30);
  for (auto _ : state) {
    std::vector<std::uint8_t> bytes;
    for (std::size_t s = 0; s < counts.size(); ++s) {
      bytes.insert(bytes.end(), static_cast<std::size_t>(counts[s]), static_cast<std::uint8_t>(s));
    }
    Stream stream(Seed{1}, Purpose{"layout.assign"}, 0);
    for (std::size_t i = bytes.size(); i > 1; --i) {
      std::swap(bytes[i - 1], bytes[stream.below(static_cast<std::uint32_t>(i))]);
    }
    benchmark::DoNotOptimize(bytes.data());
  }
}

void assign_30_species(benchmark::State& state, Neighbours neighbours) {
  const std::vector<int> counts = equal_shares(million().size(), 30);
  std::int64_t pairs = 0;
  for (auto _ : state) pairs = assign(million(), counts, Seed{1}, 0, neighbours).like_pairs;
  state.counters["like_pairs"] = static_cast<double>(pairs);
}

void assign_with_a_tenth_empty(benchmark::State& state) {
  const std::vector<int> counts = equal_shares(million().size() / 10 * 9, 30);
  for (auto _ : state)
    benchmark::DoNotOptimize(assign(million(), counts, Seed{1}, 0).species.data());
}

void pegs_of_a_site(benchmark::State& state) {
  const ground::XyShape block = site();
  for (auto _ : state) benchmark::DoNotOptimize(baseline(block, {}, million(), 5)->length_m);
}

BENCHMARK(baseline_positions_in_the_open)
    ->Name("places/baseline_positions_in_the_open")
    ->Unit(benchmark::kMillisecond);
BENCHMARK(places_of_a_site)->Name("places/of_a_1000_ha_site")->Unit(benchmark::kMillisecond);
BENCHMARK(baseline_shuffle)->Name("assign/baseline_shuffle_only")->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(assign_30_species, four, Neighbours::sides)
    ->Name("assign/30_species_4_neighbours")
    ->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(assign_30_species, eight, Neighbours::sides_and_corners)
    ->Name("assign/30_species_8_neighbours")
    ->Unit(benchmark::kMillisecond);
BENCHMARK(assign_with_a_tenth_empty)
    ->Name("assign/30_species_a_tenth_empty")
    ->Unit(benchmark::kMillisecond);
BENCHMARK(pegs_of_a_site)->Name("pegs/of_a_1000_ha_site")->Unit(benchmark::kMillisecond);

}  // namespace

BENCHMARK_MAIN();
