#include "export/geopackage.hpp"

#include <gtest/gtest.h>

#include "base/error.hpp"
#include "base/files.hpp"
#include "help.hpp"

namespace wildling::exports {
namespace {

GeoPackageCopy copy_of(const Site& site) {
  GeoPackageCopy copy;
  copy.blocks = site.blocks;
  copy.species = site.species;
  copy.title = "Invented plan";
  copy.made_at_utc = "2026-11-25T04:37:13.123Z";
  copy.tables = {planting_table(open_only(site.blocks), site.species)};
  return copy;
}

TEST(GeoPackage, PassesTheValidator) {
  const Site site;
  const Folder folder;
  write_geopackage(folder.file("plan.gpkg"), copy_of(site), {}, english(), false);
  const Ran ran =
      run("/usr/bin/python3 -m osgeo_utils.samples.validate_gpkg " + folder.file("plan.gpkg"));
  EXPECT_EQ(ran.status, 0) << ran.output;
}

TEST(GeoPackage, ListsItsLayersAndCountsInOgrinfo) {
  const Site site;
  const Folder folder;
  const std::string path = folder.file("plan.gpkg");
  write_geopackage(path, copy_of(site), {}, english(), false);
  const std::string output = run("ogrinfo -ro -so -al " + path).output;
  const auto layer = [&](const std::string& name, const std::string& geometry, std::int64_t count) {
    const std::size_t at = output.find("Layer name: " + name + "\n");
    ASSERT_NE(at, std::string::npos) << name << output;
    const std::string about = output.substr(at, output.find("Layer SRS", at) - at);
    EXPECT_NE(about.find("Geometry: " + geometry + "\n"), std::string::npos) << about;
    EXPECT_NE(about.find("Feature Count: " + std::to_string(count) + "\n"), std::string::npos)
        << about;
  };
  layer("seedlings", "Point", site.first_species.planted);
  layer("blocks", "Multi Polygon", 2);
  layer("pegs", "Point", 2);
  layer("baselines", "Line String", 1);
  layer("planting", "None", static_cast<std::int64_t>(copy_of(site).tables[0].rows.size()));
  layer("about", "None", 4);
}

TEST(GeoPackage, ClosedBlocksAreOutlinesMarkedAsDraft) {
  const Site site;
  const Folder folder;
  const std::string path = folder.file("plan.gpkg");
  write_geopackage(path, copy_of(site), {}, english(), false);
  const auto count = [&](const std::string& sql) {
    return run("ogrinfo -ro -q " + path + " -sql \"SELECT count(*) AS n FROM " + sql + "\"").output;
  };
  EXPECT_NE(count("seedlings WHERE block <> 'B1'").find("n (Integer) = 0"), std::string::npos);
  EXPECT_NE(count("pegs WHERE block <> 'B1'").find("n (Integer) = 0"), std::string::npos);
  EXPECT_NE(count("blocks WHERE status = 'draft, not for crews'").find("n (Integer) = 1"),
            std::string::npos);
  EXPECT_NE(count("about WHERE line LIKE 'Draft, not for crews: B<2>%'").find("n (Integer) = 1"),
            std::string::npos);
}

TEST(GeoPackage, ASeedlingStandsWhereItsPlaceIs) {
  const Site site;
  const Folder folder;
  const std::string path = folder.file("plan.gpkg");
  write_geopackage(path, copy_of(site), {}, english(), false);
  std::size_t place = 0;
  while (site.first_species.species[place] == layout::kEmptyPlace) ++place;
  const layout::Address address = layout::address_of(site.first, place);
  const std::string id = layout::seedling_id("B1", address);
  const Ran ran = run("ogrinfo -ro -q " + path + " seedlings -where \"seedling='" + id + "'\"");
  const std::size_t at = ran.output.find("POINT (");
  ASSERT_NE(at, std::string::npos) << ran.output;
  double lon = 0;
  double lat = 0;
  ASSERT_EQ(std::sscanf(ran.output.c_str() + at, "POINT (%lf %lf)", &lon, &lat), 2);
  EXPECT_LT(ground::distance_m(site.frame.to_lonlat(site.first.at(place)),
                               {.lon_deg = lon, .lat_deg = lat}),
            0.001);
}

TEST(GeoPackage, TheSameInputGivesTheSameBytes) {
  const Site site;
  const Folder folder;
  write_geopackage(folder.file("a.gpkg"), copy_of(site), {}, english(), false);
  write_geopackage(folder.file("b.gpkg"), copy_of(site), {}, english(), false);
  EXPECT_TRUE(read_file(folder.file("a.gpkg")) == read_file(folder.file("b.gpkg")));
}

TEST(GeoPackage, NeedsNoFileBesideIt) {
  const Site site;
  const Folder folder;
  write_geopackage(folder.file("a.gpkg"), copy_of(site), {}, english(), false);
  EXPECT_EQ(folder.entries(), 1U);
  const std::string bytes = read_file(folder.file("a.gpkg"));
  EXPECT_EQ(bytes[18], 1);  // file format write and read version: 1 = rollback journal, 2 = WAL
  EXPECT_EQ(bytes[19], 1);
}

TEST(GeoPackage, OnAFullDiskSaysSoAndLeavesNothing) {
  const Site site;
  const Folder folder;
  const SmallDisk disk(16384);
  try {
    write_geopackage(folder.file("a.gpkg"), copy_of(site), {}, english(), false);
    FAIL();
  } catch (const Error& error) {
    EXPECT_EQ(error.kind(), ErrorKind::io);
    EXPECT_EQ(error.where(), folder.file("a.gpkg"));
  }
  EXPECT_EQ(folder.entries(), 0U);
}

TEST(GeoPackage, IntoAFolderThatIsNotThereFails) {
  const Site site;
  EXPECT_THROW(write_geopackage("/nonexistent/folder/a.gpkg", copy_of(site), {}, english(), false),
               Error);
}

TEST(GeoPackage, IntoAReadOnlyPlaceFails) {
  const Site site;  // /proc is read-only even for root
  try {
    write_geopackage("/proc/a.gpkg", copy_of(site), {}, english(), false);
    FAIL();
  } catch (const Error& error) {
    EXPECT_EQ(error.kind(), ErrorKind::io);
  }
}

TEST(GeoPackage, RefusesToOverwriteUnlessTold) {
  const Site site;
  const Folder folder;
  write_file(folder.file("a.gpkg"), "mine");
  EXPECT_THROW(write_geopackage(folder.file("a.gpkg"), copy_of(site), {}, english(), false), Error);
  EXPECT_EQ(read_file(folder.file("a.gpkg")), "mine");
  write_geopackage(folder.file("a.gpkg"), copy_of(site), {}, english(), true);
  EXPECT_NE(read_file(folder.file("a.gpkg")), "mine");
}

TEST(GeoPackage, StoppedLeavesNothing) {
  const Site site;
  const Folder folder;
  std::stop_source source;
  source.request_stop();
  Progress progress;
  progress.stop = source.get_token();
  EXPECT_THROW(
      write_geopackage(folder.file("a.gpkg"), copy_of(site), {}, english(), false, progress),
      Cancelled);
  EXPECT_EQ(folder.entries(), 0U);
}

TEST(GeoPackage, RefusesAListOfAClosedBlockAmongItsTables) {
  const Site site;
  const Folder folder;
  GeoPackageCopy copy = copy_of(site);
  copy.tables = {planting_table(site.blocks, site.species)};
  EXPECT_THROW(write_geopackage(folder.file("a.gpkg"), copy, {}, english(), false), Error);
  EXPECT_EQ(folder.entries(), 0U);
}

TEST(GeoPackage, RefusesATableNameThatIsTakenAndASpeciesWithoutName) {
  const Site site;
  const Folder folder;
  GeoPackageCopy copy = copy_of(site);
  copy.tables[0].name = "seedlings";
  EXPECT_THROW(write_geopackage(folder.file("a.gpkg"), copy, {}, english(), false), Error);
  copy = copy_of(site);
  copy.species.pop_back();
  EXPECT_THROW(write_geopackage(folder.file("a.gpkg"), copy, {}, english(), false), Error);
}

}  // namespace
}  // namespace wildling::exports
