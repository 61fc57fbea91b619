// An order of 60 species. The yardstick is the obvious way for one small species: sums over every
// number that may pass every stage, as often as the bisection asks for.
#include <cmath>

#include <benchmark/benchmark.h>

#include "nursery/collection.hpp"
#include "stat/binomial.hpp"

namespace {

using namespace wildling;
using namespace wildling::nursery;

std::vector<Order> orders(long long ready) {
  std::vector<Order> all;
  for (int i = 0; i < 60; ++i) {
    Order order;
    order.species = "species " + std::to_string(i);
    order.to_field = 1000 + 300 * i;
    order.ready = ready;
    all.push_back(order);
  }
  return all;
}

double beta_binomial(int k, int n, const stat::Stage& stage) {
  const double both = 1 / stage.correlation - 1;
  const double a = stage.mean * both;
  const double b = both - a;
  return std::exp(stat::log_gamma(n + 1) - stat::log_gamma(k + 1) - stat::log_gamma(n - k + 1) +
                  stat::log_gamma(k + a) + stat::log_gamma(n - k + b) - stat::log_gamma(n + both) +
                  stat::log_gamma(both) - stat::log_gamma(a) - stat::log_gamma(b));
}

void baseline_stage_sums_need_50(benchmark::State& state) {
  const auto stages = plain(stages_from_seed({}, Parameters::shipped()));
  const int n = 254;
  for (auto _ : state) {
    std::vector<double> now(n + 1, 0.0);
    now.back() = 1;
    for (const stat::Stage& stage : stages) {
      std::vector<double> next(n + 1, 0.0);
      for (int from = 0; from <= n; ++from) {
        for (int to = 0; to <= from; ++to) {
          next[static_cast<std::size_t>(to)] +=
              now[static_cast<std::size_t>(from)] * beta_binomial(to, from, stage);
        }
      }
      now = next;
    }
    benchmark::DoNotOptimize(now.data());
  }
}

void nursery_60_species(benchmark::State& state) {
  const Parameters parameters = Parameters::shipped();
  const auto all = orders(state.range(0));
  for (auto _ : state) {
    const auto plan =
        collections(all, {make_date(2027, 11, 10), make_date(2026, 8, 1)}, 0.95, parameters);
    benchmark::DoNotOptimize(plan.space.pots);
  }
}

BENCHMARK(baseline_stage_sums_need_50)->Unit(benchmark::kMillisecond);
BENCHMARK(nursery_60_species)->Arg(0)->Arg(500)->Unit(benchmark::kMillisecond);

}  // namespace

BENCHMARK_MAIN();
