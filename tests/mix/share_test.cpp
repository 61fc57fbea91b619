#include "mix/share.hpp"

#include <cmath>
#include <numeric>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "base/error.hpp"

namespace wildling::mix {
namespace {

struct Sharing {
  std::vector<int> counts;
  std::vector<BlockRoom> blocks;
};

Sharing random_sharing() {
  Sharing s;
  s.counts = *rc::gen::container<std::vector<int>>(*rc::gen::inRange<std::size_t>(1, 8),
                                                   rc::gen::inRange(0, 40));
  const int blocks = *rc::gen::inRange(1, 8);
  const long long total = std::accumulate(s.counts.begin(), s.counts.end(), 0LL);
  long long places = 0;
  for (int b = 0; b < blocks; ++b) {
    s.blocks.push_back({*rc::gen::inRange(1, 50) / 10.0, *rc::gen::inRange(0, 60)});
    places += s.blocks.back().places;
  }
  s.blocks.back().places += std::max(0LL, total - places);
  return s;
}

RC_GTEST_PROP(ShareAmongBlocks, KeepsEverySumExactly, ()) {
  const Sharing s = random_sharing();
  const auto table = share_among_blocks(s.counts, s.blocks);
  const long long total = std::accumulate(s.counts.begin(), s.counts.end(), 0LL);
  const auto rows = seedlings_per_block(total, s.blocks);
  for (std::size_t b = 0; b < s.blocks.size(); ++b) {
    RC_ASSERT(std::accumulate(table[b].begin(), table[b].end(), 0LL) == rows[b]);
    RC_ASSERT(rows[b] <= s.blocks[b].places);
  }
  for (std::size_t i = 0; i < s.counts.size(); ++i) {
    long long sum = 0;
    for (const auto& row : table) sum += row[i];
    RC_ASSERT(sum == s.counts[i]);
  }
}

RC_GTEST_PROP(ShareAmongBlocks, RoundsEachShareDownOrUp, ()) {
  const Sharing s = random_sharing();
  const auto table = share_among_blocks(s.counts, s.blocks);
  const double total = std::accumulate(s.counts.begin(), s.counts.end(), 0.0);
  if (total == 0) return;
  const auto rows = seedlings_per_block(static_cast<long long>(total), s.blocks);
  for (std::size_t b = 0; b < s.blocks.size(); ++b) {
    for (std::size_t i = 0; i < s.counts.size(); ++i) {
      RC_ASSERT(std::abs(table[b][i] - double(rows[b]) * s.counts[i] / total) < 1);
    }
  }
}

TEST(SeedlingsPerBlock, SharesInProportion) {
  const std::vector<BlockRoom> blocks = {{1, 100}, {2, 100}, {3, 100}};
  EXPECT_EQ(seedlings_per_block(60, blocks), (std::vector<long long>{10, 20, 30}));
}

TEST(SeedlingsPerBlock, GivesWhatAFullBlockCannotTakeToTheOthers) {
  const std::vector<BlockRoom> blocks = {{1, 100}, {1, 100}, {2, 10}};
  EXPECT_EQ(seedlings_per_block(60, blocks), (std::vector<long long>{25, 25, 10}));
}

TEST(SeedlingsPerBlock, RefusesMoreSeedlingsThanPlaces) {
  const std::vector<BlockRoom> blocks = {{1, 10}, {1, 10}};
  try {
    seedlings_per_block(21, blocks);
    FAIL();
  } catch (const Error& error) {
    EXPECT_EQ(error.kind(), ErrorKind::infeasible);
  }
}

TEST(SeedlingsPerBlock, GivesNothingToABlockThatNeedsNothing) {
  const std::vector<BlockRoom> blocks = {{0, 100}, {1, 100}};
  EXPECT_EQ(seedlings_per_block(7, blocks), (std::vector<long long>{0, 7}));
}

TEST(SeedlingsPerBlock, RefusesWeightsThatCannotBe) {
  const std::vector<BlockRoom> nan = {{std::nan(""), 10}};
  const std::vector<BlockRoom> negative = {{-1, 10}};
  EXPECT_THROW(seedlings_per_block(1, nan), Error);
  EXPECT_THROW(seedlings_per_block(1, negative), Error);
  EXPECT_THROW(seedlings_per_block(-1, negative), Error);
}

TEST(ShareAmongBlocks, SharesNothingAmongNoBlocks) {
  EXPECT_TRUE(share_among_blocks(std::vector<int>{0, 0}, {}).empty());
}

TEST(ShareAmongBlocks, ASpeciesRarerThanBlocksStandsInAsManyBlocksAsItHasSeedlings) {
  const std::vector<int> counts = {3, 97};
  const std::vector<BlockRoom> blocks = {{1, 20}, {1, 20}, {1, 20}, {1, 20}, {1, 20}};
  int with = 0;
  for (const auto& row : share_among_blocks(counts, blocks)) with += row[0] > 0 ? 1 : 0;
  EXPECT_EQ(with, 3);
}

}  // namespace
}  // namespace wildling::mix
