#include "intake/angle_text.hpp"

#include <string>

#include <gtest/gtest.h>

#include "intake/boundaries.hpp"

namespace wildling::intake {
namespace {

constexpr double kLon = 113 + 16.0 / 60 + 52.6 / 3600;
constexpr double kLat = -(0 + 50.0 / 60 + 12.0 / 3600);

struct Written {
  const char* text;
  double degrees;
};

TEST(AngleText, DegreesMinutesSecondsAreReadAsPhonesAndMapsWriteThem) {
  for (const Written& one : {Written{"113°16'52.6\"E", kLon}, Written{"113° 16′ 52,6″ BT", kLon},
                             Written{"113 16 52.6", kLon}, Written{"E 113 16 52.6", kLon},
                             Written{"0°50'12\"S", kLat}, Written{"0 50 12 LS", kLat},
                             Written{"-0°50'12\"", kLat}, Written{"113°16.8766667'E", kLon}}) {
    const auto angle = read_angle(one.text);
    ASSERT_TRUE(angle) << one.text;
    EXPECT_NEAR(*angle, one.degrees, 1e-8) << one.text;  // 1 mm on the ground
  }
}

TEST(AngleText, WhatIsNoAngleIsRefused) {
  for (const char* text : {"", "113.28", "113°60'00\"E", "113°16'61\"E", "-0°50'12\"S",
                           "113.5°16'E", "N", "x 1 2", "1 2 3 4", "400 0 0", "113 16 nan"}) {
    EXPECT_FALSE(read_angle(text)) << text;
  }
}

TEST(AngleText, ATableOfSuchCornersIsRead) {
  const BoundaryFile file = read_boundaries_bytes(
      "bujur;lintang\n113°00'00\"E;1°00'00\"S\n113°00'07.2\"E;1°00'00\"S\n113°00'07.2\"E;0°59'52."
      "8\"S\n",
      "corners.csv");
  EXPECT_NEAR(file.sites.at(0).area_m2, 24614.5,
              1);  // half of 0.002 x 0.002 degrees at 1 degree south
}

}  // namespace
}  // namespace wildling::intake
