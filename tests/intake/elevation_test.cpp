#include "intake/elevation.hpp"

#include <array>
#include <cmath>
#include <cstring>

#include <gtest/gtest.h>

namespace wildling::intake {
namespace {

/// An invented slope in the text form of an Arc/Info ASCII grid: `size` x `size` cells of `cell`
/// units from (x, y), rising to the east by `rise` per cell.
std::string grid(double x, double y, double cell, int size, double rise, double start = 50,
                 double hole = -1) {
  std::string text = "ncols " + std::to_string(size) + "\nnrows " + std::to_string(size) +
                     "\nxllcorner " + std::to_string(x) + "\nyllcorner " + std::to_string(y) +
                     "\ncellsize " + std::to_string(cell) + "\nNODATA_value -9999\n";
  for (int row = 0; row < size; ++row) {
    for (int column = 0; column < size; ++column)
      text += (column == hole ? "-9999" : std::to_string(start + rise * column)) + " ";
    text += "\n";
  }
  return text;
}

constexpr double kCell = 0.0002;  // degrees, about 22 m

/// Around the invented site below.
std::string around(double rise = 5) {
  return grid(113.49, -0.82, kCell, 100, rise);
}

ground::Shape site(double lon = 113.5, double lat = -0.81, double side = 0.002) {
  ground::Shape shape;
  shape.parts = {
      {{{lon, lat}, {lon + side, lat}, {lon + side, lat + side}, {lon, lat + side}}, {}}};
  return shape;
}

const ElevationOptions kDegrees{"EPSG:4326"};

std::string key_of(const std::string& bytes, const ElevationOptions& options = kDegrees) {
  try {
    read_elevation_bytes(bytes, "model.asc", options);
  } catch (const Error& error) {
    return error.message().key;
  }
  return "none";
}

bool has(const Findings& findings, const std::string& key) {
  for (const Finding& finding : findings) {
    if (finding.message.key == key) return true;
  }
  return false;
}

TEST(Elevation, ReadsSizePlaceAndCell) {
  const ElevationFile file = read_elevation_bytes(around(), "model.asc", kDegrees);
  EXPECT_EQ(file.columns, 100);
  EXPECT_EQ(file.rows, 100);
  EXPECT_NEAR(file.cell_m, 22.2, 0.1);
  EXPECT_EQ(file.sha256.size(), 64U);
}

TEST(Elevation, SaysThatTheUnitIsNotKnown) {
  const ElevationFile file = read_elevation_bytes(around(), "model.asc", kDegrees);
  EXPECT_TRUE(has(file.findings, "intake.elevation.no_unit"));
  EXPECT_EQ(file.metres_per_unit, 1);
}

TEST(Elevation, IsRefusedWithoutACoordinateSystem) {
  EXPECT_EQ(key_of(around(), {}), "intake.crs_missing");
}

TEST(Elevation, TakesTheSystemOfTheFileBesideIt) {
  const std::string prj =
      R"(GEOGCS["GCS_WGS_1984",DATUM["D_WGS_1984",SPHEROID["WGS_1984",6378137,298.257223563]],)"
      R"(PRIMEM["Greenwich",0],UNIT["Degree",0.017453292519943295]])";
  const ElevationFile file = read_elevation_bytes(around(), "model.asc", {}, prj);
  EXPECT_NE(file.crs_name.find("WGS"), std::string::npos);
}

TEST(Elevation, IsRefusedWhenItsNumbersContradictTheSystem) {
  EXPECT_EQ(key_of(around(), {"EPSG:32650"}), "intake.degrees_not_metres");
  EXPECT_EQ(key_of(grid(300000, 9900000, 30, 10, 1)), "intake.metres_not_degrees");
}

TEST(Elevation, IsRefusedWhenItIsNoRaster) {
  EXPECT_EQ(key_of("not a raster"), "intake.elevation.unreadable");
  EXPECT_EQ(key_of(""), "intake.elevation.empty");
}

TEST(Elevation, DoesNotFollowAVirtualRasterToAnotherFile) {
  EXPECT_EQ(
      key_of("<VRTDataset rasterXSize=\"2\" rasterYSize=\"2\"><VRTRasterBand dataType=\"Byte\" "
             "band=\"1\"><SimpleSource><SourceFilename>/etc/passwd</SourceFilename>"
             "</SimpleSource></VRTRasterBand></VRTDataset>"),
      "intake.elevation.unreadable");
}

std::uint32_t big_endian(const std::string& png, std::size_t at) {
  std::uint32_t value = 0;
  for (std::size_t i = 0; i < 4; ++i)
    value = value << 8U | static_cast<std::uint8_t>(png.at(at + i));
  return value;
}

TEST(Hillshade, IsAPngOfTheSitesAndTheirSurroundings) {
  const Hillshade shade =
      hillshade(read_elevation_bytes(around(), "model.asc", kDegrees), {site()});
  EXPECT_EQ(shade.png.substr(1, 3), "PNG");
  EXPECT_EQ(big_endian(shade.png, 16), static_cast<std::uint32_t>(shade.columns));
  EXPECT_EQ(big_endian(shade.png, 20), static_cast<std::uint32_t>(shade.rows));
  EXPECT_LT(shade.box.west_deg, 113.5 - 0.004);  // 500 m are 0.0045 degrees
  EXPECT_GT(shade.box.north_deg, -0.808 + 0.004);
  EXPECT_NEAR(shade.cell_m, 22.2, 1);
  EXPECT_EQ(shade.covered_share, 1);
  EXPECT_TRUE(shade.findings.empty());
}

TEST(Hillshade, KnowsTheHeightsItShows) {
  const Hillshade shade =
      hillshade(read_elevation_bytes(around(), "model.asc", kDegrees), {site()});
  // 5 m per 0.0002 degrees from 50 m at 113.49: the west edge of the picture is at 113.4955.
  EXPECT_NEAR(shade.lowest_m, 50 + 5 * (shade.box.west_deg - 113.49) / kCell, 5);
  EXPECT_NEAR(shade.highest_m, 50 + 5 * (shade.box.east_deg - 113.49) / kCell, 5);
}

TEST(Hillshade, IsTheSameBytesEveryTime) {
  const ElevationFile file = read_elevation_bytes(around(), "model.asc", kDegrees);
  EXPECT_EQ(hillshade(file, {site()}).png, hillshade(file, {site()}).png);
}

TEST(Hillshade, DiffersWithTheSlope) {
  const auto png = [](double rise) {
    return hillshade(read_elevation_bytes(around(rise), "model.asc", kDegrees), {site()}).png;
  };
  EXPECT_NE(png(0), png(8));
}

TEST(Hillshade, TellsWhichPartOfTheSitesItDoesNotCover) {
  // The model ends in the middle of the site.
  const std::string half = grid(113.481, -0.82, kCell, 100, 1);
  const Hillshade shade = hillshade(read_elevation_bytes(half, "model.asc", kDegrees), {site()});
  EXPECT_NEAR(shade.covered_share, 0.5, 0.15);
  EXPECT_TRUE(has(shade.findings, "intake.elevation.partly"));
}

TEST(Hillshade, IsRefusedWhenTheModelLiesElsewhere) {
  const ElevationFile file = read_elevation_bytes(around(), "model.asc", kDegrees);
  try {
    hillshade(file, {site(100)});
    FAIL();
  } catch (const Error& error) {
    EXPECT_EQ(error.message().key, "intake.elevation.elsewhere");
  }
}

// With 95 of 100 rows missing GDAL alone would try some 2^95 reads.
TEST(Hillshade, IsRefusedAtOnceWhenTheGridIsCutShort) {
  const std::string cut = around().substr(0, 2000);
  const ElevationFile file = read_elevation_bytes(cut, "model.asc", kDegrees);
  try {
    hillshade(file, {site()});
    FAIL() << "a grid cut short was read";
  } catch (const Error& error) {
    EXPECT_EQ(error.message().key, "intake.elevation.unreadable");
  }
}

TEST(Hillshade, LeavesOutCellsWithoutHeight) {
  const std::string holed = grid(113.49, -0.82, kCell, 100, 1, 50, 55);
  const Hillshade shade = hillshade(read_elevation_bytes(holed, "model.asc", kDegrees), {site()});
  EXPECT_LT(shade.covered_share, 1);
  EXPECT_GT(shade.lowest_m, 0);
}

TEST(Hillshade, LeavesOutNumbersThatAreNoHeights) {
  const std::string high = grid(113.49, -0.82, kCell, 100, 150, 50);  // to 15 km
  const Hillshade shade = hillshade(read_elevation_bytes(high, "model.asc", kDegrees), {site()});
  EXPECT_TRUE(has(shade.findings, "intake.elevation.no_height"));
  EXPECT_LE(shade.highest_m, 8849);
}

TEST(Hillshade, IsAveragedWhenTheModelIsTooFine) {
  Parameters parameters = Parameters::shipped();
  parameters.set("intake.elevation.most_pixels", 10000, Origin::told, "test", "");
  const ElevationFile file =
      read_elevation_bytes(grid(113.49, -0.82, 0.00004, 500, 1), "model.asc", kDegrees);
  const Hillshade shade = hillshade(file, {site()}, parameters);
  EXPECT_LE(shade.columns * shade.rows, 10100);
  EXPECT_TRUE(has(shade.findings, "intake.elevation.coarser"));
}

TEST(Hillshade, ReadsMetresOfAProjectedSystemToo) {
  // UTM zone 49 south: the site's place in metres, from the same formula any GIS uses.
  const std::string utm = grid(776000, 9909000, 30, 100, 1);
  const ElevationFile file = read_elevation_bytes(utm, "model.asc", {"EPSG:32749"});
  EXPECT_NEAR(file.cell_m, 30, 0.1);
  const Hillshade shade = hillshade(file, {site(113.491, -0.815)});
  EXPECT_EQ(shade.covered_share, 1);
}

TEST(LandBox, IsRefusedWithoutAShape) {
  EXPECT_THROW(land_box({}, 100), Error);
}

}  // namespace
}  // namespace wildling::intake
