#pragma once
#include <cmath>
#include <numbers>
#include <vector>

#include "layout/places.hpp"

namespace wildling::layout {

inline ground::XyShape rectangle(double width_m, double height_m, double x_m = 0, double y_m = 0) {
  ground::XyPolygon part;
  part.outer = {
      {x_m, y_m}, {x_m + width_m, y_m}, {x_m + width_m, y_m + height_m}, {x_m, y_m + height_m}};
  return {part};
}

/// A star around a middle: radii in metres at even angles; never crosses itself.
inline std::vector<ground::Xy> star(const std::vector<double>& radii, double x_m, double y_m) {
  std::vector<ground::Xy> ring;
  for (std::size_t i = 0; i < radii.size(); ++i) {
    const double angle =
        2 * std::numbers::pi * static_cast<double>(i) / static_cast<double>(radii.size());
    ring.push_back({x_m + radii[i] * std::cos(angle), y_m + radii[i] * std::sin(angle)});
  }
  return ring;
}

inline double distance_to_segment(ground::Xy p, ground::Xy a, ground::Xy b) {
  const double dx = b.x_m - a.x_m;
  const double dy = b.y_m - a.y_m;
  const double square = dx * dx + dy * dy;
  double t = square > 0 ? ((p.x_m - a.x_m) * dx + (p.y_m - a.y_m) * dy) / square : 0;
  t = std::min(1.0, std::max(0.0, t));
  return std::hypot(p.x_m - a.x_m - t * dx, p.y_m - a.y_m - t * dy);
}

inline bool inside_ring(ground::Xy p, const std::vector<ground::Xy>& ring) {
  bool inside = false;
  for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++) {
    if ((ring[i].y_m > p.y_m) == (ring[j].y_m > p.y_m)) continue;
    const double x = ring[i].x_m + (p.y_m - ring[i].y_m) / (ring[j].y_m - ring[i].y_m) *
                                       (ring[j].x_m - ring[i].x_m);
    if (p.x_m < x) inside = !inside;
  }
  return inside;
}

/// Positive inside, negative outside, by testing the point against every ring and edge: the slow
/// way.
inline double depth_m(ground::Xy p, const ground::XyShape& shape) {
  bool inside = false;
  double nearest = 1e9;
  for (const auto& part : shape) {
    std::vector<std::vector<ground::Xy>> rings = part.holes;
    rings.push_back(part.outer);
    for (const auto& ring : rings) {
      if (inside_ring(p, ring)) inside = !inside;
      for (std::size_t i = 0; i < ring.size(); ++i) {
        nearest = std::min(nearest, distance_to_segment(p, ring[i], ring[(i + 1) % ring.size()]));
      }
    }
  }
  return inside ? nearest : -nearest;
}

}  // namespace wildling::layout
