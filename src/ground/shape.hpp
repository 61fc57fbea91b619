#pragma once
/// ground: the land itself. What is the area of a site and how sure is that, how is it cut into
/// blocks, where are things in metres, may work begin there (four gate questions), and is planting
/// the right method at all. Pure functions over positions on the WGS 84 ellipsoid. Sources: Karney
/// (2013), Algorithms for geodesics, J. Geodesy 87, 43-55 (lengths and areas); GEOS (repair and
/// cutting of polygons); for the methods see data/parameters/ground.csv.
#include <cstddef>
#include <vector>

namespace wildling::ground {

/// A position on WGS 84, degrees; longitude east, latitude north.
struct LonLat {
  double lon_deg = 0;
  double lat_deg = 0;

  bool operator==(const LonLat&) const = default;
};

/// Open ring: the first point is not repeated. Outer rings run counter-clockwise, holes clockwise
/// (see `normalised`), but no function here depends on the direction.
using Ring = std::vector<LonLat>;

struct Polygon {
  Ring outer = {};
  std::vector<Ring> holes = {};

  bool operator==(const Polygon&) const = default;
};

/// A site or a block: one or more polygons that do not overlap.
struct Shape {
  std::vector<Polygon> parts = {};

  bool operator==(const Shape&) const = default;
};

/// An open line, such as a stream.
struct Line {
  std::vector<LonLat> points = {};

  bool operator==(const Line&) const = default;
};

/// Geodesic area: outer rings minus holes, whatever their direction. A ring always means the
/// smaller side of the globe. 0 for a ring of fewer than 3 points.
/// @throws Error{input} if a coordinate is not finite or a latitude lies outside [-90, 90]
/// Accuracy: 0.1 m2 for any polygon on the ground (GeographicLib, PolygonArea).
double area_m2(const Shape& shape);
double ring_area_m2(const Ring& ring);

/// Geodesic length of all edges, holes included.
double perimeter_m(const Shape& shape);

/// Geodesic length of the open line.
double length_m(const Line& line);

/// Geodesic distance. @throws as area_m2
double distance_m(LonLat a, LonLat b);

/// Standard deviation of the area when each vertex is off by an independent error of
/// `vertex_error_m` in each of two directions: s/2 sqrt(sum of squared chords between a vertex's
/// neighbours). From A = 1/2 sum x_i (y_i+1 - y_i-1). Right for corners taken one by one; for a
/// dense walk it is far too small: see area_sd_walked_m2.
/// @param vertex_error_m  >= 0, standard deviation per coordinate
double area_sd_m2(const Shape& shape, double vertex_error_m);

/// As area_sd_m2, but the errors of two vertices that lie d apart along a ring of length L have
/// correlation cosh((L/2 - d)/c) / cosh(L/(2c)), close to exp(-d/c): a phone's error wanders slowly
/// while one walks.
/// @param correlated_over_m  c >= 0; 0 = independent
double area_sd_walked_m2(const Shape& shape, double vertex_error_m, double correlated_over_m);

/// The sum under the root of both, m2: sum over vertex pairs of correlation times the dot product
/// of their chords. Area standard deviation = vertex error / 2 * sqrt(this).
double chord_sum_m2(const Shape& shape, double correlated_over_m);

/// Number of vertices of all rings.
std::size_t vertex_count(const Shape& shape);

/// Middle of the bounding box of the outer rings (longitudes unwrapped across the 180th meridian).
/// @throws Error{input} when there is no vertex
LonLat middle(const Shape& shape);

/// Repeated neighbouring points dropped, rings of fewer than 3 points dropped, outer rings
/// counter-clockwise, holes clockwise.
Shape normalised(const Shape& shape);

}  // namespace wildling::ground
