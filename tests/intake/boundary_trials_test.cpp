#include <algorithm>

#include <gtest/gtest.h>

#include "base/files.hpp"
#include "intake/boundaries.hpp"

namespace wildling::intake {
namespace {

const std::string kTrials = WILDLING_REFERENCE "/trials/";

std::string refusal(const std::string& file, const BoundaryOptions& options = {}) {
  try {
    read_boundaries(kTrials + file, options);
  } catch (const Error& error) {
    EXPECT_EQ(error.kind(), ErrorKind::input);
    return error.message().key;
  }
  return "";
}

const Message* told(const Findings& findings, const std::string& key) {
  const auto found = std::find_if(findings.begin(), findings.end(),
                                  [&key](const Finding& f) { return f.message.key == key; });
  return found == findings.end() ? nullptr : &found->message;
}

double number(const Message& message, const std::string& argument) {
  return std::get<double>(message.arguments.at(argument));
}

double ha(const SiteShape& site) {
  return site.area_m2 / 10000;
}

TEST(BoundaryTrial, C01LatitudeFirstIsRefusedWithTheOfferToSwap) {
  EXPECT_EQ(refusal("c01_swapped.geojson"), "intake.axes_swapped");
}

TEST(BoundaryTrial, C01SwappedIsReadRight) {
  const BoundaryFile file = read_boundaries(kTrials + "c01_swapped.geojson", {{}, true});
  EXPECT_NEAR(ha(file.sites.at(0)), 116.683, 0.001);
  EXPECT_NEAR(ground::perimeter_m(file.sites[0].shape), 4322.08, 0.01);
}

TEST(BoundaryTrial, C03MercatorMetresAreNotAnArea) {
  EXPECT_NEAR(ha(read_boundaries(kTrials + "c03_metres.geojson").sites.at(0)), 117.278, 0.001);
}

TEST(BoundaryTrial, C05ABowTieIsTwoTrianglesAndItsCrossingIsTold) {
  const BoundaryFile file = read_boundaries(kTrials + "c05_bow_tie.geojson");
  EXPECT_NEAR(ha(file.sites.at(0)), 0.5, 0.001);
  EXPECT_EQ(file.sites[0].parts, 2U);
  const Message* message = told(file.findings, "intake.ring_repaired");
  ASSERT_NE(message, nullptr);
  EXPECT_NEAR(number(*message, "x"), 500050, 0.01);
  EXPECT_NEAR(number(*message, "y"), 2000050, 0.01);
  EXPECT_NEAR(number(*message, "before"), 0, 1e-4);
}

TEST(BoundaryTrial, C07AHoleThatRunsTheSameWayIsStillAHole) {
  for (const char* name : {"c07_clockwise_hole.geojson", "c07_clockwise_hole.gpkg"}) {
    EXPECT_NEAR(ha(read_boundaries(kTrials + name).sites.at(0)), 112.586, 0.001) << name;
  }
}

TEST(BoundaryTrial, C09ATrackInPiecesIsNoBoundary) {
  EXPECT_EQ(refusal("c09_two_segments.gpx"), "intake.walk_in_segments");
}

TEST(BoundaryTrial, C09PiecesOfATrackAreNotJoinedAsLines) {
  const LineFile file = read_lines(kTrials + "c09_two_segments.gpx");
  ASSERT_EQ(file.lines.size(), 2U);
  EXPECT_NEAR(ground::length_m(file.lines[0]) + ground::length_m(file.lines[1]), 317.89, 0.01);
}

TEST(BoundaryTrial, C11FoldersCollectionsAndABareRingAreFound) {
  for (const char* name : {"c11_folders.kml", "c11_folders.kmz"}) {
    BoundaryFile file = read_boundaries(kTrials + name);
    ASSERT_EQ(file.sites.size(), 3U) << name;
    std::sort(file.sites.begin(), file.sites.end(),
              [](const SiteShape& a, const SiteShape& b) { return a.name < b.name; });
    EXPECT_EQ(file.sites[0].name, "P1");
    EXPECT_NEAR(ha(file.sites[0]), 4.6912, 0.0001);
    EXPECT_NEAR(ha(file.sites[1]), 2.3456, 0.0001);
    EXPECT_EQ(file.sites[1].parts, 2U);
    EXPECT_EQ(file.sites[2].name, "Ring only");
    EXPECT_NEAR(ha(file.sites[2]), 1.1728, 0.0001);
    EXPECT_NE(told(file.findings, "intake.closed_line_is_boundary"), nullptr);
    EXPECT_NE(told(file.findings, "intake.heights_dropped"), nullptr);
  }
}

TEST(BoundaryTrial, C13NorthingBeforeEastingIsReadByItsHeader) {
  const BoundaryFile file = read_boundaries(kTrials + "c13_northing_first.csv");
  EXPECT_NEAR(ha(file.sites.at(0)), 10.008, 0.001);
  EXPECT_NEAR(file.sites[0].shape.parts[0].outer[0].lon_deg, 99.0, 0.0001);
  EXPECT_NEAR(file.sites[0].shape.parts[0].outer[0].lat_deg, 18.8118, 0.0001);
}

TEST(BoundaryTrial, C15WithoutAPrjTheSystemIsAsked) {
  EXPECT_EQ(refusal("c15_no_prj.shp"), "intake.crs_missing");
}

TEST(BoundaryTrial, C15OnceTheSystemIsGivenItIsAHectare) {
  const BoundaryFile file = read_boundaries(kTrials + "c15_no_prj.shp", {"EPSG:26917", false});
  EXPECT_NEAR(ha(file.sites.at(0)), 1, 0.001);
}

TEST(BoundaryTrial, C15TheShapesAloneAreEnough) {
  const std::string bytes = read_file(kTrials + "c15_no_prj.shp");
  const BoundaryFile file = read_boundaries_bytes(bytes, "c15.shp", {"EPSG:26917", false});
  EXPECT_NEAR(ha(file.sites.at(0)), 1, 0.001);
  EXPECT_EQ(file.sites[0].name, "c15");
}

TEST(BoundaryTrial, C17BothReadingsOfAWordAreOffered) {
  for (const char* name : {"c17_code_page.shp", "c17_zipped.zip"}) {
    const BoundaryFile file = read_boundaries(kTrials + name);
    EXPECT_EQ(file.sites.at(0).name, "Ñandú") << name;
    const Message* message = told(file.findings, "intake.text_two_readings");
    ASSERT_NE(message, nullptr) << name;
    EXPECT_EQ(std::get<std::string>(message->arguments.at("other")), "Ã‘andÃº");
  }
}

}  // namespace
}  // namespace wildling::intake
