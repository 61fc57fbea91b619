#include <cmath>

#include <gtest/gtest.h>

#include "plan/fill_sheets.hpp"
#include "small_plan.hpp"

namespace wildling::plan {
namespace {

constexpr double kSide = 0.00054;  // of the invented blocks, degrees
constexpr double kRounding = 0.02;

Programme with_hole() {
  Programme programme = invented_programme();
  auto& polygon = programme.blocks[0].shape.parts.at(0);
  polygon.holes.push_back({{110 + 0.3 * kSide, -1 + 0.3 * kSide},
                           {110 + 0.7 * kSide, -1 + 0.3 * kSide},
                           {110 + 0.7 * kSide, -1 + 0.7 * kSide},
                           {110 + 0.3 * kSide, -1 + 0.7 * kSide}});
  return programme;
}

Programme with_stream() {
  Programme programme = invented_programme();
  programme.blocks[0].water_lines = {
      {{{110 - kSide, -1 + 0.45 * kSide}, {110 + 2 * kSide, -1 + 0.55 * kSide}}}};
  return programme;
}

CrewSheet sheet_of_b1(const Programme& programme) {
  return *crew_sheet(small_plan(programme), programme.parameters, "B1");
}

/// Length of the row on the ground, and by the tape distances of its parts.
void expect_tape_tells_the_places(const CrewSheet& sheet) {
  int interrupted = 0;
  for (const SheetRow& row : sheet.rows) {
    if (row.parts.empty()) continue;
    ++interrupted;
    ASSERT_GE(row.parts.size(), 2U);
    EXPECT_EQ(row.parts.front().first_number, 1);
    EXPECT_NEAR(row.parts.front().along_m, row.first_plant_m, kRounding);
    for (std::size_t i = 1; i < row.parts.size(); ++i) {
      const SheetRowPart& before = row.parts[i - 1];
      EXPECT_EQ(row.parts[i].first_number, before.last_number + 1);
      const double no_gap = before.along_m + (row.parts[i].first_number - before.first_number) *
                                                 sheet.baseline.spacing_m;
      EXPECT_GT(row.parts[i].along_m, no_gap + kRounding) << "row " << row.number;
    }
    const SheetRowPart& last = row.parts.back();
    const double end =
        last.along_m + (last.last_number - last.first_number) * sheet.baseline.spacing_m;
    EXPECT_NEAR(end - row.first_plant_m,
                std::hypot(row.end.x_m - row.start.x_m, row.end.y_m - row.start.y_m),
                2 * kRounding);
  }
  EXPECT_GT(interrupted, 3);
}

TEST(RowParts, BehindAHoleTheTapeStartsAgainFromTheBaseline) {
  expect_tape_tells_the_places(sheet_of_b1(with_hole()));
}

TEST(RowParts, BehindAStreamTheTapeStartsAgainFromTheBaseline) {
  expect_tape_tells_the_places(sheet_of_b1(with_stream()));
}

TEST(RowParts, ARowWithoutAGapHasNone) {
  for (const SheetRow& row : sheet_of_b1(invented_programme()).rows)
    EXPECT_TRUE(row.parts.empty()) << row.number;
}

}  // namespace
}  // namespace wildling::plan
