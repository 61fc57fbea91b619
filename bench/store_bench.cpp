// What a plan of a million seedlings costs to keep: the point layer for a GIS, and the bytes per
// block that the program reads; and what thirty years of a weather log cost.
#include <filesystem>

#include <benchmark/benchmark.h>
#include <unistd.h>

#include "store/geometry.hpp"
#include "store/store.hpp"

namespace {

using namespace wildling;
using namespace wildling::store;

class Scratch {
 public:
  Scratch()
      : path_(std::filesystem::temp_directory_path() /
              ("wildling_bench_" + std::to_string(::getpid()) + ".gpkg")) {
    clean();
    store_ = create_file(path_.string(), outside_);
  }

  ~Scratch() {
    store_.reset();
    clean();
  }

  Scratch(const Scratch&) = delete;
  Scratch& operator=(const Scratch&) = delete;

  Store& store() { return *store_; }

  /// Size after closing.
  double megabytes() {
    store_.reset();
    return static_cast<double>(std::filesystem::file_size(path_)) / 1e6;
  }

 private:
  void clean() {
    std::error_code ignored;
    std::filesystem::remove(path_, ignored);
  }

  std::filesystem::path path_;
  Rehearsal outside_{Seed{1}};
  std::unique_ptr<Store> store_;
};

ChangeSet by_bench() {
  ChangeSet changes;
  changes.who = "bench";
  return changes;
}

void write_points(RowSink& sink, std::int64_t count) {
  std::vector<Value> row = {Blob(),  from(1), std::string("B1"),
                            from(1), from(1), std::string("Dryobalanops lanceolata")};
  for (std::int64_t i = 0; i < count; ++i) {
    encode_point(
        {117 + static_cast<double>(i % 1000) * 1e-5, -1 + static_cast<double>(i / 1000) * 1e-5},
        std::get<Blob>(row[0]));
    row[3] = i / 1000 + 1;
    row[4] = i % 1000 + 1;
    sink.add(row);
  }
}

void seedling_layer(benchmark::State& state) {
  for (auto _ : state) {
    state.PauseTiming();
    Scratch scratch;
    ChangeSet changes = by_bench();
    DerivedRows points;
    points.table = "seedlings";
    points.columns = {"geom", "plan_number", "block_code", "row", "number", "species"};
    points.write = [&](RowSink& sink) { write_points(sink, state.range(0)); };
    changes.derived = {points};
    state.ResumeTiming();
    scratch.store().apply(changes);
    state.PauseTiming();
    state.counters["MB"] = scratch.megabytes();
    state.ResumeTiming();
  }
}

void plan_blocks(benchmark::State& state) {
  for (auto _ : state) {
    state.PauseTiming();
    Scratch scratch;
    ChangeSet changes = by_bench();
    DerivedRows blocks;
    blocks.table = "plan_blocks";
    blocks.columns = {"plan_uid", "block_uid", "block_code",   "grid",
                      "species",  "places",    "species_bytes"};
    blocks.write = [&](RowSink& sink) {
      const Blob bytes(11'000, 3);
      for (std::int64_t i = 0; i < state.range(0) / 11'000; ++i) {
        sink.add(std::vector<Value>{"p", std::to_string(i), "B", "{}", "[]", from(11'000), bytes});
      }
    };
    changes.derived = {blocks};
    state.ResumeTiming();
    scratch.store().apply(changes);
    state.PauseTiming();
    state.counters["MB"] = scratch.megabytes();
    state.ResumeTiming();
  }
}

void weather_log(benchmark::State& state) {
  for (auto _ : state) {
    state.PauseTiming();
    Scratch scratch;
    ChangeSet changes = by_bench();
    changes.import = Import{"weather", "rain.csv", std::string(64, 'a')};
    const Date first = make_date(1996, 1, 1);
    for (int i = 0; i < state.range(0); ++i) {
      const double x = i % 37;
      changes.rows.push_back(
          RowChange::insert("weather_days", {{"station_uid", std::string(32, '0')},
                                             {"day", from(first + std::chrono::days(i))},
                                             {"rain_mm", x},
                                             {"tmax_c", 31.5},
                                             {"tmin_c", 22.5}}));
    }
    state.ResumeTiming();
    scratch.store().apply(changes);
    benchmark::DoNotOptimize(scratch.store().rows("weather_days", Filter{}.by("day")));
    state.PauseTiming();
    state.counters["MB"] = scratch.megabytes();
    state.ResumeTiming();
  }
}

BENCHMARK(seedling_layer)->Arg(1'100'000)->Unit(benchmark::kMillisecond);
BENCHMARK(plan_blocks)->Arg(1'100'000)->Unit(benchmark::kMillisecond);
BENCHMARK(weather_log)->Arg(10'958)->Unit(benchmark::kMillisecond);

}  // namespace
