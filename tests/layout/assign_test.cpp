#include "layout/assign.hpp"

#include <cmath>
#include <numeric>

#include <gtest/gtest.h>

#include "base/error.hpp"
#include "base/parallel.hpp"
#include "help.hpp"
#include "layout/neighbours.hpp"

namespace wildling::layout {
namespace {

Places field(int rows, int columns, const Grid& grid) {
  return places(rectangle(columns * grid.spacing_m, rows * grid.row_spacing_m, 0.01, 0.01), {},
                grid);
}

/// Like pairs by comparing every pair of places by distance.
std::int64_t pairs_by_distance(const Places& p, const std::vector<std::uint8_t>& species,
                               double within_m) {
  std::int64_t pairs = 0;
  for (std::size_t i = 0; i < p.size(); ++i) {
    for (std::size_t j = 0; j < i; ++j) {
      const double d = std::hypot(p.at(i).x_m - p.at(j).x_m, p.at(i).y_m - p.at(j).y_m);
      pairs += species[i] != kEmptyPlace && species[i] == species[j] && d < within_m ? 1 : 0;
    }
  }
  return pairs;
}

std::vector<std::uint8_t> scattered(const Places& p, std::uint32_t kinds) {
  Stream stream(Seed{9}, Purpose{"test"}, 0);
  std::vector<std::uint8_t> species;
  for (std::size_t i = 0; i < p.size(); ++i) {
    const std::uint32_t s = stream.below(kinds + 1);
    species.push_back(s == kinds ? kEmptyPlace : static_cast<std::uint8_t>(s));
  }
  return species;
}

ground::XyShape ragged() {
  ground::XyPolygon part;
  part.outer = star({30, 12, 33, 18, 26, 9, 31, 22}, 3, 5);
  return {part};
}

TEST(LikePairs, AreThoseOfTheFourNearestOnASquareGrid) {
  const Places p = places(ragged(), {}, square_grid(2, 20, 0, 0));
  const auto s = scattered(p, 3);
  EXPECT_EQ(count_like_pairs(p, s, Neighbours::sides), pairs_by_distance(p, s, 2.1));
}

TEST(LikePairs, AreThoseOfTheEightNearestWithCorners) {
  const Places p = places(ragged(), {}, square_grid(2, 20, 0, 0));
  const auto s = scattered(p, 3);
  EXPECT_EQ(count_like_pairs(p, s, Neighbours::sides_and_corners), pairs_by_distance(p, s, 2.9));
}

TEST(LikePairs, AreThoseOfTheSixNearestOnATriangularGrid) {
  const Places p = places(ragged(), {}, triangular_grid(2, 20, 0, 0));
  const auto s = scattered(p, 3);
  EXPECT_EQ(count_like_pairs(p, s, Neighbours::sides), pairs_by_distance(p, s, 2.1));
}

TEST(Neighbours, AgreeWithThePairsCountedInOneSweep) {
  for (const Grid& grid : {square_grid(2, 20, 0, 0), triangular_grid(2, 20, 0, 0)}) {
    const Places p = places(ragged(), {}, grid);
    const auto s = scattered(p, 2);
    std::int64_t twice = 0;
    for (std::size_t i = 0; i < p.size(); ++i) {
      if (s[i] == kEmptyPlace) continue;
      for (const std::size_t other : neighbours_of(p, i, Neighbours::sides))
        twice += s[other] == s[i] ? 1 : 0;
    }
    EXPECT_EQ(twice, 2 * count_like_pairs(p, s, Neighbours::sides));
  }
}

TEST(Assign, TheBoundOfAFullSquareGridIsAHalfForFourAndAQuarterForEightNeighbours) {
  const Places p = field(20, 20, square_grid(2, 0, 0, 0));
  ASSERT_EQ(p.size(), 400U);
  const std::vector<int> counts = {400};
  EXPECT_EQ(assign(p, counts, Seed{1}, 0, Neighbours::sides).most_without_pairs, 200);
  EXPECT_EQ(assign(p, counts, Seed{1}, 0, Neighbours::sides_and_corners).most_without_pairs, 100);
}

TEST(Assign, TheBoundOfALargeTriangularGridIsNearAThird) {
  const Places p = field(60, 60, triangular_grid(2, 0, 0, 0));
  const Assignment a = assign(p, std::vector<int>{static_cast<int>(p.size())}, Seed{1}, 0);
  const double share = static_cast<double>(a.most_without_pairs) / static_cast<double>(p.size());
  EXPECT_GE(share, 1.0 / 3);
  EXPECT_LT(share, 0.36);  // triangles cut by the edge of 60 x 60
}

/// The largest set without neighbours, by trying all subsets.
int largest_by_trying(const Places& p, Neighbours near) {
  int best = 0;
  for (std::uint32_t set = 0; set < (1U << p.size()); ++set) {
    bool good = true;
    for (std::size_t i = 0; i < p.size() && good; ++i) {
      if ((set >> i & 1U) == 0) continue;
      for (const std::size_t other : neighbours_of(p, i, near))
        good = good && (set >> other & 1U) == 0;
    }
    if (good) best = std::max(best, __builtin_popcount(set));
  }
  return best;
}

TEST(Assign, TheBoundIsNeverBelowTheLargestSetFoundByTryingAll) {
  for (const Grid& grid : {square_grid(2, 0, 0, 0), triangular_grid(2, 0, 0, 0)}) {
    for (const Neighbours near : {Neighbours::sides, Neighbours::sides_and_corners}) {
      const Places p = field(3, 5, grid);
      const Assignment a =
          assign(p, std::vector<int>{static_cast<int>(p.size())}, Seed{1}, 0, near);
      EXPECT_GE(a.most_without_pairs, largest_by_trying(p, near));
    }
  }
}

TEST(Assign, AChessboardOfTwoSpeciesIsFound) {
  const Places p = field(6, 6, square_grid(2, 0, 0, 0));
  const Assignment a = assign(p, std::vector<int>{18, 18}, Seed{1}, 0);
  EXPECT_LE(a.like_pairs, 12);  // 60 pairs; a random order has about 30, the chessboard none
  EXPECT_TRUE(a.too_many.empty());
}

TEST(Assign, SaysWhichSpeciesIsTooManyAndHowFewPairsMustStay) {
  const Places p = field(10, 10, square_grid(2, 0, 0, 0));
  const Assignment a = assign(p, std::vector<int>{20, 70, 10}, Seed{1}, 0);
  EXPECT_EQ(a.too_many, std::vector<int>{1});
  EXPECT_EQ(a.most_without_pairs, 50);
  EXPECT_EQ(a.fewest_like_pairs, 20);
  EXPECT_GE(a.like_pairs, 20);
  const auto told = messages_of(a, std::vector<int>{20, 70, 10});
  ASSERT_EQ(told.size(), 3U);
  EXPECT_EQ(told[0], say("layout.pairs_left", {{"pairs", a.like_pairs}}));
  EXPECT_EQ(std::get<std::int64_t>(told[1].arguments.at("pairs")), 20);
}

TEST(Assign, TenPercentEachLeavesNoLikePairOnEightNeighbours) {
  const Places p = field(200, 200, square_grid(2.7, 0, 0, 0));
  const Assignment a =
      assign(p, std::vector<int>(10, 4000), Seed{5}, 0, Neighbours::sides_and_corners);
  EXPECT_EQ(a.like_pairs, 0);
}

TEST(Assign, EmptyPlacesAreSpreadEvenly) {
  const Places p = field(100, 100, square_grid(2, 0, 0, 0));
  const std::vector<bool> used = spread_evenly(p, 8000);
  EXPECT_EQ(std::count(used.begin(), used.end(), true), 8000);
  for (int r = 0; r < 100; r += 10) {
    for (int c = 0; c < 100; c += 10) {
      int planted = 0;
      for (int i = 0; i < 100; ++i)
        planted += used[static_cast<std::size_t>((r + i / 10) * 100 + c + i % 10)] ? 1 : 0;
      EXPECT_NEAR(planted, 80, 5) << r << " "
                                  << c;  // by chance alone the standard deviation would be 4
    }
  }
}

TEST(Assign, SkippingUsesTheSquaresOfTheRootOfGCubedEqualsGPlusOne) {
  const double g = 1.32471795724474602596;
  EXPECT_NEAR(g * g * g, g + 1, 1e-15);
  EXPECT_NEAR(4294967296.0 / g, 3242174889.0, 0.5);
  EXPECT_NEAR(4294967296.0 / (g * g), 2447445414.0, 0.5);
}

TEST(Assign, IsTheSameForAnyNumberOfThreads) {
  const Places p = places(ragged(), {}, triangular_grid(1, 20, 0, 0));
  const std::vector<int> counts(7, static_cast<int>(p.size() / 8));
  std::vector<std::vector<std::uint8_t>> first;
  for (const unsigned threads : {1U, 2U, 7U}) {
    std::vector<std::vector<std::uint8_t>> got(20);
    parallel_for(got.size(), 1, threads, [&](std::size_t begin, std::size_t end) {
      for (std::size_t b = begin; b < end; ++b) got[b] = assign(p, counts, Seed{11}, b).species;
    });
    if (first.empty()) first = got;
    EXPECT_EQ(got, first) << threads;
  }
  EXPECT_NE(first[0], first[1]);  // another block draws another order
}

TEST(Assign, RefusesMoreSeedlingsThanPlaces) {
  const Places p = field(3, 3, square_grid(2, 0, 0, 0));
  try {
    (void)assign(p, std::vector<int>{5, 5}, Seed{1}, 0);
    FAIL();
  } catch (const Error& error) {
    EXPECT_EQ(error.kind(), ErrorKind::infeasible);
  }
}

TEST(Assign, RefusesNegativeCountsAndTooManySpecies) {
  const Places p = field(3, 3, square_grid(2, 0, 0, 0));
  EXPECT_THROW((void)assign(p, std::vector<int>{-1, 2}, Seed{1}, 0), Error);
  EXPECT_THROW((void)assign(p, std::vector<int>(256, 0), Seed{1}, 0), Error);
}

TEST(Assign, ABlockWithoutPlacesHasNothingToAssign) {
  const Places p = places(rectangle(2, 2), {}, square_grid(2, 0, 5, 0));
  EXPECT_TRUE(assign(p, std::vector<int>{0, 0}, Seed{1}, 0).species.empty());
}

TEST(Assign, StopsWhenAsked) {
  const Places p = field(3, 3, square_grid(2, 0, 0, 0));
  std::stop_source source;
  source.request_stop();
  Progress progress;
  progress.stop = source.get_token();
  EXPECT_THROW((void)assign(p, std::vector<int>{5}, Seed{1}, 0, Neighbours::sides, progress),
               Cancelled);
}

TEST(CountsInRow, AddUpToTheRow) {
  const Places p = field(4, 9, square_grid(2, 90, 0, 0));
  const Assignment a = assign(p, std::vector<int>{10, 10, 10}, Seed{1}, 0);
  int all = 0;
  for (std::size_t r = 0; r < p.rows.size(); ++r) {
    const auto counts = counts_in_row(p, a.species, r, 3);
    all += std::accumulate(counts.begin(), counts.end(), 0);
  }
  EXPECT_EQ(all, 30);
}

}  // namespace
}  // namespace wildling::layout
