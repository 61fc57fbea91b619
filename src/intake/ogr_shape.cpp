#include "intake/ogr_shape.hpp"

#include <utility>

namespace wildling::intake {
namespace {

RawLine line_of(const OGRSimpleCurve& curve) {
  RawLine line;
  line.reserve(static_cast<std::size_t>(curve.getNumPoints()));
  for (int i = 0; i < curve.getNumPoints(); ++i) line.push_back({curve.getX(i), curve.getY(i)});
  return line;
}

void add_polygon(const OGRPolygon& polygon, RawFeature& feature) {
  const OGRLinearRing* outer = polygon.getExteriorRing();
  if (outer == nullptr) return;
  RawPolygon rings{line_of(*outer)};
  for (int i = 0; i < polygon.getNumInteriorRings(); ++i) {
    rings.push_back(line_of(*polygon.getInteriorRing(i)));
  }
  feature.polygons.push_back(std::move(rings));
}

void add_linear(const OGRGeometry& geometry, RawFeature& feature) {
  switch (wkbFlatten(geometry.getGeometryType())) {
    case wkbPolygon:
    case wkbTriangle:
      add_polygon(*geometry.toPolygon(), feature);
      return;
    case wkbLineString:
      feature.lines.push_back(line_of(*geometry.toSimpleCurve()));
      return;
    case wkbPoint:
      if (geometry.IsEmpty() == 0) {
        feature.points.push_back({geometry.toPoint()->getX(), geometry.toPoint()->getY()});
      }
      return;
    default:
      break;
  }
  if (OGR_GT_IsSubClassOf(geometry.getGeometryType(), wkbGeometryCollection) != 0) {
    const OGRGeometryCollection* several = geometry.toGeometryCollection();
    for (int i = 0; i < several->getNumGeometries(); ++i) {
      add_linear(*several->getGeometryRef(i), feature);
    }
  }
}

}  // namespace

bool add_geometry(const OGRGeometry& geometry, RawFeature& feature) {
  if (geometry.hasCurveGeometry() != 0) {
    const std::unique_ptr<OGRGeometry> linear(geometry.getLinearGeometry());
    if (linear) add_linear(*linear, feature);
  } else {
    add_linear(geometry, feature);
  }
  return geometry.Is3D() != 0;
}

}  // namespace wildling::intake
