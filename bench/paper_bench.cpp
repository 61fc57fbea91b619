// Seconds and bytes of the sheets: what a plan of 1,000 ha costs on paper.
#include <benchmark/benchmark.h>

#include "../tests/paper/sample.hpp"
#include "paper/paper.hpp"

namespace {

using namespace wildling;

const Words& english() {
  static const Words words(Language::en);
  return words;
}

void crew_sheets(benchmark::State& state) {
  plan::CrewSheets sheets{paper_sample::stamp(), {}};
  for (int i = 0; i < state.range(0); ++i)
    sheets.blocks.push_back(paper_sample::planting_block(Language::en));
  std::size_t bytes = 0;
  for (auto _ : state) bytes = paper::write_crew_sheets(sheets, english()).size();
  state.counters["bytes"] = static_cast<double>(bytes);
}

BENCHMARK(crew_sheets)->Arg(1)->Arg(10)->Arg(100)->Unit(benchmark::kMillisecond);

plan::MapPicture thousand_hectares() {
  plan::MapPicture picture = paper_sample::map(Language::en);
  picture.blocks.clear();
  for (int i = 0; i < 500; ++i) {
    plan::MapBlock block =
        paper_sample::map_block("B" + std::to_string(i), 190.0 * (i % 25), 130.0 * (i / 25));
    block.seedlings = 2200;
    picture.blocks.push_back(block);
  }
  return picture;
}

// 1.1 million seedlings are in the struct: they must not be drawn one by one.
void picture_of_a_thousand_hectares(benchmark::State& state) {
  const plan::MapPicture picture = thousand_hectares();
  std::size_t bytes = 0;
  for (auto _ : state) bytes = paper::map_picture_png(picture, english()).size();
  state.counters["bytes"] = static_cast<double>(bytes);
}

BENCHMARK(picture_of_a_thousand_hectares)->Unit(benchmark::kMillisecond);

void svg_of_twenty_thousand_seedlings(benchmark::State& state) {
  plan::MapPicture picture = paper_sample::map(Language::en);
  picture.blocks = {paper_sample::map_block("B1", 0, 0), paper_sample::map_block("B2", 0, 0),
                    paper_sample::map_block("B3", 0, 0), paper_sample::map_block("B4", 0, 0),
                    paper_sample::map_block("B5", 0, 0), paper_sample::map_block("B6", 0, 0),
                    paper_sample::map_block("B7", 0, 0), paper_sample::map_block("B8", 0, 0)};
  std::size_t bytes = 0;
  for (auto _ : state) bytes = paper::map_picture_svg(picture, english()).size();
  state.counters["bytes"] = static_cast<double>(bytes);
}

BENCHMARK(svg_of_twenty_thousand_seedlings)->Unit(benchmark::kMillisecond);

}  // namespace
