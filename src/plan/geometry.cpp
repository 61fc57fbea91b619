#include "plan/geometry.hpp"

namespace wildling::plan {
namespace {

store::Ring to_ring(const ground::Ring& ring) {
  store::Ring result;
  for (const ground::LonLat& p : ring) result.push_back({p.lon_deg, p.lat_deg});
  return result;
}

ground::Ring from_ring(const store::Ring& ring) {
  ground::Ring result;
  for (const store::Position& p : ring) result.push_back({p.lon_deg, p.lat_deg});
  return result;
}

}  // namespace

store::Geometry to_geometry(const ground::Shape& shape) {
  store::MultiPolygon result;
  for (const ground::Polygon& part : shape.parts) {
    store::PolygonPart polygon;
    polygon.rings.push_back(to_ring(part.outer));
    for (const ground::Ring& hole : part.holes) polygon.rings.push_back(to_ring(hole));
    result.parts.push_back(std::move(polygon));
  }
  return result;
}

store::Geometry to_geometry(const ground::Line& line) {
  store::LineString result;
  for (const ground::LonLat& p : line.points) result.points.push_back({p.lon_deg, p.lat_deg});
  return result;
}

ground::Shape to_shape(const store::Geometry& geometry) {
  ground::Shape shape;
  const auto* multi = std::get_if<store::MultiPolygon>(&geometry);
  if (multi == nullptr) return shape;
  for (const store::PolygonPart& part : multi->parts) {
    if (part.rings.empty()) continue;
    ground::Polygon polygon;
    polygon.outer = from_ring(part.rings.front());
    for (std::size_t i = 1; i < part.rings.size(); ++i)
      polygon.holes.push_back(from_ring(part.rings[i]));
    shape.parts.push_back(std::move(polygon));
  }
  return shape;
}

ground::Line to_line(const store::Geometry& geometry) {
  ground::Line line;
  if (const auto* string = std::get_if<store::LineString>(&geometry)) {
    for (const store::Position& p : string->points) line.points.push_back({p.lon_deg, p.lat_deg});
  }
  return line;
}

}  // namespace wildling::plan
