#include "plan/places_buffer.hpp"

#include <cmath>
#include <cstring>
#include <numbers>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "layout/assign.hpp"
#include "plan/fill_parts.hpp"
#include "small_plan.hpp"

namespace wildling::plan {
namespace {

struct ReadChunk {
  double x = 0, y = 0;
  std::array<float, 4> box = {};
  std::uint32_t block = 0, first = 0, places = 0;
};

struct ReadRun {
  std::array<double, 4> line = {};
  std::uint32_t first = 0, places = 0, row = 0, number = 0;
};

struct ReadPlaces {
  std::uint32_t number = 0, seedlings = 0;
  double origin_x = 0, origin_y = 0, metre = 0;
  nlohmann::json text;
  std::vector<ReadChunk> chunks;
  std::vector<float> offsets;
  std::vector<ReadRun> runs;
  std::vector<std::uint8_t> species;
};

/// A reader that follows the header's words and nothing else.
class Reader {
 public:
  explicit Reader(const std::string& bytes) : bytes_(bytes) {}

  template <typename Number>
  Number next() {
    Number value = {};
    std::memcpy(&value, &bytes_.at(at_ + sizeof(Number) - 1) - sizeof(Number) + 1, sizeof(Number));
    at_ += sizeof(Number);
    return value;
  }

  std::string text(std::size_t length) {
    at_ += length;
    return bytes_.substr(at_ - length, length);
  }

  void to_eight() { at_ = (at_ + 7) / 8 * 8; }

  [[nodiscard]] bool at_end() const { return at_ == bytes_.size(); }

 private:
  const std::string& bytes_;
  std::size_t at_ = 0;
};

ReadPlaces read(const std::string& bytes) {
  Reader in(bytes);
  ReadPlaces all;
  EXPECT_EQ(in.text(4), "WPLC");
  EXPECT_EQ(in.next<std::uint32_t>(), 1U);
  all.number = in.next<std::uint32_t>();
  all.chunks.resize(in.next<std::uint32_t>());
  all.runs.resize(in.next<std::uint32_t>());
  all.species.resize(in.next<std::uint32_t>());
  all.seedlings = in.next<std::uint32_t>();
  const auto length = in.next<std::uint32_t>();
  all.origin_x = in.next<double>();
  all.origin_y = in.next<double>();
  all.metre = in.next<double>();
  in.next<std::uint64_t>();
  all.text = nlohmann::json::parse(in.text(length));
  in.to_eight();
  for (ReadChunk& chunk : all.chunks) {
    chunk.x = in.next<double>();
    chunk.y = in.next<double>();
    for (float& edge : chunk.box) edge = in.next<float>();
    chunk.block = in.next<std::uint32_t>();
    chunk.first = in.next<std::uint32_t>();
    chunk.places = in.next<std::uint32_t>();
    in.next<std::uint32_t>();
  }
  for (std::size_t i = 0; i < 2 * all.species.size(); ++i) all.offsets.push_back(in.next<float>());
  for (ReadRun& run : all.runs) {
    for (double& value : run.line) value = static_cast<double>(in.next<float>());
  }
  for (ReadRun& run : all.runs) {
    run.first = in.next<std::uint32_t>();
    run.places = in.next<std::uint32_t>();
    run.row = in.next<std::uint32_t>();
    run.number = in.next<std::uint32_t>();
  }
  for (std::uint8_t& species : all.species) species = in.next<std::uint8_t>();
  EXPECT_TRUE(in.at_end());
  return all;
}

ground::LonLat from_mercator(double x, double y) {
  return {x * 360 - 180,
          std::atan(std::sinh((1 - 2 * y) * std::numbers::pi)) * 180 / std::numbers::pi};
}

const ReadChunk& chunk_of(const ReadPlaces& all, std::size_t place) {
  for (const ReadChunk& chunk : all.chunks) {
    if (place >= chunk.first && place < chunk.first + chunk.places) return chunk;
  }
  throw std::out_of_range("no chunk holds the place");
}

double offset(const ReadPlaces& all, std::size_t i) {
  return static_cast<double>(all.offsets[i]);
}

ground::LonLat position(const ReadPlaces& all, std::size_t place) {
  const ReadChunk& chunk = chunk_of(all, place);
  return from_mercator(chunk.x + offset(all, 2 * place), chunk.y + offset(all, 2 * place + 1));
}

/// One block of 4 ha: more than two chunks of places.
PlanResult large_block() {
  Programme programme = invented_programme();
  programme.blocks.resize(1);
  const double lon = 110, side = 0.0018;
  programme.blocks[0].shape.parts = {
      {{{lon, -1}, {lon + side, -1}, {lon + side, -1 + side}, {lon, -1 + side}}, {}}};
  programme.parameters.set("layout.spacing", 2.7, Origin::told, "test", "");
  return small_plan(programme);
}

TEST(PlacesBuffer, CountsEverySeedlingOfThePlan) {
  const PlanResult plan = small_plan();
  const ReadPlaces all = read(places_buffer(plan));
  std::int64_t planted = 0;
  std::size_t places = 0;
  for (const BlockPart& part : plan.blocks) {
    planted += part.planted;
    places += static_cast<std::size_t>(part.places);
  }
  EXPECT_EQ(all.seedlings, planted);
  EXPECT_EQ(all.species.size(), places);
  EXPECT_EQ(all.number, 4U);
}

TEST(PlacesBuffer, PutsEachSeedlingWithinACentimetreOfItsPlace) {
  const PlanResult plan = large_block();
  const ReadPlaces all = read(places_buffer(plan));
  const ground::Frame frame = frame_of(plan, plan.blocks[0]);
  const auto laid = layout_of(plan.blocks[0], frame);
  ASSERT_TRUE(laid);
  ASSERT_EQ(all.species, laid->species);
  for (std::size_t i = 0; i < all.species.size(); ++i) {
    const ground::Xy got = frame.to_xy(position(all, i)), meant = laid->places.at(i);
    ASSERT_LT(std::hypot(got.x_m - meant.x_m, got.y_m - meant.y_m), 0.01) << i;
  }
}

TEST(PlacesBuffer, CutsALargeBlockInChunksThatCoverItOnce) {
  const ReadPlaces all = read(places_buffer(large_block()));
  ASSERT_GT(all.chunks.size(), 1U);
  std::uint32_t next = 0;
  for (const ReadChunk& chunk : all.chunks) {
    EXPECT_EQ(chunk.first, next);
    EXPECT_LE(chunk.places, kChunkPlaces);
    next += chunk.places;
  }
  EXPECT_EQ(next, all.species.size());
}

TEST(PlacesBuffer, KeepsEachChunkInsideItsBox) {
  const ReadPlaces all = read(places_buffer(small_plan()));
  for (const ReadChunk& chunk : all.chunks) {
    for (std::size_t i = chunk.first; i < chunk.first + chunk.places; ++i) {
      ASSERT_GE(all.offsets[2 * i], chunk.box[0]);
      ASSERT_GE(all.offsets[2 * i + 1], chunk.box[1]);
      ASSERT_LE(all.offsets[2 * i], chunk.box[2]);
      ASSERT_LE(all.offsets[2 * i + 1], chunk.box[3]);
    }
  }
}

TEST(PlacesBuffer, TellsRowAndNumberOfEveryPlace) {
  const PlanResult plan = small_plan();
  const ReadPlaces all = read(places_buffer(plan));
  const BlockPart& part = plan.blocks[1];
  const auto laid = layout_of(part, frame_of(plan, part));
  const auto& block = all.text.at("blocks").at(1);
  const auto first = all.chunks.at(block.at("first_chunk").get<std::size_t>()).first;
  for (std::size_t r = block.at("first_run");
       r < block.at("first_run").get<std::size_t>() + block.at("runs").get<std::size_t>(); ++r) {
    const ReadRun& run = all.runs[r];
    for (std::uint32_t k = 0; k < run.places; ++k) {
      const layout::Address address = layout::address_of(laid->places, run.first + k - first);
      ASSERT_EQ(address.row, run.row);
      ASSERT_EQ(address.number, run.number + k);
    }
  }
}

TEST(PlacesBuffer, DrawsARunFromItsFirstPlaceToItsLast) {
  const ReadPlaces all = read(places_buffer(small_plan()));
  for (const ReadRun& run : all.runs) {
    const ReadChunk& chunk = chunk_of(all, run.first);
    const double x = chunk.x + offset(all, 2 * run.first);
    ASSERT_NEAR((all.origin_x + run.line[0] - x) / all.metre, 0, 0.01);
    const std::size_t last = run.first + run.places - 1;
    const double y = chunk_of(all, last).y + offset(all, 2 * last + 1);
    ASSERT_NEAR((all.origin_y + run.line[3] - y) / all.metre, 0, 0.01);
  }
}

TEST(PlacesBuffer, MarksBlocksOnHold) {
  const auto blocks = read(places_buffer(small_plan())).text.at("blocks");
  EXPECT_TRUE(blocks.at(0).at("open").get<bool>());
  EXPECT_FALSE(blocks.at(2).at("open").get<bool>());
  EXPECT_EQ(blocks.at(2).at("code"), "B3");
}

TEST(PlacesBuffer, NamesSpeciesWithTheirGroup) {
  const PlanResult plan = small_plan();
  const auto species = read(places_buffer(plan)).text.at("species");
  ASSERT_EQ(species.size(), plan.species.size());
  EXPECT_EQ(species.at(1).at("name"), plan.species[1].name);
  EXPECT_EQ(species.at(1).at("group"), plan.species[1].group);
}

TEST(PlacesBuffer, LeavesABlockWithoutPlacesEmpty) {
  PlanResult plan = small_plan();
  plan.blocks[0].layout_code.clear();
  const ReadPlaces all = read(places_buffer(plan));
  EXPECT_EQ(all.text.at("blocks").at(0).at("chunks"), 0);
  EXPECT_EQ(all.chunks.front().block, 1U);
}

TEST(PlacesBuffer, IsTheSameBytesEveryTime) {
  const PlanResult plan = small_plan();
  EXPECT_EQ(places_buffer(plan), places_buffer(plan));
}

}  // namespace
}  // namespace wildling::plan
