#include "plan/take_elevation.hpp"

#include <gtest/gtest.h>

#include "invented_programme.hpp"
#include "plan/programme.hpp"

namespace wildling::plan {
namespace {

/// An invented slope around both fields of the invented programme.
intake::ElevationFile invented_slope(double west = 113.26) {
  std::string text = "ncols 300\nnrows 200\nxllcorner " + std::to_string(west) +
                     "\nyllcorner -0.85\ncellsize 0.0002\nNODATA_value -9999\n";
  for (int row = 0; row < 200; ++row) {
    for (int column = 0; column < 300; ++column)
      text += std::to_string(50 + column + row / 2) + " ";
    text += "\n";
  }
  return intake::read_elevation_bytes(text, "invented.asc", {"EPSG:4326"});
}

TakenFile record_of(const intake::ElevationFile& file) {
  return {file.name, file.sha256, static_cast<std::int64_t>(file.bytes), 0, 0, 0, file.findings};
}

class TakeElevation : public ::testing::Test {
 protected:
  void take(const intake::ElevationFile& file) {
    kept = take_elevation(*store, file, record_of(file), kTester);
  }

  [[nodiscard]] store::Row picture() const { return store->rows("pictures").at(0); }

  Rehearsal outside{Seed{1}};
  std::unique_ptr<store::Store> store = invented_programme(outside);
  ElevationKept kept;
};

TEST_F(TakeElevation, KeepsAPictureWithItsPlaceAndSource) {
  take(invented_slope());
  EXPECT_EQ(store::text_of(picture(), "name"), "hillshade");
  EXPECT_EQ(store::blob_of(picture(), "picture").at(1), 'P');
  EXPECT_LT(*store::real_of(picture(), "west_deg"), 113.28);
  EXPECT_GT(*store::real_of(picture(), "east_deg"), 113.30);
  EXPECT_NE(store::text_of(picture(), "source").find("invented.asc"), std::string::npos);
  EXPECT_EQ(kept.covered_share, 1);
}

TEST_F(TakeElevation, PutsANewModelInTheOldOnesPlace) {
  take(invented_slope());
  take(invented_slope(113.261));
  EXPECT_EQ(store->rows("pictures").size(), 1U);
}

TEST_F(TakeElevation, LogsTheFileWithItsFindings) {
  const std::size_t before = store->rows("imports").size();
  take(invented_slope());
  const auto rows = store->rows("imports");
  ASSERT_EQ(rows.size(), before + 1);
  bool told = false;
  for (const auto& row : rows)
    told |= store::text_of(row, "findings").find("intake.elevation.no_unit") != std::string::npos;
  EXPECT_TRUE(told);
}

TEST_F(TakeElevation, DoesNotMakeThePlanStale) {
  const Parameters parameters = Parameters::shipped();
  const std::string before = fingerprint(*store, parameters);
  take(invented_slope());
  EXPECT_EQ(fingerprint(*store, parameters), before);
}

TEST_F(TakeElevation, LeavesTheOldPictureWhenTheNewModelLiesElsewhere) {
  take(invented_slope());
  const store::Row before = picture();
  EXPECT_THROW(take(invented_slope(100)), Error);
  EXPECT_EQ(picture(), before);
}

TEST(TakeElevationWithoutSites, IsRefused) {
  Rehearsal outside{Seed{1}};
  const auto store = store::in_memory(outside);
  start_programme(*store, "Empty (invented)", 2.7, kTester);
  const intake::ElevationFile file = invented_slope();
  EXPECT_THROW(take_elevation(*store, file, record_of(file), kTester), Error);
  EXPECT_TRUE(store->rows("pictures").empty());
}

}  // namespace
}  // namespace wildling::plan
