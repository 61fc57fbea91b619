#pragma once
#include <memory>
#include <vector>

#include "ground/shape.hpp"

namespace wildling::ground {

/// Metres east and north of a frame's origin.
struct Xy {
  double x_m = 0;
  double y_m = 0;

  bool operator==(const Xy&) const = default;
};

/// Open rings, as in Polygon.
struct XyPolygon {
  std::vector<Xy> outer = {};
  std::vector<std::vector<Xy>> holes = {};

  bool operator==(const XyPolygon&) const = default;
};

using XyShape = std::vector<XyPolygon>;

/// A local plane in metres around an origin: ellipsoidal Albers equal-area projection of WGS 84
/// with its one standard parallel and its meridian through the origin (Snyder 1987, USGS
/// Professional Paper 1395; GeographicLib). Areas are true everywhere. Lengths are true on the
/// origin's parallel and off by (y/R)^2/2, 1.2e-6 at 10 km. Grid north is true north on the
/// origin's meridian; elsewhere it turns by x tan(latitude)/R, 0.03 degrees at 20 km and 10 degrees
/// latitude. Copying is cheap; safe to use from many threads.
class Frame {
 public:
  /// @throws Error{input} if the origin is no position on the globe
  explicit Frame(LonLat origin);
  [[nodiscard]] Xy to_xy(LonLat position) const;
  [[nodiscard]] LonLat to_lonlat(Xy position) const;
  [[nodiscard]] LonLat origin() const;

 private:
  struct Projection;
  std::shared_ptr<const Projection> projection_;
};

XyShape to_xy(const Shape& shape, const Frame& frame);
Shape to_lonlat(const XyShape& shape, const Frame& frame);
std::vector<Xy> to_xy(const Line& line, const Frame& frame);
Line to_lonlat(const std::vector<Xy>& points, const Frame& frame);

/// Planar area, outer rings minus holes, whatever their direction.
double area_m2(const XyShape& shape);

}  // namespace wildling::ground
