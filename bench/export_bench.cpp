// A GeoPackage copy of 1.1 million seedlings of 30 species. The yardstick turns as many places into
// longitude and latitude and writes nothing.
#include <filesystem>

#include <benchmark/benchmark.h>
#include <unistd.h>

#include "export/geopackage.hpp"
#include "layout/assign.hpp"

namespace {

using namespace wildling;
using namespace wildling::exports;

struct Site {
  ground::Frame frame{{.lon_deg = 113.5, .lat_deg = -0.8}};
  layout::Places places;
  layout::Assignment assigned;
  GeoPackageCopy copy;

  Site() {
    ground::XyPolygon part;
    part.outer = {{0, 0}, {3160, 0}, {3160, 3160}, {0, 3160}};
    places = layout::places({part}, {}, layout::square_grid(3, 27, 1, 0));
    assigned = layout::assign(places, std::vector<int>(30, static_cast<int>(places.size() / 30)),
                              Seed{1}, 0);
    for (int s = 0; s < 30; ++s) copy.species.push_back("Genus species" + std::to_string(s));
    copy.made_at_utc = "2026-11-25T04:37:13.123Z";
    LaidBlock block;
    block.code = "B1";
    block.shape = ground::to_lonlat(ground::XyShape{part}, frame);
    block.gate.open = true;
    block.frame = &frame;
    block.places = &places;
    block.species = assigned.species;
    copy.blocks.push_back(block);
  }
};

const Site& site() {
  static const Site s;
  return s;
}

void baseline_positions(benchmark::State& state) {
  for (auto _ : state) {
    for (std::size_t i = 0; i < site().places.size(); ++i) {
      benchmark::DoNotOptimize(site().frame.to_lonlat(site().places.at(i)));
    }
  }
}

void geopackage(benchmark::State& state) {
  const std::string path = (std::filesystem::temp_directory_path() /
                            ("wildling_bench_" + std::to_string(::getpid()) + ".gpkg"))
                               .string();
  const Words words(Language::en);
  for (auto _ : state) write_geopackage(path, site().copy, {}, words, true);
  state.counters["MB"] = static_cast<double>(std::filesystem::file_size(path)) / 1e6;
  state.counters["seedlings"] = static_cast<double>(site().assigned.planted);
  std::filesystem::remove(path);
}

BENCHMARK(baseline_positions)
    ->Name("geopackage/baseline_positions_only")
    ->Unit(benchmark::kMillisecond);
BENCHMARK(geopackage)->Name("geopackage/a_million_seedlings")->Unit(benchmark::kMillisecond);

}  // namespace

BENCHMARK_MAIN();
