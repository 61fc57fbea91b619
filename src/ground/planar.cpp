#include "ground/planar.hpp"

#include <cmath>
#include <utility>

#include "base/error.hpp"

namespace wildling::ground::planar {
namespace {

GEOSGeometry* ring(const Context& context, const std::vector<Xy>& points) {
  const auto size = static_cast<unsigned>(points.size() + 1);
  GEOSCoordSequence* line = GEOSCoordSeq_create_r(context.get(), size, 2);
  for (unsigned i = 0; i < size; ++i) {
    const Xy p = points[i % points.size()];
    GEOSCoordSeq_setXY_r(context.get(), line, i, p.x_m, p.y_m);
  }
  return GEOSGeom_createLinearRing_r(context.get(), line);
}

std::vector<Xy> open_ring(const Context& context, const GEOSGeometry* ring) {
  const GEOSCoordSequence* line = GEOSGeom_getCoordSeq_r(context.get(), ring);
  unsigned size = 0;
  GEOSCoordSeq_getSize_r(context.get(), line, &size);
  std::vector<Xy> points(size > 0 ? size - 1 : 0);
  for (unsigned i = 0; i < points.size(); ++i) {
    GEOSCoordSeq_getXY_r(context.get(), line, i, &points[i].x_m, &points[i].y_m);
  }
  return points;
}

Geometry several(const Context& context, const XyShape& shape) {
  std::vector<GEOSGeometry*> parts;
  for (const XyPolygon& part : shape) parts.push_back(polygon(context, part).release());
  return own(context, GEOSGeom_createCollection_r(context.get(), GEOS_MULTIPOLYGON, parts.data(),
                                                  static_cast<unsigned>(parts.size())));
}

}  // namespace

Geometry own(const Context& context, GEOSGeometry* geometry) {
  if (geometry == nullptr) throw Error(ErrorKind::input, "", say("ground.shape_not_valid"));
  return Geometry(geometry, Destroy{context.get()});
}

Geometry polygon(const Context& context, const XyPolygon& polygon) {
  std::vector<GEOSGeometry*> holes;
  for (const std::vector<Xy>& hole : polygon.holes) holes.push_back(ring(context, hole));
  return own(context, GEOSGeom_createPolygon_r(context.get(), ring(context, polygon.outer),
                                               holes.data(), static_cast<unsigned>(holes.size())));
}

XyShape polygons(const Context& context, const GEOSGeometry* geometry) {
  XyShape result;
  const int type = GEOSGeomTypeId_r(context.get(), geometry);
  if (type == GEOS_POLYGON) {
    if (GEOSisEmpty_r(context.get(), geometry) != 0) return result;
    XyPolygon found{open_ring(context, GEOSGetExteriorRing_r(context.get(), geometry)), {}};
    const int holes = GEOSGetNumInteriorRings_r(context.get(), geometry);
    for (int i = 0; i < holes; ++i) {
      found.holes.push_back(open_ring(context, GEOSGetInteriorRingN_r(context.get(), geometry, i)));
    }
    if (area_m2({found}) > 0) result.push_back(std::move(found));
  } else if (type == GEOS_MULTIPOLYGON || type == GEOS_GEOMETRYCOLLECTION) {
    const int count = GEOSGetNumGeometries_r(context.get(), geometry);
    for (int i = 0; i < count; ++i) {
      XyShape inner = polygons(context, GEOSGetGeometryN_r(context.get(), geometry, i));
      for (XyPolygon& part : inner) result.push_back(std::move(part));
    }
  }
  return result;
}

XyShape common(const Context& context, const XyPolygon& a, const XyPolygon& b) {
  const Geometry first = polygon(context, a);
  const Geometry second = polygon(context, b);
  return polygons(context,
                  own(context, GEOSIntersection_r(context.get(), first.get(), second.get())).get());
}

XyShape together(const Context& context, const XyShape& a, const XyShape& b) {
  const Geometry first = several(context, a);
  const Geometry second = several(context, b);
  return polygons(context,
                  own(context, GEOSUnion_r(context.get(), first.get(), second.get())).get());
}

double shared_edge_m(const Context& context, const XyShape& a, const XyShape& b) {
  const Geometry first = several(context, a);
  const Geometry second = several(context, b);
  const Geometry edge = own(context, GEOSIntersection_r(context.get(), first.get(), second.get()));
  double length = 0;
  GEOSLength_r(context.get(), edge.get(), &length);
  return length;
}

double distance_m(const Context& context, const XyShape& a, const XyShape& b) {
  double distance = 0;
  GEOSDistance_r(context.get(), several(context, a).get(), several(context, b).get(), &distance);
  return distance;
}

bool valid(const Context& context, const XyShape& shape) {
  return GEOSisValid_r(context.get(), several(context, shape).get()) == 1;
}

std::optional<Xy> fault(const Context& context, const XyShape& shape) {
  const Geometry several_parts = several(context, shape);
  GEOSGeometry* place = nullptr;
  char* reason = nullptr;
  const char result = GEOSisValidDetail_r(context.get(), several_parts.get(), 0, &reason, &place);
  GEOSFree_r(context.get(), reason);
  std::optional<Xy> found;
  if (result != 1) found = shape.front().outer.front();
  if (place != nullptr) {
    Xy at;
    GEOSGeomGetX_r(context.get(), place, &at.x_m);
    GEOSGeomGetY_r(context.get(), place, &at.y_m);
    found = at;
    GEOSGeom_destroy_r(context.get(), place);
  }
  return found;
}

XyShape made_valid(const Context& context, const XyShape& shape) {
  const Geometry before = several(context, shape);
  GEOSMakeValidParams* how = GEOSMakeValidParams_create_r(context.get());
  GEOSMakeValidParams_setMethod_r(context.get(), how, GEOS_MAKE_VALID_STRUCTURE);
  GEOSMakeValidParams_setKeepCollapsed_r(context.get(), how, 0);
  GEOSGeometry* after = GEOSMakeValidWithParams_r(context.get(), before.get(), how);
  GEOSMakeValidParams_destroy_r(context.get(), how);
  return polygons(context, own(context, after).get());
}

Xy longer_axis(const Context& context, const XyPolygon& shape) {
  const Geometry box =
      own(context, GEOSMinimumRotatedRectangle_r(context.get(), polygon(context, shape).get()));
  const XyShape found = polygons(context, box.get());
  if (found.empty() || found.front().outer.size() < 4) return {1, 0};
  const std::vector<Xy>& p = found.front().outer;
  const Xy one{p[1].x_m - p[0].x_m, p[1].y_m - p[0].y_m};
  const Xy two{p[2].x_m - p[1].x_m, p[2].y_m - p[1].y_m};
  const double length_one = std::hypot(one.x_m, one.y_m);
  const double length_two = std::hypot(two.x_m, two.y_m);
  Xy axis = length_one >= length_two ? one : two;
  const double length = std::max(length_one, length_two);
  if (axis.x_m < 0 || (axis.x_m == 0 && axis.y_m < 0)) axis = {-axis.x_m, -axis.y_m};
  return {axis.x_m / length, axis.y_m / length};
}

}  // namespace wildling::ground::planar
