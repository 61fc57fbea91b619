#include "intake/elevation.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <filesystem>

#include <gdal_priv.h>

#include "base/files.hpp"
#include "base/hash.hpp"
#include "intake/elevation_grid.hpp"
#include "intake/gdal_memory.hpp"
#include "intake/projection.hpp"
#include "intake/vector_file.hpp"

namespace wildling::intake {
namespace {

constexpr double kMostCells = 4e8;
constexpr double kFootM = 0.3048;                 // international foot, exact
constexpr double kSurveyFootM = 1200.0 / 3937.0;  // US survey foot, exact

void check_bands(GDALDataset& raster, const std::string& name, Findings& findings) {
  if (raster.GetRasterCount() < 1)
    throw Error(ErrorKind::input, name, say("intake.elevation.no_heights"));
  GDALRasterBand& band = *raster.GetRasterBand(1);
  const GDALColorInterp means = band.GetColorInterpretation();
  const bool bytes = band.GetRasterDataType() == GDT_Byte;
  if (means == GCI_PaletteIndex || means == GCI_RedBand || (bytes && raster.GetRasterCount() >= 3))
    throw Error(ErrorKind::input, name, say("intake.elevation.picture"));
  if (GDALDataTypeIsComplex(band.GetRasterDataType()) != 0)
    throw Error(ErrorKind::input, name, say("intake.elevation.no_heights"));
  if (raster.GetRasterCount() > 1)
    findings.push_back(
        {Severity::note, name,
         say("intake.elevation.first_band", {{"bands", std::int64_t{raster.GetRasterCount()}}})});
  const double cells = static_cast<double>(raster.GetRasterXSize()) * raster.GetRasterYSize();
  if (cells > kMostCells)
    throw Error(ErrorKind::input, name,
                say("intake.elevation.too_many_cells", {{"cells", cells}, {"most", kMostCells}}));
}

std::string lower_case(std::string text) {
  for (char& c : text) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return text;
}

void settle_unit(GDALRasterBand& band, ElevationFile& file) {
  const char* said = band.GetUnitType();
  file.height_unit = said == nullptr ? "" : as_utf8(said);
  const std::string unit = lower_case(file.height_unit);
  const auto any_of = [&unit](std::initializer_list<const char*> names) {
    return std::any_of(names.begin(), names.end(), [&](const char* n) { return unit == n; });
  };
  if (any_of({"m", "metre", "meter", "metres", "meters"})) return;
  if (any_of({"ft", "foot", "feet", "international foot"})) {
    file.metres_per_unit = kFootM;
  } else if (any_of({"us survey foot", "us survey feet", "ftus", "us-ft", "sft"})) {
    file.metres_per_unit = kSurveyFootM;
  }
  const char* key = file.metres_per_unit != 1 ? "intake.elevation.feet"
                    : unit.empty()            ? "intake.elevation.no_unit"
                                              : "intake.elevation.unknown_unit";
  file.findings.push_back({file.metres_per_unit != 1 ? Severity::changed : Severity::note,
                           file.name, say(key, {{"unit", file.height_unit}})});
}

// The horizontal system: heights have their own unit.
std::string own_crs(GDALDataset& raster, std::string& crs_name) {
  const OGRSpatialReference* said = raster.GetSpatialRef();
  if (said == nullptr || said->IsEmpty() || said->IsLocal() != 0) return {};
  OGRSpatialReference flat(*said);
  flat.StripVertical();
  char* wkt = nullptr;
  const std::array<const char*, 2> options = {"FORMAT=WKT2_2019", nullptr};
  std::string text;
  if (flat.exportToWkt(&wkt, options.data()) == OGRERR_NONE && wkt != nullptr) text = wkt;
  CPLFree(wkt);
  crs_name = flat.GetName() == nullptr ? "" : as_utf8(flat.GetName());
  return text;
}

void settle_crs(GDALDataset& raster, const ElevationOptions& options, RawPoint corner,
                ElevationFile& file) {
  std::string said_name;
  const std::string said = own_crs(raster, said_name);
  if (options.crs && !options.crs->empty()) {
    file.crs = *options.crs;
    if (!said.empty() && said_name != *options.crs)
      file.findings.push_back(
          {Severity::note, file.name,
           say("intake.crs_overruled", {{"file", said_name}, {"told", *options.crs}})});
  } else if (!said.empty()) {
    file.crs = said;
  } else {
    throw Error(ErrorKind::input, file.name,
                say("intake.crs_missing", {{"x", corner.x}, {"y", corner.y}}));
  }
}

// The numbers of the corners must be such as the system has.
void check_corner(const Projection& way, RawPoint corner, ElevationFile& file) {
  const bool like_degrees = std::abs(corner.x) <= 180 && std::abs(corner.y) <= 90;
  std::map<std::string, Argument> at = {{"x", corner.x}, {"y", corner.y}};
  if (way.degrees()) {
    if (std::abs(corner.x) > 360 || std::abs(corner.y) > 90 + 1e-6)
      throw Error(ErrorKind::input, file.name, say("intake.metres_not_degrees", at));
    return;
  }
  at["crs"] = way.name();
  if (like_degrees) throw Error(ErrorKind::input, file.name, say("intake.degrees_not_metres", at));
  const auto placed = way.to_wgs84(corner);
  if (!placed) throw Error(ErrorKind::input, file.name, say("intake.no_place_in_crs", at));
  if (!way.meant_for(*placed))
    file.findings.push_back({Severity::note, file.name, say("intake.outside_crs_area", at)});
}

double cell_side_m(const Projection& way, const GridPlace& grid, int columns, int rows,
                   const std::string& name) {
  const double x = columns / 2.0, y = rows / 2.0;
  const auto middle = way.to_wgs84(grid.at(x, y));
  const auto right = way.to_wgs84(grid.at(x + 1, y));
  const auto below = way.to_wgs84(grid.at(x, y + 1));
  if (!middle || !right || !below)
    throw Error(ErrorKind::input, name, say("intake.elevation.no_place"));
  const double side =
      std::sqrt(ground::length_m({{*middle, *right}}) * ground::length_m({{*middle, *below}}));
  if (!(side > 0) || !std::isfinite(side))
    throw Error(ErrorKind::input, name, say("intake.elevation.no_place"));
  return side;
}

}  // namespace

ElevationFile read_elevation_bytes(std::string_view bytes, const std::string& name,
                                   const ElevationOptions& options, const std::string& prj) {
  if (bytes.empty()) throw Error(ErrorKind::input, name, say("intake.elevation.empty"));
  ElevationFile file;
  file.name = name;
  file.sha256 = sha256_hex(bytes);
  file.bytes = bytes.size();
  file.content = std::make_shared<const std::string>(bytes);
  file.placed_by = prj;
  const QuietGdal quiet;
  const OpenRaster raster(*file.content, prj);
  if (!raster)
    throw Error(ErrorKind::input, name,
                say("intake.elevation.unreadable", {{"reason", as_utf8(quiet.last())}}));
  check_bands(*raster, name, file.findings);
  const auto grid = GridPlace::of(*raster);
  if (!grid) throw Error(ErrorKind::input, name, say("intake.elevation.no_place"));
  file.columns = raster->GetRasterXSize();
  file.rows = raster->GetRasterYSize();
  const RawPoint corner = grid->at(0, 0);
  settle_crs(*raster, options, corner, file);
  const Projection way(file.crs, name);
  file.crs_name = way.name();
  check_corner(way, corner, file);
  file.cell_m = cell_side_m(way, *grid, file.columns, file.rows, name);
  settle_unit(*raster->GetRasterBand(1), file);
  return file;
}

ElevationFile read_elevation(const std::string& path, const ElevationOptions& options) {
  const std::filesystem::path place(path);
  std::string prj;
  for (const char* ending : {".prj", ".PRJ"}) {
    std::filesystem::path beside = place;
    beside.replace_extension(ending);
    std::error_code ignored;
    if (prj.empty() && beside != place && std::filesystem::is_regular_file(beside, ignored))
      prj = read_file(beside.string(), 1U << 20U);
  }
  return read_elevation_bytes(read_file(path), place.filename().string(), options, prj);
}

}  // namespace wildling::intake
