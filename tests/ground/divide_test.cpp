#include "ground/divide.hpp"

#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "base/error.hpp"
#include "ground/frame.hpp"

namespace wildling::ground {
namespace {

Shape on_ground(const XyShape& shape) {
  return to_lonlat(shape, Frame({113.28, -0.83}));
}

Shape box(double width_m, double height_m) {
  return on_ground({{{{0, 0}, {width_m, 0}, {width_m, height_m}, {0, height_m}}, {}}});
}

double planar_sum(const std::vector<Shape>& pieces, const Frame& frame) {
  double sum = 0;
  for (const Shape& piece : pieces) sum += area_m2(to_xy(piece, frame));
  return sum;
}

TEST(Divide, ASmallSiteStaysOnePieceBitByBit) {
  const Shape site = normalised(box(100, 100));
  const std::vector<Shape> pieces = divide(site, 2, 0);
  ASSERT_EQ(pieces.size(), 1U);
  EXPECT_EQ(area_m2(pieces[0]), area_m2(site));
  for (const LonLat p : pieces[0].parts[0].outer) {
    EXPECT_EQ(std::count(site.parts[0].outer.begin(), site.parts[0].outer.end(), p), 1);
  }
}

TEST(Divide, ALongStripIsHalvedAcrossItsLongerSideFromTheWest) {
  const std::vector<Shape> pieces = divide(box(400, 100), 1, 0);
  ASSERT_EQ(pieces.size(), 4U);
  const Frame frame({113.28, -0.83});
  for (std::size_t i = 0; i < 4; ++i) {
    EXPECT_NEAR(area_m2(pieces[i]), 10000, 0.1);
    EXPECT_NEAR(frame.to_xy(middle(pieces[i])).x_m, 50 + 100 * static_cast<double>(i), 0.01);
  }
}

TEST(Divide, ThreeTimesTheLargestBlockGivesThreeEqualPieces) {
  const std::vector<Shape> pieces = divide(box(300, 100), 1.0001, 0);
  ASSERT_EQ(pieces.size(), 3U);
  for (const Shape& piece : pieces) EXPECT_NEAR(area_m2(piece), 10000, 1);
}

// A comb: the cut leaves its teeth apart, and each tooth becomes a piece of its own.
const XyShape kComb = {
    {{{0, 0}, {300, 0}, {300, 200}, {290, 200}, {290, 20}, {10, 20}, {10, 200}, {0, 200}}, {}}};

TEST(Divide, PiecesAreConnected) {
  for (const Shape& piece : divide(on_ground(kComb), 0.2, 0)) EXPECT_EQ(piece.parts.size(), 1U);
}

// Two towers on a low base: the cut leaves the top of the left one by itself.
const XyShape kTowers = {
    {{{0, 0}, {100, 0}, {100, 400}, {60, 400}, {60, 20}, {10, 20}, {10, 240}, {0, 240}}, {}}};

TEST(Divide, ASliverJoinsANeighbourAndNothingIsLost) {
  const std::vector<Shape> all = divide(on_ground(kTowers), 1, 0);
  const std::vector<Shape> joined = divide(on_ground(kTowers), 1, 0.1);
  EXPECT_EQ(all.size(), 3U);
  EXPECT_EQ(joined.size(), 2U);
  const Frame frame({113.28, -0.83});
  EXPECT_NEAR(planar_sum(joined, frame) / area_m2(kTowers), 1, 1e-9);
  for (const Shape& piece : joined) EXPECT_EQ(piece.parts.size(), 1U);
}

TEST(Divide, AnIslandBelowTheSliverLimitStaysAPartOfTheNearestPiece) {
  XyShape site = {{{{0, 0}, {400, 0}, {400, 100}, {0, 100}}, {}}};
  site.push_back({{{410, 0}, {420, 0}, {420, 10}, {410, 10}}, {}});
  const std::vector<Shape> pieces = divide(on_ground(site), 2, 0.05);
  ASSERT_EQ(pieces.size(), 2U);
  EXPECT_EQ(pieces[0].parts.size(), 1U);
  EXPECT_EQ(pieces[1].parts.size(), 2U);
}

TEST(Divide, AHoleStaysAHole) {
  const XyShape site = {
      {{{0, 0}, {400, 0}, {400, 100}, {0, 100}}, {{{190, 40}, {190, 60}, {210, 60}, {210, 40}}}}};
  const Frame frame({113.28, -0.83});
  EXPECT_NEAR(planar_sum(divide(on_ground(site), 1, 0), frame) / (40000 - 400), 1, 1e-9);
}

TEST(Divide, ASizeOfZeroIsRefused) {
  EXPECT_THROW(divide(box(100, 100), 0, 0), Error);
}

TEST(Divide, MoreThanTenThousandPiecesAreRefused) {
  EXPECT_THROW(divide(box(1000, 1000), 0.001, 0), Error);
}

TEST(Divide, ABowTieIsRefused) {
  EXPECT_THROW(divide(on_ground({{{{0, 0}, {100, 100}, {0, 100}, {100, 0}}, {}}}), 0.1, 0), Error);
}

RC_GTEST_PROP(Divide, PiecesOfAnyStarCoverItAndAreNotTooLarge, ()) {
  const int corners = *rc::gen::inRange(3, 40);
  const int turn = *rc::gen::inRange(0, 628);
  XyPolygon star;
  for (int i = 0; i < corners; ++i) {
    const double angle = (i + turn / 100.0) * 2 * 3.14159265358979 / corners;
    const double radius = *rc::gen::inRange(40, 400);
    star.outer.push_back({radius * std::cos(angle), radius * std::sin(angle)});
  }
  const double max_ha = *rc::gen::inRange(20, 500) / 100.0;
  const Shape site = normalised(on_ground({star}));
  const std::vector<Shape> pieces = divide(site, max_ha, 0);
  const Frame frame(middle(site));
  RC_ASSERT(std::abs(planar_sum(pieces, frame) / area_m2(to_xy(site, frame)) - 1) < 1e-9);
  for (const Shape& piece : pieces) {
    RC_ASSERT(area_m2(to_xy(piece, frame)) <= max_ha * 10000 * (1 + 1e-6));
  }
  RC_ASSERT(divide(site, max_ha, 0) == pieces);
}

}  // namespace
}  // namespace wildling::ground
