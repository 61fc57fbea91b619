// Notation of area_sd: p_i vertices in a local plane, n_i = p_i+1 - p_i-1 (chord), s standard
// deviation per coordinate, c correlation length, L ring length, d distance along the ring.
#include "ground/shape.hpp"

#include <algorithm>
#include <cmath>

#include <GeographicLib/Geodesic.hpp>
#include <GeographicLib/PolygonArea.hpp>

#include "base/error.hpp"
#include "ground/frame.hpp"

namespace wildling::ground {
namespace {

using GeographicLib::Geodesic;

void check(LonLat p) {
  if (!std::isfinite(p.lon_deg) || !std::isfinite(p.lat_deg) || std::abs(p.lat_deg) > 90) {
    throw Error(ErrorKind::input, "",
                say("ground.not_a_position", {{"lon", p.lon_deg}, {"lat", p.lat_deg}}));
  }
}

struct RingMeasure {
  double perimeter_m = 0;
  double signed_area_m2 = 0;
};

RingMeasure measure(const Ring& ring) {
  GeographicLib::PolygonArea polygon(Geodesic::WGS84());
  for (const LonLat p : ring) {
    check(p);
    polygon.AddPoint(p.lat_deg, p.lon_deg);
  }
  RingMeasure result;
  if (ring.size() < 2) return result;
  polygon.Compute(false, true, result.perimeter_m, result.signed_area_m2);
  return result;
}

Ring without_repeats(const Ring& ring) {
  Ring result;
  for (const LonLat p : ring) {
    if (result.empty() || !(result.back() == p)) result.push_back(p);
  }
  while (result.size() > 1 && result.front() == result.back()) result.pop_back();
  return result;
}

Ring turned(Ring ring, bool counter_clockwise) {
  if ((measure(ring).signed_area_m2 > 0) != counter_clockwise)
    std::reverse(ring.begin(), ring.end());
  return ring;
}

// Sum over ordered pairs of one ring. Pairs farther apart than 20 c weigh less than 1e-8 and are
// left out.
double ring_chord_sum_m2(const std::vector<Xy>& p, double c) {
  const std::size_t n = p.size();
  if (n < 3) return 0;
  std::vector<Xy> chord(n);
  std::vector<double> step(n);
  double length = 0;
  for (std::size_t i = 0; i < n; ++i) {
    const Xy next = p[(i + 1) % n];
    const Xy before = p[(i + n - 1) % n];
    chord[i] = {next.x_m - before.x_m, next.y_m - before.y_m};
    step[i] = std::hypot(next.x_m - p[i].x_m, next.y_m - p[i].y_m);
    length += step[i];
  }
  double sum = 0;
  for (std::size_t i = 0; i < n; ++i) {
    sum += chord[i].x_m * chord[i].x_m + chord[i].y_m * chord[i].y_m;
    if (!(c > 0)) continue;
    double d = 0;
    for (std::size_t k = 1; k < n; ++k) {
      d += step[(i + k - 1) % n];
      const bool met_twice =
          std::abs(d / length - 0.5) < 1e-9;  // a pair half way round is met from both ends
      if ((d > length / 2 && !met_twice) || d > 20 * c) break;
      // cosh((L/2 - d)/c) / cosh(L/2c) without overflow
      const double rho =
          std::exp(-d / c) * (1 + std::exp((2 * d - length) / c)) / (1 + std::exp(-length / c));
      const std::size_t j = (i + k) % n;
      const double weight = met_twice ? 1 : 2;
      sum += weight * rho * (chord[i].x_m * chord[j].x_m + chord[i].y_m * chord[j].y_m);
    }
  }
  return sum;
}

}  // namespace

double ring_area_m2(const Ring& ring) {
  return std::abs(measure(ring).signed_area_m2);
}

double area_m2(const Shape& shape) {
  double area = 0;
  for (const Polygon& part : shape.parts) {
    area += ring_area_m2(part.outer);
    for (const Ring& hole : part.holes) area -= ring_area_m2(hole);
  }
  return area;
}

double perimeter_m(const Shape& shape) {
  double perimeter = 0;
  for (const Polygon& part : shape.parts) {
    perimeter += measure(part.outer).perimeter_m;
    for (const Ring& hole : part.holes) perimeter += measure(hole).perimeter_m;
  }
  return perimeter;
}

double length_m(const Line& line) {
  double length = 0;
  for (std::size_t i = 1; i < line.points.size(); ++i)
    length += distance_m(line.points[i - 1], line.points[i]);
  return length;
}

double distance_m(LonLat a, LonLat b) {
  check(a);
  check(b);
  double distance = 0;
  Geodesic::WGS84().Inverse(a.lat_deg, a.lon_deg, b.lat_deg, b.lon_deg, distance);
  return distance;
}

double chord_sum_m2(const Shape& shape, double correlated_over_m) {
  if (vertex_count(shape) == 0) return 0;
  const Frame frame(middle(shape));
  double sum = 0;
  for (const XyPolygon& part : to_xy(shape, frame)) {
    sum += ring_chord_sum_m2(part.outer, correlated_over_m);
    for (const std::vector<Xy>& hole : part.holes)
      sum += ring_chord_sum_m2(hole, correlated_over_m);
  }
  return sum;
}

double area_sd_walked_m2(const Shape& shape, double vertex_error_m, double correlated_over_m) {
  if (!(vertex_error_m >= 0) || !(correlated_over_m >= 0)) {
    throw Error(
        ErrorKind::usage, "",
        say("ground.error_negative", {{"value", std::min(vertex_error_m, correlated_over_m)}}));
  }
  // The sum is a quadratic form of a covariance, never negative but for rounding and the pairs left
  // out.
  return vertex_error_m / 2 * std::sqrt(std::max(0.0, chord_sum_m2(shape, correlated_over_m)));
}

double area_sd_m2(const Shape& shape, double vertex_error_m) {
  return area_sd_walked_m2(shape, vertex_error_m, 0);
}

std::size_t vertex_count(const Shape& shape) {
  std::size_t count = 0;
  for (const Polygon& part : shape.parts) {
    count += part.outer.size();
    for (const Ring& hole : part.holes) count += hole.size();
  }
  return count;
}

LonLat middle(const Shape& shape) {
  bool first = true;
  double west = 0, east = 0, south = 0, north = 0, start = 0;
  for (const Polygon& part : shape.parts) {
    for (const LonLat p : part.outer) {
      check(p);
      if (first) start = p.lon_deg;
      const double lon = start + std::remainder(p.lon_deg - start, 360.0);
      west = first ? lon : std::min(west, lon);
      east = first ? lon : std::max(east, lon);
      south = first ? p.lat_deg : std::min(south, p.lat_deg);
      north = first ? p.lat_deg : std::max(north, p.lat_deg);
      first = false;
    }
  }
  if (first) throw Error(ErrorKind::input, "", say("ground.no_vertex"));
  return {std::remainder((west + east) / 2, 360.0), (south + north) / 2};
}

Shape normalised(const Shape& shape) {
  Shape result;
  for (const Polygon& part : shape.parts) {
    Polygon clean{turned(without_repeats(part.outer), true), {}};
    if (clean.outer.size() < 3) continue;
    for (const Ring& hole : part.holes) {
      Ring clean_hole = turned(without_repeats(hole), false);
      if (clean_hole.size() >= 3) clean.holes.push_back(std::move(clean_hole));
    }
    result.parts.push_back(std::move(clean));
  }
  return result;
}

}  // namespace wildling::ground
