#include "plan/places_buffer.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <cstring>
#include <numbers>
#include <optional>
#include <vector>

#include <nlohmann/json.hpp>

#include "base/parallel.hpp"
#include "layout/assign.hpp"
#include "plan/fill_parts.hpp"

namespace wildling::plan {
namespace {

constexpr double kEquatorM = 2 * std::numbers::pi * 6378137.0;  // radius of WGS 84's equator

struct Mercator {
  double x = 0, y = 0;
};

Mercator mercator(ground::LonLat at) {
  const double up = std::asinh(std::tan(at.lat_deg * std::numbers::pi / 180));
  return {(at.lon_deg + 180) / 360, (1 - up / std::numbers::pi) / 2};
}

struct Chunk {
  Mercator centre = {};
  std::array<float, 4> box = {};
  std::uint32_t block = 0, first = 0, places = 0;
};

struct RunMark {
  std::uint32_t first = 0, places = 0, row = 0, number = 0;
};

// What one block gives; first places are counted from the block's own first.
struct BlockPlaces {
  std::vector<Chunk> chunks = {};
  std::vector<float> offsets = {};
  std::vector<float> lines = {};
  std::vector<RunMark> marks = {};
  std::vector<std::uint8_t> species = {};
};

// Little-endian on any machine.
template <typename Number>
void put(std::string& bytes, Number value) {
  std::array<char, sizeof(Number)> raw = {};
  std::memcpy(raw.data(), &value, sizeof(Number));
  if constexpr (std::endian::native == std::endian::big) std::reverse(raw.begin(), raw.end());
  bytes.append(raw.data(), raw.size());
}

template <typename Number>
void put_all(std::string& bytes, const std::vector<Number>& values) {
  if constexpr (std::endian::native == std::endian::little) {
    bytes.append(reinterpret_cast<const char*>(values.data()), values.size() * sizeof(Number));
  } else {
    for (const Number value : values) put(bytes, value);
  }
}

void fill_up(std::string& bytes) {
  bytes.resize((bytes.size() + 7) / 8 * 8, '\0');
}

// Centre and box of places [first, first + count), and their offsets.
Chunk cut(const std::vector<Mercator>& all, std::uint32_t first, std::uint32_t count,
          std::vector<float>& offsets) {
  Mercator least = all[first], most = all[first];
  for (std::uint32_t i = first; i < first + count; ++i) {
    least = {std::min(least.x, all[i].x), std::min(least.y, all[i].y)};
    most = {std::max(most.x, all[i].x), std::max(most.y, all[i].y)};
  }
  Chunk chunk;
  chunk.centre = {(least.x + most.x) / 2, (least.y + most.y) / 2};
  chunk.first = first;
  chunk.places = count;
  chunk.box = {
      static_cast<float>(least.x - chunk.centre.x), static_cast<float>(least.y - chunk.centre.y),
      static_cast<float>(most.x - chunk.centre.x), static_cast<float>(most.y - chunk.centre.y)};
  for (std::uint32_t i = first; i < first + count; ++i) {
    offsets.push_back(static_cast<float>(all[i].x - chunk.centre.x));
    offsets.push_back(static_cast<float>(all[i].y - chunk.centre.y));
  }
  return chunk;
}

void put_runs(const layout::Places& places, const std::vector<Mercator>& all, Mercator origin,
              BlockPlaces& block) {
  for (std::size_t r = 0; r < places.rows.size(); ++r) {
    const layout::Row& row = places.rows[r];
    for (std::uint32_t k = row.first_run; k < row.first_run + row.runs; ++k) {
      const layout::Run& run = places.runs[k];
      block.marks.push_back(
          {run.first, run.count, static_cast<std::uint32_t>(r) + 1, run.first - row.first + 1});
      for (const Mercator& end : {all[run.first], all[run.first + run.count - 1]}) {
        block.lines.push_back(static_cast<float>(end.x - origin.x));
        block.lines.push_back(static_cast<float>(end.y - origin.y));
      }
    }
  }
}

BlockPlaces block_places(const BlockPart& part, const ground::Frame& frame, Mercator origin) {
  BlockPlaces block;
  const std::optional<BlockLayout> laid = layout_of(part, frame);
  if (!laid || laid->places.size() == 0) return block;
  std::vector<Mercator> all(laid->places.size());
  for (std::size_t i = 0; i < all.size(); ++i)
    all[i] = mercator(frame.to_lonlat(laid->places.at(i)));
  // Chunks of one block are as equal as can be: no small rest.
  const auto n = static_cast<std::uint64_t>(all.size());
  const std::uint64_t pieces = (n + kChunkPlaces - 1) / kChunkPlaces;
  block.offsets.reserve(2 * n);
  for (std::uint64_t piece = 0; piece < pieces; ++piece) {
    const auto first = static_cast<std::uint32_t>(n * piece / pieces);
    const auto end = static_cast<std::uint32_t>(n * (piece + 1) / pieces);
    block.chunks.push_back(cut(all, first, end - first, block.offsets));
  }
  put_runs(laid->places, all, origin, block);
  block.species = laid->species;
  return block;
}

std::string text_of(const PlanResult& plan, const std::vector<BlockPlaces>& blocks) {
  nlohmann::json species = nlohmann::json::array();
  for (const SpeciesPart& part : plan.species)
    species.push_back(
        {{"name", part.name}, {"local_name", part.local_name}, {"group", part.group}});
  nlohmann::json list = nlohmann::json::array();
  std::size_t chunk = 0, run = 0;
  for (std::size_t b = 0; b < blocks.size(); ++b) {
    const BlockPart& part = plan.blocks[b];
    const auto planted = std::count_if(blocks[b].species.begin(), blocks[b].species.end(),
                                       [](std::uint8_t s) { return s != layout::kEmptyPlace; });
    list.push_back({{"code", part.block.code},
                    {"site", part.block.site},
                    {"open", part.open},
                    {"rows", blocks[b].marks.empty() ? 0 : blocks[b].marks.back().row},
                    {"places", blocks[b].species.size()},
                    {"seedlings", planted},
                    {"first_chunk", chunk},
                    {"chunks", blocks[b].chunks.size()},
                    {"first_run", run},
                    {"runs", blocks[b].marks.size()}});
    chunk += blocks[b].chunks.size();
    run += blocks[b].marks.size();
  }
  return nlohmann::json{{"species", species}, {"blocks", list}}.dump();
}

struct Totals {
  std::uint32_t chunks = 0, runs = 0, places = 0, seedlings = 0;
};

Totals count(const std::vector<BlockPlaces>& blocks) {
  Totals totals;
  for (const BlockPlaces& block : blocks) {
    totals.chunks += static_cast<std::uint32_t>(block.chunks.size());
    totals.runs += static_cast<std::uint32_t>(block.marks.size());
    totals.places += static_cast<std::uint32_t>(block.species.size());
    for (const std::uint8_t species : block.species)
      totals.seedlings += species == layout::kEmptyPlace ? 0 : 1;
  }
  return totals;
}

void put_head(std::string& bytes, int number, const Totals& totals, std::size_t text_bytes,
              ground::LonLat origin) {
  bytes += "WPLC";
  put(bytes, std::uint32_t{1});
  put(bytes, static_cast<std::uint32_t>(number));
  put(bytes, totals.chunks);
  put(bytes, totals.runs);
  put(bytes, totals.places);
  put(bytes, totals.seedlings);
  put(bytes, static_cast<std::uint32_t>(text_bytes));
  put(bytes, mercator(origin).x);
  put(bytes, mercator(origin).y);
  put(bytes, 1 / (kEquatorM * std::cos(origin.lat_deg * std::numbers::pi / 180)));
  put(bytes, std::uint64_t{0});
}

void put_chunks(std::string& bytes, const std::vector<BlockPlaces>& blocks) {
  std::uint32_t first = 0;
  for (std::size_t b = 0; b < blocks.size(); ++b) {
    for (const Chunk& chunk : blocks[b].chunks) {
      put(bytes, chunk.centre.x);
      put(bytes, chunk.centre.y);
      for (const float edge : chunk.box) put(bytes, edge);
      put(bytes, static_cast<std::uint32_t>(b));
      put(bytes, first + chunk.first);
      put(bytes, chunk.places);
      put(bytes, std::uint32_t{0});
    }
    first += static_cast<std::uint32_t>(blocks[b].species.size());
  }
}

void put_marks(std::string& bytes, const std::vector<BlockPlaces>& blocks) {
  std::uint32_t first = 0;
  for (const BlockPlaces& block : blocks) {
    for (const RunMark& mark : block.marks) {
      put(bytes, first + mark.first);
      put(bytes, mark.places);
      put(bytes, mark.row);
      put(bytes, mark.number);
    }
    first += static_cast<std::uint32_t>(block.species.size());
  }
}

}  // namespace

std::string places_buffer(const PlanResult& plan) {
  const ground::LonLat origin = plan.sites.empty() ? ground::LonLat{} : plan.sites.front().origin;
  std::vector<std::optional<ground::Frame>> frames;
  for (const BlockPart& part : plan.blocks) frames.emplace_back(frame_of(plan, part));
  std::vector<BlockPlaces> blocks(plan.blocks.size());
  parallel_for(blocks.size(), 1, 0, [&](std::size_t begin, std::size_t end) {
    for (std::size_t b = begin; b < end; ++b)
      blocks[b] = block_places(plan.blocks[b], *frames[b], mercator(origin));
  });
  const std::string text = text_of(plan, blocks);
  std::string bytes;
  put_head(bytes, plan.head.number, count(blocks), text.size(), origin);
  bytes += text;
  fill_up(bytes);
  put_chunks(bytes, blocks);
  for (const BlockPlaces& block : blocks) put_all(bytes, block.offsets);
  for (const BlockPlaces& block : blocks) put_all(bytes, block.lines);
  put_marks(bytes, blocks);
  for (const BlockPlaces& block : blocks) put_all(bytes, block.species);
  return bytes;
}

}  // namespace wildling::plan
