#include "layout/baseline.hpp"

#include <gtest/gtest.h>

#include "base/words.hpp"
#include "help.hpp"
#include "layout/corners.hpp"

namespace wildling::layout {
namespace {

using ground::Xy;
using ground::XyShape;

TEST(Baseline, LiesOnTheEdgeAcrossTheRowsOfAnAlignedRectangle) {
  const XyShape block = rectangle(60, 40);
  const Places p = places(block, {}, square_grid(2, 90, 1, 0));
  const auto line = baseline(block, {}, p, 5, 0.6);
  ASSERT_TRUE(line);
  EXPECT_EQ(line->peg_a.x_m, 0);
  EXPECT_EQ(line->peg_a.y_m, 40);  // rows run east, row 1 is in the north
  EXPECT_EQ(line->peg_b.y_m, 0);
  EXPECT_NEAR(line->bearing_deg, 180, 1e-9);
  EXPECT_NEAR(line->turn_deg, 90, 1e-9);
  EXPECT_NEAR(*line->bearing_magnetic_deg, 179.4,
              1e-9);  // the needle points 0.6 degrees east of true north
  EXPECT_NEAR(*line->row_bearing_magnetic_deg, 89.4, 1e-9);
  EXPECT_NEAR(line->rows[0].tape_m, 2, 1e-9);
  EXPECT_NEAR(line->rows[1].tape_m, 4, 1e-9);
  EXPECT_NEAR(line->rows[0].first_m, 2, 1e-9);
  EXPECT_TRUE(line->cautions.empty());
}

TEST(Baseline, WithoutDeclinationSaysToSetIt) {
  const XyShape block = rectangle(60, 40);
  const auto line = baseline(block, {}, places(block, {}, square_grid(2, 90, 1, 0)), 5);
  ASSERT_EQ(line->cautions.size(), 1U);
  EXPECT_EQ(line->cautions[0].key, "layout.set_declination");
  EXPECT_FALSE(line->bearing_magnetic_deg);
}

TEST(Baseline, TellsWhereARowGoesOnBehindAHole) {
  XyShape block = rectangle(60, 40);
  block[0].holes.push_back(rectangle(10, 10, 25, 15)[0].outer);
  const Places p = places(block, {}, square_grid(2, 90, 1, 0));
  const auto line = baseline(block, {}, p, 5, 0);
  const RowOnTape& row = line->rows[9];  // y = 20
  ASSERT_EQ(row.parts, 2U);
  EXPECT_EQ(line->parts[row.first_part + 1].first_number, 12U);  // x = 2 ... 22 are 11 places
  EXPECT_NEAR(line->parts[row.first_part + 1].along_m, 38,
              1e-9);  // x = 36 stands just on the setback
}

TEST(Baseline, OfAnLShapeStaysOnTheBlockWhereItCan) {
  ground::XyPolygon l;
  l.outer = {{0, 0}, {60, 0}, {60, 20}, {20, 20}, {20, 60}, {0, 60}};
  const auto line = baseline({l}, {}, places({l}, {}, square_grid(2, 90, 1, 0)), 5, 0);
  EXPECT_EQ(line->outside_m, 0);
}

TEST(Baseline, ThatLeavesTheBlockSaysSo) {
  XyShape block = rectangle(30, 30);
  block.push_back(rectangle(30, 30, 10, 100)[0]);
  const auto line = baseline(block, {}, places(block, {}, square_grid(2, 90, 1, 0)), 5, 0);
  EXPECT_GT(line->outside_m, 60);
  ASSERT_FALSE(line->cautions.empty());
  EXPECT_EQ(line->cautions[0].key, "layout.baseline_leaves_block");
}

TEST(Baseline, AcrossAStreamSaysSo) {
  const std::vector<std::vector<Xy>> stream = {{{-10, 15}, {70, 25}}};
  const XyShape block = rectangle(60, 40);
  const auto line = baseline(block, stream, places(block, stream, square_grid(2, 90, 1, 3)), 5, 0);
  EXPECT_TRUE(line->crosses_water);
}

TEST(Baseline, OfABlockWithoutPlacesIsNone) {
  const XyShape block = rectangle(4, 4);
  EXPECT_FALSE(baseline(block, {}, places(block, {}, square_grid(2, 0, 3, 0)), 5));
}

TEST(Locate, KnowsOnlyRowsAndNumbersThatExist) {
  const XyShape block = rectangle(60, 40);
  const Places p = places(block, {}, square_grid(2, 90, 1, 0));
  const auto line = baseline(block, {}, p, 5);
  EXPECT_FALSE(locate(*line, {.row = 0, .number = 1}));
  EXPECT_FALSE(locate(*line, {.row = 1, .number = p.rows[0].count + 1}));
  EXPECT_TRUE(locate(*line, {.row = 1, .number = p.rows[0].count}));
}

TEST(Corners, DropWhatAPhoneCannotTellApart) {
  ground::XyPolygon walked;
  for (int i = 0; i < 100; ++i)
    walked.outer.push_back({static_cast<double>(i), i % 2 == 0 ? 0.0 : 1.0});
  for (int i = 0; i < 100; ++i) walked.outer.push_back({100, static_cast<double>(i)});
  for (int i = 0; i < 100; ++i) walked.outer.push_back({100.0 - i, 100 - (i % 3) * 0.5});
  for (int i = 0; i < 100; ++i) walked.outer.push_back({0, 100.0 - i});
  const auto few = corners({walked}, 5);
  ASSERT_EQ(few.size(), 1U);
  EXPECT_EQ(few[0].size(), 4U);
  for (const Xy& p : walked.outer) {
    double nearest = 1e9;
    for (std::size_t i = 0; i < few[0].size(); ++i) {
      nearest =
          std::min(nearest, distance_to_segment(p, few[0][i], few[0][(i + 1) % few[0].size()]));
    }
    EXPECT_LE(nearest, 5);
  }
}

TEST(Corners, OfASliverKeepThree) {
  ground::XyPolygon sliver;
  sliver.outer = {{0, 0}, {100, 1}, {200, 0}, {100, -1}};
  EXPECT_EQ(corners({sliver}, 5)[0].size(), 3U);
}

}  // namespace
}  // namespace wildling::layout
