#include <gtest/gtest.h>

#include "intake/boundaries.hpp"

namespace wildling::intake {
namespace {

const std::string kDemo = WILDLING_SOURCE "/demo/";

TEST(BoundaryDemo, FiveSitesWithTheirWordsAreRead) {
  const BoundaryFile file = read_boundaries(kDemo + "invented_boundaries.geojson");
  ASSERT_EQ(file.sites.size(), 5U);
  EXPECT_TRUE(file.findings.empty());
  EXPECT_EQ(file.sites[0].name, "Merunai Bank");
  EXPECT_EQ(file.sites[0].ground_type, "river bank");
  EXPECT_EQ(file.sites[2].cover, "fern");
  EXPECT_EQ(file.sites[3].parts, 2U);
  EXPECT_EQ(file.sites[4].slope_deg, 1.0);
}

TEST(BoundaryDemo, TheRiverIsOneLine) {
  EXPECT_EQ(read_lines(kDemo + "invented_river.geojson").lines.size(), 1U);
}

TEST(BoundaryDemo, ThePoorWalkIsClosedAndNamed) {
  const BoundaryFile file = read_boundaries(kDemo + "poor/invented_walk.gpx");
  ASSERT_EQ(file.sites.size(), 1U);
  EXPECT_EQ(file.sites[0].name, "Ladang Lama");
  ASSERT_EQ(file.findings.size(), 1U);
  EXPECT_EQ(file.findings[0].message.key, "intake.ring_closed");
  EXPECT_NEAR(std::get<double>(file.findings[0].message.arguments.at("gap")), 24.6, 0.05);
  EXPECT_EQ(file.vertex_error_origin, Origin::assumed);
}

}  // namespace
}  // namespace wildling::intake
