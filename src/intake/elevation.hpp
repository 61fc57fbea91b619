#pragma once
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/error.hpp"
#include "base/parameters.hpp"
#include "ground/shape.hpp"

namespace wildling::intake {

/// An elevation model whose place, unit and grid are settled. The heights themselves stay packed
/// until a picture is made of them.
struct ElevationFile {
  std::string name = {};      ///< without folder
  std::string crs = {};       ///< WKT, or what the user said
  std::string crs_name = {};  ///< for people
  int columns = 0, rows = 0;
  double cell_m = 0;             ///< side of a cell at the model's middle, metres
  double metres_per_unit = 1;    ///< of the heights
  std::string height_unit = {};  ///< as the file says it; empty = it does not
  Findings findings = {};
  std::string sha256 = {};
  std::size_t bytes = 0;
  std::shared_ptr<const std::string> content = {};
  std::string placed_by = {};  ///< text of the .prj beside it, if any
};

/// What the user says about a file that does not say it.
struct ElevationOptions {
  std::optional<std::string> crs = {};  ///< "EPSG:32650"; overrules what the file says
};

/// Reads an elevation model: GeoTIFF, Arc/Info ASCII grid (with the .prj beside it), USGS DEM or
/// DTED; which, its content says, not its name. GDAL sees a copy in memory and may use no other
/// driver. Band 1 holds the heights; a picture in colours is refused. Heights in feet are turned
/// into metres when the file names the unit; when it names none they are taken as metres, which is
/// told.
/// @param path  of a file
/// @throws Error{input} when the file cannot be read, is no elevation model, does not say where it
///         lies or in which coordinate system, or has more than 400 million cells
ElevationFile read_elevation(const std::string& path, const ElevationOptions& options = {});

/// The same from bytes; `name` serves findings.
ElevationFile read_elevation_bytes(std::string_view bytes, const std::string& name,
                                   const ElevationOptions& options = {},
                                   const std::string& prj = {});

/// West, south, east, north in degrees (WGS 84).
struct LandBox {
  double west_deg = 0, south_deg = 0, east_deg = 0, north_deg = 0;
};

/// Around all shapes, `margin_m` wider on each side. @throws Error{usage} when there is no shape
LandBox land_box(const std::vector<ground::Shape>& shapes, double margin_m);

/// Light and shade of a piece of land.
struct Hillshade {
  std::string png = {};  ///< grey and transparency; rows and columns in Web Mercator
  LandBox box = {};      ///< of the picture's outer edges
  int columns = 0, rows = 0;
  double cell_m = 0;                   ///< side of a pixel on the ground, metres
  double covered_share = 0;            ///< of the sites' area that has heights, 0 to 1
  double lowest_m = 0, highest_m = 0;  ///< within the picture
  Findings findings = {};
};

/// Draws the hillshade of the sites' surroundings: light from all four western and northern
/// directions at once (GDAL's multidirectional shading after Mark 1992, USGS Open-File Report
/// 92-422), so that no slope hides in its own shade. Not finer than the model's cells, not larger
/// than the parameter intake.elevation.most_pixels; then the heights are averaged first. Heights
/// outside intake.elevation.lowest_m to highest_m are left out and counted.
/// @param sites  what must be covered
/// @throws Error{input} when the model has no height on any site
Hillshade hillshade(const ElevationFile& file, const std::vector<ground::Shape>& sites,
                    const Parameters& parameters = Parameters::shipped());

}  // namespace wildling::intake
