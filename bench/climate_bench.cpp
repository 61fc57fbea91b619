// Thirty and ninety invented years: planting window, months, hindcast, quality, chain.
#include <cmath>

#include <benchmark/benchmark.h>

#include "base/random.hpp"
#include "climate/drought.hpp"
#include "climate/generator.hpp"
#include "climate/indices.hpp"
#include "climate/outlook.hpp"
#include "climate/planting_window.hpp"
#include "climate/quality.hpp"

namespace {

using namespace wildling;
using namespace wildling::climate;

WeatherBook invented(int years) {
  WeatherBook book;
  book.station.lat_deg = 0.5;
  book.daily.first = make_date(1990, 1, 1);
  Stream luck(Seed{1}, Purpose{"climate bench"}, 0);
  for (Date d = book.daily.first; d < make_date(1990 + years, 1, 1); d += std::chrono::days(1)) {
    const double wet = 0.55 + 0.2 * std::cos(6.283 * day_of_year(d) / 365.25);
    book.daily.rain_mm.push_back(luck.uniform() < wet ? 1 + 14 * luck.gamma(0.8) : 0);
    book.daily.tmax_c.push_back(32 + luck.normal());
    book.daily.tmin_c.push_back(23 + 0.7 * luck.normal());
  }
  return book;
}

const Parameters& shipped() {
  static const Parameters parameters = Parameters::shipped();
  return parameters;
}

void BM_planting_windows(benchmark::State& state) {
  const WeatherBook book = invented(static_cast<int>(state.range(0)));
  for (auto _ : state) benchmark::DoNotOptimize(planting_windows(book, shipped()));
}

BENCHMARK(BM_planting_windows)->Arg(30)->Arg(90)->Unit(benchmark::kMillisecond);

void BM_month_normals(benchmark::State& state) {
  const WeatherBook book = invented(30);
  for (auto _ : state) benchmark::DoNotOptimize(month_normals(book, shipped()));
}

BENCHMARK(BM_month_normals)->Unit(benchmark::kMillisecond);

void BM_everything_but_hindcast(benchmark::State& state) {  // one station, 50 years
  const WeatherBook book = invented(50);
  for (auto _ : state) {
    benchmark::DoNotOptimize(planting_windows(book, shipped()));
    benchmark::DoNotOptimize(quality_flags(book.daily, shipped()));
    benchmark::DoNotOptimize(trends(year_indices(book.daily, shipped()), shipped()));
    benchmark::DoNotOptimize(drought(book, 3, shipped()));
    benchmark::DoNotOptimize(fit_weather(book.daily, shipped()));
  }
}

BENCHMARK(BM_everything_but_hindcast)->Unit(benchmark::kMillisecond);

void BM_hindcast(benchmark::State& state) {
  const WeatherBook book = invented(50);
  for (auto _ : state) benchmark::DoNotOptimize(hindcast(book, shipped()));
}

BENCHMARK(BM_hindcast)->Unit(benchmark::kMillisecond);

}  // namespace
