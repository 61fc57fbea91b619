#include "ground/shape.hpp"

#include <cmath>
#include <sstream>

#include <gtest/gtest.h>

#include "base/csv.hpp"
#include "base/error.hpp"
#include "base/files.hpp"
#include "ground/frame.hpp"

namespace wildling::ground {
namespace {

constexpr double kPi = 3.14159265358979323846;

Ring ring_in(const std::string& text) {
  Ring ring;
  std::istringstream corners(text);
  for (std::string corner; corners >> corner;) {
    const std::size_t comma = corner.find(',');
    ring.push_back(
        {*parse_number(corner.substr(0, comma)), *parse_number(corner.substr(comma + 1))});
  }
  return ring;
}

Shape of(const Ring& ring) {
  return Shape{{Polygon{ring, {}}}};
}

Shape regular(int corners, double area_m2) {
  const double radius = std::sqrt(2 * area_m2 / corners / std::sin(2 * kPi / corners));
  XyPolygon polygon;
  for (int i = 0; i < corners; ++i) {
    const double angle = 2 * kPi * i / corners;
    polygon.outer.push_back({radius * std::cos(angle), radius * std::sin(angle)});
  }
  return to_lonlat({polygon}, Frame({113.28, -0.83}));
}

TEST(Shape, AreasAndPerimetersAreThoseOfAnotherMethod) {
  const CsvTable table = parse_csv_table(read_file(WILDLING_REFERENCE "/geodesic/data.csv"));
  ASSERT_EQ(table.rows.size(), 7U);
  for (const CsvRow& row : table.rows) {
    const Shape shape = of(ring_in(row.cells[1]));
    const double area = *parse_number(row.cells[2]);
    EXPECT_NEAR(area_m2(shape), area, 0.05 + 1e-9 * area) << row.cells[0];
    EXPECT_NEAR(perimeter_m(shape), *parse_number(row.cells[3]), 0.002) << row.cells[0];
  }
}

TEST(Shape, TheErrorOfAHectareIsThatOfThePracticeTable) {
  const CsvTable table = parse_csv_table(read_file(WILDLING_REFERENCE "/boundary_error/data.csv"));
  ASSERT_EQ(table.rows.size(), 6U);
  for (const CsvRow& row : table.rows) {
    const Shape plot = regular(static_cast<int>(*parse_integer(row.cells[0])), 10000);
    EXPECT_NEAR(area_sd_m2(plot, *parse_number(row.cells[1])) / 100, *parse_number(row.cells[2]),
                *parse_number(row.cells[3]));
  }
}

// The double sum written out, distances along the ring the shorter way.
double chord_sum_by_hand(int n, double side, double radius, double c) {
  const double length = n * side;
  const double chord = 2 * radius * std::sin(2 * kPi / n);
  double sum = 0;
  for (int i = 0; i < n; ++i) {
    for (int j = 0; j < n; ++j) {
      const double d = std::min(std::abs(i - j), n - std::abs(i - j)) * side;
      const double rho = std::cosh((length / 2 - d) / c) / std::cosh(length / 2 / c);
      sum += rho * chord * chord * std::cos(2 * kPi * (i - j) / n);
    }
  }
  return sum;
}

TEST(Shape, TheSharedErrorOfAWalkIsTheDoubleSumWrittenOut) {
  for (const int n : {5, 8, 24}) {
    const double radius = std::sqrt(2 * 10000.0 / n / std::sin(2 * kPi / n));
    const double by_hand = chord_sum_by_hand(n, 2 * radius * std::sin(kPi / n), radius, 40);
    EXPECT_NEAR(chord_sum_m2(regular(n, 10000), 40) / by_hand, 1, 1e-5) << n;
  }
}

TEST(Shape, MoreFixesMakeAWalkLookSurerOnlyWhenTheirErrorsAreIndependent) {
  EXPECT_LT(area_sd_m2(regular(400, 10000), 5), 0.2 * area_sd_m2(regular(8, 10000), 5));
  const double coarse = area_sd_walked_m2(regular(40, 10000), 5, 50);
  EXPECT_NEAR(area_sd_walked_m2(regular(400, 10000), 5, 50) / coarse, 1, 0.02);
}

TEST(Shape, ANegativeErrorIsRefused) {
  EXPECT_THROW(area_sd_m2(regular(4, 100), -1), Error);
}

TEST(Shape, DirectionOfRingsDoesNotMatter) {
  const Ring outer = ring_in("102.60,17.90 102.60,17.91 102.61,17.91 102.61,17.90");
  const Ring hole = ring_in("102.604,17.904 102.604,17.906 102.606,17.906 102.606,17.904");
  const Shape shape{{Polygon{outer, {hole}}}};
  EXPECT_NEAR(area_m2(shape) / 10000, 112.586, 0.001);
  EXPECT_NEAR(area_m2(normalised(shape)) / 10000, 112.586, 0.001);
}

TEST(Shape, NormalisedTurnsOuterRingsCounterClockwiseAndDropsRepeats) {
  const Ring outer = ring_in("0,0 0,0 0,1 1,1 1,0 0,0");
  const Ring expected = ring_in("1,0 1,1 0,1 0,0");
  EXPECT_EQ(normalised(of(outer)).parts[0].outer, expected);
}

TEST(Shape, ARingOfTwoPointsIsDropped) {
  EXPECT_TRUE(normalised(of(ring_in("0,0 0,1 0,0"))).parts.empty());
}

TEST(Shape, TheMiddleIsFoundAcrossThe180thMeridian) {
  const LonLat at = middle(of(ring_in("179.99,0 -179.99,0 -179.99,1 179.99,1")));
  EXPECT_NEAR(std::abs(at.lon_deg), 180, 1e-9);
  EXPECT_NEAR(at.lat_deg, 0.5, 1e-9);
}

TEST(Shape, ALatitudeBeyondThePoleIsRefused) {
  EXPECT_THROW(area_m2(of(ring_in("18.8,98.9 18.8,98.91 18.81,98.91"))), Error);
}

TEST(Shape, AShapeWithoutPointsHasNoMiddle) {
  EXPECT_THROW(middle(Shape{}), Error);
}

}  // namespace
}  // namespace wildling::ground
