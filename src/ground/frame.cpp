#include "ground/frame.hpp"

#include <cmath>

#include <GeographicLib/AlbersEqualArea.hpp>
#include <GeographicLib/Constants.hpp>

#include "base/error.hpp"

namespace wildling::ground {
namespace {

template <typename To, typename From, typename Convert>
std::vector<To> each(const std::vector<From>& points, const Convert& convert) {
  std::vector<To> result;
  result.reserve(points.size());
  for (const From& point : points) result.push_back(convert(point));
  return result;
}

double ring_area_m2(const std::vector<Xy>& ring) {
  double twice = 0;
  for (std::size_t i = 1; i + 1 < ring.size(); ++i) {
    twice += (ring[i].x_m - ring[0].x_m) * (ring[i + 1].y_m - ring[0].y_m) -
             (ring[i + 1].x_m - ring[0].x_m) * (ring[i].y_m - ring[0].y_m);
  }
  return std::abs(twice) / 2;
}

}  // namespace

struct Frame::Projection {
  explicit Projection(LonLat where)
      : albers(GeographicLib::Constants::WGS84_a(), GeographicLib::Constants::WGS84_f(),
               std::abs(where.lat_deg), 1.0),
        origin(where),
        mirror(where.lat_deg < 0 ? -1 : 1) {}

  GeographicLib::AlbersEqualArea albers;
  LonLat origin;
  // GeographicLib 2.1.2 takes a single parallel south of the equator for its mirror image when
  // going forward, so the south is projected as the north and turned over.
  double mirror;
};

Frame::Frame(LonLat origin) {
  if (!std::isfinite(origin.lon_deg) || !(std::abs(origin.lat_deg) <= 90)) {
    throw Error(ErrorKind::input, "",
                say("ground.not_a_position", {{"lon", origin.lon_deg}, {"lat", origin.lat_deg}}));
  }
  projection_ = std::make_shared<const Projection>(origin);
}

Xy Frame::to_xy(LonLat position) const {
  Xy result;
  projection_->albers.Forward(projection_->origin.lon_deg, position.lat_deg * projection_->mirror,
                              position.lon_deg, result.x_m, result.y_m);
  result.y_m *= projection_->mirror;
  return result;
}

LonLat Frame::to_lonlat(Xy position) const {
  LonLat result;
  projection_->albers.Reverse(projection_->origin.lon_deg, position.x_m,
                              position.y_m * projection_->mirror, result.lat_deg, result.lon_deg);
  result.lat_deg *= projection_->mirror;
  return result;
}

LonLat Frame::origin() const {
  return projection_->origin;
}

XyShape to_xy(const Shape& shape, const Frame& frame) {
  const auto convert = [&frame](LonLat p) { return frame.to_xy(p); };
  XyShape result;
  for (const Polygon& part : shape.parts) {
    XyPolygon polygon{each<Xy>(part.outer, convert), {}};
    for (const Ring& hole : part.holes) polygon.holes.push_back(each<Xy>(hole, convert));
    result.push_back(std::move(polygon));
  }
  return result;
}

Shape to_lonlat(const XyShape& shape, const Frame& frame) {
  const auto convert = [&frame](Xy p) { return frame.to_lonlat(p); };
  Shape result;
  for (const XyPolygon& part : shape) {
    Polygon polygon{each<LonLat>(part.outer, convert), {}};
    for (const std::vector<Xy>& hole : part.holes)
      polygon.holes.push_back(each<LonLat>(hole, convert));
    result.parts.push_back(std::move(polygon));
  }
  return result;
}

std::vector<Xy> to_xy(const Line& line, const Frame& frame) {
  return each<Xy>(line.points, [&frame](LonLat p) { return frame.to_xy(p); });
}

Line to_lonlat(const std::vector<Xy>& points, const Frame& frame) {
  return Line{each<LonLat>(points, [&frame](Xy p) { return frame.to_lonlat(p); })};
}

double area_m2(const XyShape& shape) {
  double area = 0;
  for (const XyPolygon& part : shape) {
    area += ring_area_m2(part.outer);
    for (const std::vector<Xy>& hole : part.holes) area -= ring_area_m2(hole);
  }
  return area;
}

}  // namespace wildling::ground
