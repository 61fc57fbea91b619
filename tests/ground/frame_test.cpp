#include "ground/frame.hpp"

#include <cmath>

#include <gtest/gtest.h>

#include "base/error.hpp"

namespace wildling::ground {
namespace {

class FrameAtLatitude : public testing::TestWithParam<double> {};

TEST_P(FrameAtLatitude, TheOriginIsZero) {
  const Frame frame({113.28, GetParam()});
  EXPECT_NEAR(frame.to_xy({113.28, GetParam()}).x_m, 0, 1e-8);
  EXPECT_NEAR(frame.to_xy({113.28, GetParam()}).y_m, 0, 1e-8);
}

TEST_P(FrameAtLatitude, NorthIsUpAndEastIsRight) {
  const Frame frame({113.28, GetParam()});
  EXPECT_NEAR(frame.to_xy({113.28, GetParam() + 0.01}).y_m, 1105.8, 2);
  EXPECT_GT(frame.to_xy({113.29, GetParam()}).x_m, 1000);
}

TEST_P(FrameAtLatitude, APositionComesBack) {
  const Frame frame({113.28, GetParam()});
  const LonLat back = frame.to_lonlat(frame.to_xy({113.35, GetParam() + 0.07}));
  EXPECT_NEAR(back.lon_deg, 113.35, 1e-12);
  EXPECT_NEAR(back.lat_deg, GetParam() + 0.07, 1e-12);
}

TEST_P(FrameAtLatitude, DistancesWithinTenKilometresAreTrueToThreeInAMillion) {
  const LonLat a{113.28, GetParam()};
  const LonLat b{113.33, GetParam() + 0.06};
  const Xy at = Frame(a).to_xy(b);
  EXPECT_NEAR(std::hypot(at.x_m, at.y_m) / distance_m(a, b), 1, 3e-6);
}

TEST_P(FrameAtLatitude, TheAreaOfASquareKilometreIsTheGeodesicOne) {
  const Frame frame({113.28, GetParam()});
  const XyShape square = {{{{5000, 5000}, {6000, 5000}, {6000, 6000}, {5000, 6000}}, {}}};
  EXPECT_NEAR(area_m2(to_lonlat(square, frame)) / area_m2(square), 1, 1e-7);
}

INSTANTIATE_TEST_SUITE_P(Tropics, FrameAtLatitude,
                         testing::Values(-23.0, -10.0, -0.83, -0.0001, 0.0, 0.0001, 0.83, 10.0,
                                         20.0));

TEST(Frame, ALatitudeBeyondThePoleIsRefused) {
  EXPECT_THROW(Frame({0, 90.1}), Error);
}

}  // namespace
}  // namespace wildling::ground
