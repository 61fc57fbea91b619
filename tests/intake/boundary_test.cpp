#include <algorithm>

#include <gtest/gtest.h>

#include "base/files.hpp"
#include "base/words.hpp"
#include "intake/boundaries.hpp"

namespace wildling::intake {
namespace {

std::string feature(const std::string& geometry, const std::string& properties = "{}") {
  return R"({"type":"Feature","properties":)" + properties + R"(,"geometry":)" + geometry + "}";
}

std::string polygon(const std::string& ring) {
  return R"({"type":"Polygon","coordinates":[[)" + ring + "]]}";
}

std::string collection(const std::string& features) {
  return R"({"type":"FeatureCollection","features":[)" + features + "]}";
}

std::string gpx(const std::string& inside) {
  return R"(<gpx version="1.1" creator="x" xmlns="http://www.topografix.com/GPX/1/1">)" + inside +
         "</gpx>";
}

BoundaryFile read(const std::string& bytes, const BoundaryOptions& options = {}) {
  return read_boundaries_bytes(bytes, "land.geojson", options);
}

std::string refusal(const std::string& bytes, const BoundaryOptions& options = {}) {
  try {
    read(bytes, options);
  } catch (const Error& error) {
    EXPECT_TRUE(Words(Language::en).has(error.message().key)) << error.message().key;
    return error.message().key;
  }
  return "";
}

const Message* told(const Findings& findings, const std::string& key) {
  const auto found = std::find_if(findings.begin(), findings.end(),
                                  [&key](const Finding& f) { return f.message.key == key; });
  return found == findings.end() ? nullptr : &found->message;
}

const std::string kSquare = "[113,0],[113.001,0],[113.001,0.001],[113,0.001],[113,0]";

TEST(Boundary, AnOpenRingIsClosedAndItsGapTold) {
  const BoundaryFile file =
      read(collection(feature(polygon("[113,0],[113.001,0],[113.001,0.001],[113,0.001]"))));
  const Message* message = told(file.findings, "intake.ring_closed");
  ASSERT_NE(message, nullptr);
  EXPECT_NEAR(std::get<double>(message->arguments.at("gap")), 110.57, 0.01);
  EXPECT_NEAR(file.sites.at(0).area_m2, 12308.8, 0.5);
}

TEST(Boundary, AClosedRingGivesNoFindingButItsName) {
  EXPECT_EQ(read(collection(feature(polygon(kSquare)))).findings.size(), 1U);
}

TEST(Boundary, PropertiesAreReadInIndonesianAndAnyCase) {
  const BoundaryFile file = read(collection(feature(
      polygon(kSquare),
      R"({"NAMA":"Ladang","Tutupan":"alang-alang","lereng":"12,5","banjir":"ya","tipe_lahan":"lereng"})")));
  const SiteShape& site = file.sites.at(0);
  EXPECT_EQ(site.name, "Ladang");
  EXPECT_EQ(site.cover, "running_grass");
  EXPECT_EQ(site.slope_deg, 12.5);
  EXPECT_EQ(site.ground_type, "lereng");
  EXPECT_TRUE(site.floods);
}

TEST(Boundary, AnUnknownCoverIsToldAsAChange) {
  const BoundaryFile file =
      read(collection(feature(polygon(kSquare), R"({"name":"A","cover":"lunar"})")));
  EXPECT_EQ(file.sites.at(0).cover, "");
  const Message* message = told(file.findings, "intake.cover_unknown");
  ASSERT_NE(message, nullptr);
  EXPECT_EQ(message->arguments.at("value"), Argument{"lunar"});
  EXPECT_TRUE(std::any_of(file.findings.begin(), file.findings.end(), [&](const Finding& finding) {
    return &finding.message == message && finding.severity == Severity::changed;
  }));
}

TEST(Boundary, ASlopeOfNinetyDegreesIsLeftOutAndTold) {
  const BoundaryFile file =
      read(collection(feature(polygon(kSquare), R"({"name":"A","slope_deg":90})")));
  EXPECT_FALSE(file.sites.at(0).slope_deg);
  EXPECT_NE(told(file.findings, "intake.slope_not_degrees"), nullptr);
}

TEST(Boundary, SitesOfOneNameAreToldApart) {
  const std::string one = feature(polygon(kSquare), R"({"name":"A"})");
  const BoundaryFile file = read(collection(one + "," + one));
  EXPECT_EQ(file.sites.at(1).name, "A 2");
  EXPECT_NE(told(file.findings, "intake.site_name_repeated"), nullptr);
}

TEST(Boundary, AGoodSiteIsReadBesideABadOne) {
  const BoundaryFile file = read(collection(feature(R"({"type":"Point","coordinates":[113,0]})") +
                                            "," + feature(polygon(kSquare))));
  EXPECT_EQ(file.sites.size(), 1U);
  EXPECT_EQ(file.features_read, 2U);
  EXPECT_NE(told(file.findings, "intake.point_no_boundary"), nullptr);
}

TEST(Boundary, OverlappingPartsCountOnce) {
  const std::string two =
      R"({"type":"MultiPolygon","coordinates":[[[)" + kSquare + "]],[[" + kSquare + "]]]}";
  const BoundaryFile file = read(collection(feature(two)));
  EXPECT_NEAR(file.sites.at(0).area_m2, 12308.8, 0.5);
  EXPECT_NE(told(file.findings, "intake.ring_repaired"), nullptr);
}

struct Refused {
  const char* what;
  std::string bytes;
  const char* key;
};

TEST(Boundary, FilesOfNoUseAreRefusedWithTheirReason) {
  const std::string two = "<trkpt lat=\"0\" lon=\"113\"/><trkpt lat=\"0\" lon=\"113.001\"/>";
  const std::string third = "<trkpt lat=\"0.001\" lon=\"113\"/>";
  const std::string far = "<trkpt lat=\"0\" lon=\"113.003\"/><trkpt lat=\"0\" lon=\"113.004\"/>";
  const std::vector<Refused> cases = {
      {"no bytes", "", "intake.boundary_file_empty"},
      {"blanks", " \n", "intake.boundary_kind_unknown"},
      {"a picture", std::string("\x89PNG\r\n\x1a\n\0\0", 10), "intake.boundary_kind_unknown"},
      {"broken JSON", R"({"type":"FeatureCollection","features":[)", "intake.boundary_unreadable"},
      {"no feature", collection(""), "intake.boundary_no_shape"},
      {"a point", collection(feature(R"({"type":"Point","coordinates":[113,0]})")),
       "intake.point_no_boundary"},
      {"no area", collection(feature(polygon("[113,0],[113.001,0],[113.002,0],[113,0]"))),
       "intake.area_zero"},
      {"two corners", collection(feature(polygon("[113,0],[113.001,0],[113,0]"))),
       "intake.ring_too_few"},
      {"metres",
       collection(
           feature(polygon("[500000,9000000],[500100,9000000],[500100,9000100],[500000,9000000]"))),
       "intake.metres_not_degrees"},
      {"a short walk", gpx("<trk><trkseg>" + two + third + "</trkseg></trk>"),
       "intake.walk_too_short"},
      {"a road", gpx("<trk><trkseg>" + two + far + "</trkseg></trk>"), "intake.walk_open"},
      {"a rain log", "date,rain_mm\n2024-01-01,5\n", "intake.corner_table_columns"},
      {"a table without a system", "easting,northing\n1,2\n3,4\n5,9\n", "intake.crs_missing"},
      {"XML of another kind", "<html></html>", "intake.boundary_kind_unknown"},
      {"a file that names another",
       "<OGRVRTDataSource><OGRVRTLayer name=\"x\"/></OGRVRTDataSource>",
       "intake.boundary_kind_unknown"},
  };
  for (const Refused& one : cases) EXPECT_EQ(refusal(one.bytes), one.key) << one.what;
}

TEST(Boundary, AnUnknownSystemIsRefused) {
  EXPECT_EQ(refusal(collection(feature(polygon(kSquare))), {"EPSG:1", false}),
            "intake.crs_unknown");
}

TEST(Boundary, SwappedMetresAreRefusedWithTheOfferToSwap) {
  const std::string bytes = "x,y\n9900000,500000\n9900000,500100\n9900100,500100\n";
  EXPECT_EQ(refusal(bytes, {"EPSG:32750", false}), "intake.axes_swapped_metres");
  EXPECT_NEAR(read(bytes, {"EPSG:32750", true}).sites.at(0).area_m2, 5000, 10);
}

TEST(Boundary, AnOldDatumTellsHowFarTheBoundaryMayBeShifted) {
  const BoundaryFile file =
      read("x,y\n500000,200000\n500100,200000\n500100,200100\n", {"EPSG:29850", false});
  const Message* message = told(file.findings, "intake.crs_accuracy");
  ASSERT_NE(message, nullptr);
  EXPECT_GT(std::get<double>(message->arguments.at("metres")), 1);
}

TEST(Boundary, WaypointsAreCornersWhenNothingElseIsThere) {
  const BoundaryFile file = read(gpx(
      R"(<wpt lat="0" lon="113"/><wpt lat="0" lon="113.001"/><wpt lat="0.001" lon="113.001"/>)"));
  EXPECT_NE(told(file.findings, "intake.corners_joined"), nullptr);
  EXPECT_NEAR(file.sites.at(0).area_m2, 6154.4, 0.5);
}

TEST(Boundary, WaypointsBesideATrackAreNotItsCorners) {
  const BoundaryFile file = read(gpx(
      R"(<wpt lat="5" lon="113"/><trk><name>T</name><trkseg><trkpt lat="0" lon="113"/><trkpt lat="0" lon="113.001"/><trkpt lat="0.001" lon="113.001"/><trkpt lat="0.001" lon="113"/><trkpt lat="0" lon="113"/></trkseg></trk>)"));
  ASSERT_EQ(file.sites.size(), 1U);
  EXPECT_EQ(file.sites[0].name, "T");
}

TEST(Boundary, ATableOfSeveralSitesWithDecimalCommasIsRead) {
  const BoundaryFile file = read(
      "nama;timur (EPSG:32750);utara\nA;500000,0;9900000\nA;500100,0;9900000\nA;500100,5;9900100\n"
      "B;500200;9900000\nB;500300;9900000\nB;500300;9900100\nB;x;9900100\n");
  ASSERT_EQ(file.sites.size(), 2U);
  EXPECT_EQ(file.sites[1].name, "B");
  EXPECT_NE(told(file.findings, "intake.corner_not_a_number"), nullptr);
}

TEST(Boundary, BytesThatAreNotUtf8AreReadAsWindows) {
  const BoundaryFile file = read(
      "name,lat,lon\nPe\xF1"
      "a,0,113\nPe\xF1"
      "a,0,113.001\nPe\xF1"
      "a,0.001,113.001\n");
  EXPECT_EQ(file.sites.at(0).name, "Peña");
}

TEST(Boundary, TheFileIsNamedByItsHash) {
  const BoundaryFile file = read(collection(feature(polygon(kSquare))));
  EXPECT_EQ(file.sha256.size(), 64U);
  EXPECT_EQ(file.bytes, collection(feature(polygon(kSquare))).size());
}

TEST(Boundary, AMissingFileIsRefused) {
  EXPECT_THROW(read_boundaries("/nowhere/x.gpx"), Error);
}

TEST(Lines, AnOutlineCountsAsALineAndIsClosed) {
  const LineFile file = read_lines_bytes(collection(feature(polygon(kSquare))), "pond.geojson");
  ASSERT_EQ(file.lines.size(), 1U);
  EXPECT_EQ(file.lines[0].points.size(), 5U);
}

TEST(Lines, PointsAreNoLine) {
  const std::string bytes = collection(feature(R"({"type":"Point","coordinates":[113,0]})"));
  EXPECT_THROW(read_lines_bytes(bytes, "x.geojson"), Error);
}

}  // namespace
}  // namespace wildling::intake
