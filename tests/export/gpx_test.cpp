#include "export/gpx.hpp"

#include <gtest/gtest.h>

#include "base/error.hpp"
#include "base/files.hpp"
#include "help.hpp"

namespace wildling::exports {
namespace {

TEST(Gpx, HoldsPegsOfOpenBlocksAndCornersOfAll) {
  const Site site;
  int pegs = 0;
  int drafts = 0;
  const auto points = pegs_and_corners(site.blocks, 5, english());
  ASSERT_EQ(points.size(), 2U + 4U + 4U);
  for (const Waypoint& point : points) {
    pegs += point.type == "peg" ? 1 : 0;
    const bool draft = point.description.find("draft, not for crews") != std::string::npos;
    EXPECT_EQ(draft, point.name.rfind("B<2>", 0) == 0) << point.name;
    drafts += draft ? 1 : 0;
  }
  EXPECT_EQ(pegs, 2);
  EXPECT_EQ(drafts, 4);
}

TEST(Gpx, IsReadBackByGdalWithNamesAndPositions) {
  const Site site;
  const Folder folder;
  const std::string path = folder.file("pegs.gpx");
  write_gpx(path, site.blocks, 5, "Plan \"4\" & <more>", "2026-11-25T04:37:13Z", english(), false);
  const Ran ran = run("ogrinfo -ro -al -q " + path + " waypoints");
  EXPECT_EQ(ran.status, 0) << ran.output;
  EXPECT_NE(ran.output.find("name (String) = B1-A"), std::string::npos) << ran.output;
  EXPECT_NE(ran.output.find("name (String) = B<2>-4"), std::string::npos) << ran.output;
  const ground::LonLat peg = site.frame.to_lonlat(site.first_line->peg_a);
  const std::size_t at = ran.output.find("POINT (");
  ASSERT_NE(at, std::string::npos);
  double lon = 0;
  double lat = 0;
  ASSERT_EQ(std::sscanf(ran.output.c_str() + at, "POINT (%lf %lf)", &lon, &lat), 2);
  EXPECT_LT(ground::distance_m(peg, {.lon_deg = lon, .lat_deg = lat}), 0.02);  // 7 decimals
}

TEST(Gpx, PassesAStrictXmlParser) {
  const Site site;
  const Folder folder;
  const std::string path = folder.file("pegs.gpx");
  write_gpx(path, site.blocks, 5, "t\x01\xFF<&>", "", english(), false);
  const Ran ran =
      run("/usr/bin/python3 -c 'import sys, xml.dom.minidom as m; print(len(m.parse(sys.argv[1])."
          "getElementsByTagName(\"wpt\")))' " +
          path);
  EXPECT_EQ(ran.output, "10\n");
}

TEST(XmlText, EscapesAndReplaces) {
  EXPECT_EQ(xml_text("a<b>&\"'"), "a&lt;b&gt;&amp;&quot;&apos;");
  EXPECT_EQ(xml_text("\x01"), "\xEF\xBF\xBD");
  EXPECT_EQ(xml_text("\xC0\xAF"), "\xEF\xBF\xBD\xEF\xBF\xBD");  // overlong slash
  EXPECT_EQ(xml_text("\xED\xA0\x80"),
            "\xEF\xBF\xBD\xEF\xBF\xBD\xEF\xBF\xBD");  // half a surrogate pair
  EXPECT_EQ(xml_text("Citrus \xC3\x97 limon \xF0\x9F\x8C\xB1"),
            "Citrus \xC3\x97 limon \xF0\x9F\x8C\xB1");
}

TEST(Gpx, RefusesToOverwrite) {
  const Site site;
  const Folder folder;
  write_gpx(folder.file("p.gpx"), site.blocks, 5, "t", "", english(), false);
  EXPECT_THROW(write_gpx(folder.file("p.gpx"), site.blocks, 5, "t", "", english(), false), Error);
}

}  // namespace
}  // namespace wildling::exports
