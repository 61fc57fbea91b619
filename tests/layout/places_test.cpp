#include "layout/places.hpp"

#include <set>

#include <gtest/gtest.h>

#include "base/csv.hpp"
#include "base/error.hpp"
#include "base/files.hpp"
#include "help.hpp"
#include "layout/turn.hpp"

namespace wildling::layout {
namespace {

using ground::Xy;
using ground::XyShape;

TEST(Density, AgreesWithThePublishedTable) {
  const CsvTable table =
      parse_csv_table(read_file(WILDLING_REFERENCE "/planting_density/data.csv"));
  ASSERT_EQ(table.rows.size(), 9U);
  for (const CsvRow& row : table.rows) {
    SCOPED_TRACE(row.cells[0] + " " + row.cells[1]);
    Grid grid = row.cells[0] == "triangular" ? triangular_grid(*parse_number(row.cells[1]), 0, 0, 0)
                                             : square_grid(*parse_number(row.cells[1]), 0, 0, 0);
    if (!row.cells[2].empty()) grid.row_spacing_m = *parse_number(row.cells[2]);
    EXPECT_NEAR(density_per_ha(grid), *parse_number(row.cells[3]),
                0.5);  // whole numbers are printed
  }
}

// One hectare 100 m x 100 m: the edge adds at most one row and one column's worth.
TEST(Places, AHectareHoldsTheTableDensityWithinItsEdge) {
  for (const double spacing : {1.5, 1.8, 2.0, 2.5, 3.0}) {
    const Grid grid = square_grid(spacing, 17, 0, 0);
    const auto n = static_cast<double>(places(rectangle(100, 100), {}, grid).size());
    EXPECT_NEAR(n, density_per_ha(grid), 0.5 * 400 / spacing) << spacing;
  }
}

TEST(Places, AnAlignedSquareGridHasExactlyRowsTimesColumns) {
  const Places p = places(rectangle(30, 20, 0.5, 0.5), {}, square_grid(2, 90, 0, 0));
  ASSERT_EQ(p.rows.size(), 10U);                            // y = 2, 4 ... 20
  for (const Row& row : p.rows) EXPECT_EQ(row.count, 15U);  // x = 2 ... 30
}

TEST(Places, RowOneIsLeftmostAndNumbersGrowInTheRowDirection) {
  const Places p = places(rectangle(30, 20, 0.5, 0.5), {}, square_grid(2, 90, 0, 0));
  EXPECT_EQ(p.at(0).y_m, 20);  // looking east, left is north
  EXPECT_EQ(p.at(0).x_m, 2);
  EXPECT_EQ(p.at(1).x_m, 4);
  EXPECT_EQ(p.at(p.size() - 1).y_m, 2);
}

TEST(Places, TriangularNeighboursAreAllOneSpacingApart) {
  const Places p = places(rectangle(20, 20), {}, triangular_grid(2, 33, 0, 0));
  int near = 0;
  for (std::size_t i = 0; i < p.size(); ++i) {
    for (std::size_t j = 0; j < i; ++j) {
      const double d = std::hypot(p.at(i).x_m - p.at(j).x_m, p.at(i).y_m - p.at(j).y_m);
      EXPECT_GT(d, 1.998);  // positions are rounded to the millimetre
      near += d < 2.002 ? 1 : 0;
    }
  }
  EXPECT_GT(near, static_cast<int>(2 * p.size()));  // three per place, fewer at the edge
}

TEST(Places, AHoleStaysEmptyWithItsSetback) {
  XyShape block = rectangle(60, 60);
  block[0].holes.push_back(rectangle(20, 20, 20, 20)[0].outer);
  const Places p = places(block, {}, square_grid(2, 10, 3, 0));
  ASSERT_GT(p.size(), 100U);
  for (std::size_t i = 0; i < p.size(); ++i) EXPECT_GE(depth_m(p.at(i), block), 3.0) << i;
}

TEST(Places, PartsOfABlockAreAllFilled) {
  XyShape block = rectangle(20, 20);
  block.push_back(rectangle(20, 20, 100, 5)[0]);
  const Places p = places(block, {}, square_grid(2, 90, 0, 0));
  EXPECT_EQ(p.size(), 200U);
}

TEST(Places, PartsThatShareAnEdgeCountAsOneBlock) {
  XyShape block = rectangle(20, 20);
  block.push_back(rectangle(20, 20, 20, 0)[0]);
  const Places p = places(block, {}, square_grid(2, 0, 2.5, 0));
  const Places whole = places(rectangle(40, 20), {}, square_grid(2, 0, 2.5, 0));
  EXPECT_EQ(p.x_mm, whole.x_mm);
}

TEST(Places, KeepTheirDistanceFromWater) {
  const std::vector<std::vector<Xy>> water = {{{-5, 10}, {20, 25}, {30, 12}, {70, 40}}};
  const Places p = places(rectangle(60, 60), water, square_grid(1, 0, 0, 5));
  double nearest = 1e9;
  for (std::size_t i = 0; i < p.size(); ++i) {
    for (std::size_t s = 0; s + 1 < water[0].size(); ++s) {
      nearest = std::min(nearest, distance_to_segment(p.at(i), water[0][s], water[0][s + 1]));
    }
  }
  EXPECT_GE(nearest, 5.0);
  EXPECT_LT(nearest, 5.2);
}

TEST(Places, APondIsEmptyInside) {
  const std::vector<std::vector<Xy>> pond = {{{20, 20}, {40, 20}, {40, 40}, {20, 40}, {20, 20}}};
  const Places p = places(rectangle(60, 60), pond, square_grid(2, 0, 0, 0));
  for (std::size_t i = 0; i < p.size(); ++i)
    EXPECT_LE(depth_m(p.at(i), rectangle(20, 20, 20, 20)), 0.001);
}

TEST(Places, AreasAddUp) {
  const std::vector<std::vector<Xy>> water = {{{0, 30}, {60, 30}}};
  const Places p = places(rectangle(60, 60), water, square_grid(2, 0, 2, 5));
  EXPECT_NEAR(p.block_area_m2, 3600, 1e-6);
  EXPECT_NEAR(p.lost_at_edge_m2, 3600 - 56 * 56, 1);  // the 2 mm of rounding on 224 m, twice
  EXPECT_NEAR(p.lost_at_water_m2, 56 * 10, 1);
  EXPECT_NEAR(p.usable_area_m2, p.block_area_m2 - p.lost_at_edge_m2 - p.lost_at_water_m2, 1e-6);
}

TEST(Places, ASetbackWiderThanTheBlockLeavesNone) {
  EXPECT_EQ(places(rectangle(20, 20), {}, square_grid(2, 0, 11, 0)).size(), 0U);
}

TEST(Places, WalkingTurnsGoOutAndBack) {
  const Places p = places(rectangle(6, 6, 0.5, 0.5), {}, square_grid(2, 90, 0, 0));  // 3 x 3
  std::vector<std::uint32_t> turns;
  for (std::size_t i = 0; i < p.size(); ++i) turns.push_back(walking_turn(p, i));
  EXPECT_EQ(turns, (std::vector<std::uint32_t>{1, 2, 3, 6, 5, 4, 7, 8, 9}));
}

TEST(Places, RefusesABoundaryThatCrossesItself) {
  ground::XyPolygon bow_tie;
  bow_tie.outer = {{0, 0}, {100, 100}, {100, 0}, {0, 100}};
  EXPECT_THROW(places({bow_tie}, {}, square_grid(2, 0, 0, 0)), Error);
}

TEST(Places, RefusesWhatIsNoNumberOrNoShape) {
  XyShape block = rectangle(20, 20);
  block[0].outer[1].x_m = std::nan("");
  EXPECT_THROW(places(block, {}, square_grid(2, 0, 0, 0)), Error);
  EXPECT_THROW(places({}, {}, square_grid(2, 0, 0, 0)), Error);
  block[0].outer = {{0, 0}, {1, 1}};
  EXPECT_THROW(places(block, {}, square_grid(2, 0, 0, 0)), Error);
  EXPECT_THROW(places(rectangle(20, 20), {}, square_grid(0, 0, 0, 0)), Error);
  EXPECT_THROW(places(rectangle(20, 20), {}, square_grid(2, std::nan(""), 0, 0)), Error);
  EXPECT_THROW(places(rectangle(20, 20), {}, square_grid(2, 0, -1, 0)), Error);
}

TEST(Places, RefusesAGridThatIsFarTooFine) {
  EXPECT_THROW(places(rectangle(20'000, 20'000), {}, square_grid(0.5, 0, 0, 0)), Error);
}

TEST(SeedlingId, ReadsBackWhatItWrote) {
  const auto id = parse_seedling_id(seedling_id("B-r3-7", {.row = 12, .number = 1007}));
  ASSERT_TRUE(id);
  EXPECT_EQ(id->block_code, "B-r3-7");
  EXPECT_EQ(id->address, (Address{.row = 12, .number = 1007}));
  EXPECT_EQ(seedling_id("B3", {.row = 12, .number = 7}), "B3-r012-007");
}

TEST(SeedlingId, RefusesOtherText) {
  for (const char* text :
       {"", "B3", "B3-r012", "-r012-007", "B3-r012-", "B3-r-007", "B3-r12-007", "B3-012-007",
        "B3-r012-00x", "B3-r012-000", "B3-r012--07", "B3-r99999999999-007"}) {
    EXPECT_FALSE(parse_seedling_id(text)) << text;
  }
}

TEST(Direction, IsThatOfTheMathematicalSineAndCosine) {
  for (double bearing = -725; bearing <= 725; bearing += 0.7) {
    const double angle = bearing * std::numbers::pi / 180;
    EXPECT_NEAR(direction_of(bearing).east, std::sin(angle), 1e-14)
        << bearing;  // the angle itself rounds at 4 pi
    EXPECT_NEAR(direction_of(bearing).north, std::cos(angle), 1e-14) << bearing;
  }
  EXPECT_EQ(direction_of(90).north, 0);
  EXPECT_EQ(direction_of(180).north, -1);
}

}  // namespace
}  // namespace wildling::layout
