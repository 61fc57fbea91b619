#pragma once
#include <string>
#include <vector>

#include "ground/shape.hpp"

namespace wildling::exports {

/// GeoPackage binary geometries (OGC 12-128r15, clause 2.1.3): header "GP", version 0,
/// little-endian, SRS 4326, then WKB. Lines and polygons carry an envelope, points do not.
std::string gpkg_point(ground::LonLat at);
std::string gpkg_line(const std::vector<ground::LonLat>& points);
std::string gpkg_multipolygon(const ground::Shape& shape);

struct Box {
  double west = 180, south = 90, east = -180, north = -90;
  void add(ground::LonLat at);

  [[nodiscard]] bool empty() const { return west > east; }
};

}  // namespace wildling::exports
