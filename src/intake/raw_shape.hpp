#pragma once
#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/error.hpp"

/// What a file of shapes holds, before anything is judged or converted.
namespace wildling::intake {

/// In the file's own coordinates.
struct RawPoint {
  double x = 0;
  double y = 0;

  bool operator==(const RawPoint&) const = default;
};

using RawLine = std::vector<RawPoint>;

/// The first ring is the outer one. Rings are as written: closed or not.
using RawPolygon = std::vector<RawLine>;

struct RawFeature {
  std::size_t number = 0;  ///< 1 = first of the file
  std::string where = {};  ///< "walk.gpx, shape 2" or "corners.csv:2"
  std::map<std::string, std::string> attributes = {};
  std::vector<RawPolygon> polygons = {};
  std::vector<RawLine> lines = {};
  std::vector<RawPoint> points = {};
};

struct RawFile {
  std::vector<RawFeature> features = {};
  std::string crs = {};                       ///< WKT or "EPSG:n"; empty when the file does not say
  std::string crs_name = {};                  ///< for people
  bool points_are_corners = false;            ///< points in order make a ring: waypoints, tables
  bool heights = false;                       ///< heights were dropped
  std::optional<double> hdop_rms = {};        ///< the receiver's dilution, root mean square
  std::optional<double> accuracy_rms_m = {};  ///< the receiver's stated accuracy, root mean square
  Findings findings = {};
};

}  // namespace wildling::intake
