#pragma once
#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/error.hpp"
#include "base/workings.hpp"
#include "ground/shape.hpp"

namespace wildling::intake {

/// One site of a boundary file.
struct SiteShape {
  std::string name = {};         ///< property name, site or nama; else the file's name and a number
  ground::Shape shape = {};      ///< WGS 84, valid, normalised
  std::string ground_type = {};  ///< as written; empty when the file has none
  std::string cover = {};        ///< a name of ground::Cover, or empty
  std::optional<double> slope_deg = {};
  bool floods = false;
  std::map<std::string, std::string> attributes = {};  ///< every property, as text in UTF-8
  double area_m2 = 0;                                  ///< geodesic
  std::size_t parts = 0;

  bool operator==(const SiteShape&) const = default;
};

/// What the user says about a file that does not say it.
struct BoundaryOptions {
  std::optional<std::string> crs = {};  ///< "EPSG:32650"; overrules what the file says
  bool swap_axes = false;               ///< the first number is the northing or latitude
  bool close_lines = false;  ///< a walk goes round a site: join its pieces in order and close it
};

struct BoundaryFile {
  std::vector<SiteShape> sites = {};  ///< never empty
  Findings findings = {};
  /// Standard deviation per coordinate: from the receiver's hdop or accuracy where the file has it
  /// (then measured), else ground.vertex_error_m.
  double vertex_error_m = 0;
  Origin vertex_error_origin = Origin::assumed;
  std::string sha256 = {};  ///< of the file; a shapefile's .shp
  std::size_t bytes = 0;
  std::size_t features_read = 0;
};

struct LineFile {
  std::vector<ground::Line> lines = {};  ///< never empty
  Findings findings = {};
  std::string sha256 = {};
  std::size_t bytes = 0;
};

/// Files that belong to a shapefile, by lower-case ending without the dot ("dbf" -> its bytes).
using Companions = std::map<std::string, std::string>;

/// Reads boundaries of sites: GeoJSON, GPX (tracks, routes, or corners as waypoints), KML and KMZ,
/// shapefile (with its companions beside it, or zipped), GeoPackage, or a table of corners (a
/// column of northings or latitudes and one of eastings or longitudes, a row per corner in walking
/// order, sites told apart by a column name, site or nama). What a file is, its first bytes say,
/// not its name.
///
/// Several features are several sites; parts of one feature are parts of one site. Heights are
/// dropped. An open ring is closed and the gap told; a walked line is a boundary when its ends are
/// near each other (intake.boundary.gap_share_most) and it has at least 4 points; a track of
/// several segments, a point, an area of 0 and one larger than intake.boundary.largest_site_ha are
/// set aside; so are layers in another coordinate system than the first. Rings that cross
/// themselves are repaired (GEOS MakeValid, structure method), the place and the change of area
/// told. Positions go to WGS 84 by PROJ without guesses, its stated accuracy told.
/// @throws Error{input} when the file cannot be read, is of no known kind, holds no boundary, does
///         not say its coordinate system (degrees are never assumed), or seems to have its axes
///         swapped (the message offers the swap)
BoundaryFile read_boundaries(const std::string& path, const BoundaryOptions& options = {});

/// The same from bytes; `name` serves findings and names of sites.
BoundaryFile read_boundaries_bytes(std::string_view bytes, const std::string& name,
                                   const BoundaryOptions& options = {},
                                   const Companions& companions = {});

/// Reads lines, such as streams, from the same kinds of file: each segment is a line, outlines of
/// areas count as lines, points are set aside. @throws as read_boundaries
LineFile read_lines(const std::string& path, const BoundaryOptions& options = {});
LineFile read_lines_bytes(std::string_view bytes, const std::string& name,
                          const BoundaryOptions& options = {}, const Companions& companions = {});

}  // namespace wildling::intake
