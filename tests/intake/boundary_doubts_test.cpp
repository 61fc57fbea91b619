#include <algorithm>
#include <cmath>
#include <numbers>
#include <sstream>

#include <gtest/gtest.h>

#include "base/csv.hpp"
#include "base/files.hpp"
#include "base/parameters.hpp"
#include "intake/boundaries.hpp"

namespace wildling::intake {
namespace {

const std::string kFiles = WILDLING_REFERENCE "/boundary_files/";

std::string polygon(const std::string& ring, const std::string& crs = "4326") {
  std::ostringstream text;
  text
      << R"({"type":"FeatureCollection","crs":{"type":"name","properties":{"name":"urn:ogc:def:crs:EPSG::)"
      << crs
      << R"("}},"features":[{"type":"Feature","properties":{"name":"A"},"geometry":{"type":"Polygon","coordinates":[[)"
      << ring << "]]}}]}";
  return text.str();
}

std::string track(const std::string& segments) {
  std::ostringstream text;
  text
      << R"(<gpx version="1.1" creator="x" xmlns="http://www.topografix.com/GPX/1/1"><trk><name>W</name>)"
      << segments << "</trk></gpx>";
  return text.str();
}

std::string segment(const std::vector<std::pair<double, double>>& points,
                    const std::string& inside = {}) {
  std::ostringstream text;
  text << "<trkseg>";
  for (const auto& point : points) {
    text << "<trkpt lon=\"" << point.first << "\" lat=\"" << point.second << "\">" << inside
         << "</trkpt>";
  }
  text << "</trkseg>";
  return text.str();
}

Message refusal(const std::string& bytes, const std::string& name,
                const BoundaryOptions& options = {}) {
  try {
    read_boundaries_bytes(bytes, name, options);
  } catch (const Error& error) {
    return error.message();
  }
  return {};
}

const Message* told(const Findings& findings, const std::string& key) {
  const auto found = std::find_if(findings.begin(), findings.end(),
                                  [&key](const Finding& f) { return f.message.key == key; });
  return found == findings.end() ? nullptr : &found->message;
}

TEST(BoundaryDoubts, ALayerInAnotherSystemIsLeftOutAndNeverMisplaced) {
  const BoundaryFile file = read_boundaries(kFiles + "mixed.gpkg");
  ASSERT_EQ(file.sites.size(), 1U);
  EXPECT_EQ(file.sites[0].name, "A");
  ASSERT_NE(told(file.findings, "intake.layer_in_other_crs"), nullptr);
}

TEST(BoundaryDoubts, SeveralShapefilesInOneZipAreRefusedRatherThanOneTaken) {
  EXPECT_EQ(refusal(read_file(kFiles + "several.zip"), "several.zip").key, "intake.zip_several");
}

TEST(BoundaryDoubts, ACircleOfCurvesHasTheAreaOfACircle) {
  const BoundaryFile file = read_boundaries(kFiles + "curved.gpkg");
  // on the ground 1/0.9996 longer than in the UTM grid; arcs are cut into chords of 4 degrees (0.08
  // % of the area)
  const double expected = std::numbers::pi * 50 * 50 / (0.9996 * 0.9996);
  EXPECT_NEAR(file.sites.at(0).area_m2, expected, 0.001 * expected);
}

TEST(BoundaryDoubts, HalfTheGlobeIsNoSite) {
  EXPECT_EQ(refusal(polygon("[0,-89],[170,-89],[170,89],[0,89],[0,-89]"), "g.geojson").key,
            "intake.area_too_large");
}

TEST(BoundaryDoubts, TheWholeGlobeIsNoSite) {
  EXPECT_NE(refusal(polygon("[-180,-90],[180,-90],[180,90],[-180,90],[-180,-90]"), "g.geojson").key,
            "");
}

TEST(BoundaryDoubts, DegreesUnderASystemInMetresAreRefused) {
  EXPECT_EQ(refusal(polygon("[113,-1],[113.1,-1],[113.1,-0.9],[113,-1]", "32649"), "d.geojson").key,
            "intake.degrees_not_metres");
}

TEST(BoundaryDoubts, ATableWithoutOneReadableCornerSaysWhichCellIsWrong) {
  const Message message = refusal("lon,lat\nwest,south\n", "corners.csv");
  EXPECT_EQ(message.key, "intake.corner_not_a_number");
}

TEST(BoundaryDoubts, CornersAreToldApartByTheNameOfTheirPetak) {
  const BoundaryFile file = read_boundaries_bytes(
      "petak;bujur;lintang\nA;113,000;-1,000\nA;113,002;-1,000\nA;113,002;-0,998\n"
      "B;113,010;-1,000\nB;113,012;-1,000\nB;113,012;-0,998\n",
      "corners.csv");
  ASSERT_EQ(file.sites.size(), 2U);
  EXPECT_EQ(file.sites[1].name, "B");
}

TEST(BoundaryDoubts, SitesThatShareGroundAreToldWithTheAreaTheyShare) {
  const BoundaryFile file = read_boundaries_bytes(
      "name,lon,lat\nA,113,-1\nA,113.002,-1\nA,113.002,-0.998\nA,113,-0.998\n"
      "B,113.001,-1\nB,113.003,-1\nB,113.003,-0.998\nB,113.001,-0.998\n"
      "C,113.003,-1\nC,113.005,-1\nC,113.005,-0.998\nC,113.003,-0.998\n",
      "corners.csv");
  const auto overlaps =
      std::count_if(file.findings.begin(), file.findings.end(),
                    [](const Finding& f) { return f.message.key == "intake.sites_overlap"; });
  EXPECT_EQ(overlaps, 1);  // C touches B and shares nothing
  EXPECT_NEAR(std::get<double>(told(file.findings, "intake.sites_overlap")->arguments.at("ha")),
              2.46145, 1e-4);
}

TEST(BoundaryDoubts, LongitudesBeyond180AreTurnedBack) {
  const BoundaryFile file = read_boundaries_bytes(
      polygon("[253,-1],[253.001,-1],[253.001,-0.999],[253,-1]"), "a.geojson");
  for (const ground::LonLat p : file.sites.at(0).shape.parts.at(0).outer)
    EXPECT_LT(p.lon_deg, -106);
}

TEST(BoundaryDoubts, PiecesOfAWalkAreJoinedOnlyWhenTold) {
  const std::string two =
      track(segment({{113, -1}, {113.002, -1}}) + segment({{113.002, -0.998}, {113, -0.998}}));
  EXPECT_EQ(refusal(two, "walk.gpx").key, "intake.walk_in_segments");
  BoundaryOptions options;
  options.close_lines = true;
  const BoundaryFile file = read_boundaries_bytes(two, "walk.gpx", options);
  ASSERT_EQ(file.sites.size(), 1U);
  EXPECT_NEAR(file.sites[0].area_m2, 49229.0, 0.5);  // the same square as one ring
  const Message* message = told(file.findings, "intake.walk_joined");
  ASSERT_NE(message, nullptr);
  EXPECT_NEAR(std::get<double>(message->arguments.at("gap")), 221.15, 0.01);
}

TEST(BoundaryDoubts, AWalkOfThreePointsIsClosedOnlyWhenTold) {
  const std::string three = track(segment({{113, -1}, {113.002, -1}, {113.002, -0.998}}));
  EXPECT_EQ(refusal(three, "walk.gpx").key, "intake.walk_too_short");
  BoundaryOptions options;
  options.close_lines = true;
  EXPECT_EQ(read_boundaries_bytes(three, "walk.gpx", options).sites.size(), 1U);
}

TEST(BoundaryDoubts, TheReceiversDilutionGivesTheErrorOfACorner) {
  const std::string walk = track(segment(
      {{113, -1}, {113.002, -1}, {113.002, -0.998}, {113, -0.998}, {113, -1}}, "<hdop>2.0</hdop>"));
  const BoundaryFile file = read_boundaries_bytes(walk, "walk.gpx");
  const double range_error_m = Parameters::shipped().value("intake.boundary.range_error_m");
  EXPECT_NEAR(file.vertex_error_m, 2 * range_error_m / std::sqrt(2.0), 1e-9);
  EXPECT_EQ(file.vertex_error_origin, Origin::measured);
  EXPECT_NE(told(file.findings, "intake.vertex_error_from_file"), nullptr);
}

TEST(BoundaryDoubts, AStatedAccuracyIsARadiusOfSixtyEightInAHundred) {
  const BoundaryFile file = read_boundaries_bytes(
      "lon,lat,akurasi\n113,-1,6\n113.002,-1,6\n113.002,-0.998,6\n", "corners.csv");
  // of a normal error with this standard deviation in each direction 68 % lie within 6 m
  EXPECT_NEAR(1 - std::exp(-36 / (2 * file.vertex_error_m * file.vertex_error_m)), 0.68, 1e-9);
}

TEST(BoundaryDoubts, AreasAgreeWithAnEqualAreaPlaneOfAnotherLibrary) {
  const CsvTable table = parse_csv_table(read_file(WILDLING_REFERENCE "/boundary_areas/data.csv"));
  ASSERT_EQ(table.rows.size(), 5U);
  for (const CsvRow& row : table.rows) {
    SCOPED_TRACE(row.cells[0]);
    std::istringstream points(row.cells[2]);
    std::ostringstream corners;
    corners << "lon,lat\n";
    for (std::string lon, lat; points >> lon >> lat;) corners << lon << ',' << lat << '\n';
    const BoundaryFile file = read_boundaries_bytes(corners.str(), "corners.csv");
    const double expected = *parse_number(row.cells[1]);
    EXPECT_NEAR(file.sites.at(0).area_m2, expected, 1e-5 * expected);
  }
}

}  // namespace
}  // namespace wildling::intake
