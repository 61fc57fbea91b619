#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <memory>
#include <numbers>

#include <gdal_alg.h>
#include <gdal_utils.h>
#include <ogr_geometry.h>

#include "intake/elevation.hpp"
#include "intake/elevation_grid.hpp"

namespace wildling::intake {
namespace {

constexpr double kRadiusM = 6378137.0;  // of Web Mercator's sphere
constexpr double kRad = std::numbers::pi / 180;
constexpr float kNone = std::numeric_limits<float>::quiet_NaN();

RawPoint mercator_m(ground::LonLat at) {
  return {kRadiusM * at.lon_deg * kRad, kRadiusM * std::asinh(std::tan(at.lat_deg * kRad))};
}

ground::LonLat from_mercator_m(RawPoint at) {
  return {at.x / kRadiusM / kRad, std::atan(std::sinh(at.y / kRadiusM)) / kRad};
}

/// Heights in metres on the model's own grid, NaN = none.
struct Heights {
  GDALDatasetUniquePtr raster;
  double cell_m = 0;
  std::int64_t left_out = 0;
};

struct Window {
  int column = 0, row = 0, columns = 0, rows = 0;
};

GDALDatasetUniquePtr in_memory(int columns, int rows, int bands, GDALDataType type) {
  GDALDriver* driver = GetGDALDriverManager()->GetDriverByName("MEM");
  return GDALDatasetUniquePtr(driver->Create("", columns, rows, bands, type, nullptr));
}

[[noreturn]] void refuse(const ElevationFile& file, const char* key) {
  throw Error(ErrorKind::input, file.name, say(key));
}

OGRSpatialReference system_of(const std::string& text) {
  OGRSpatialReference system;
  system.SetFromUserInput(text.c_str());
  system.SetAxisMappingStrategy(OAMS_TRADITIONAL_GIS_ORDER);
  return system;
}

// Cells that the box needs, one more on each side.
Window window_for(const ElevationFile& file, const GridPlace& grid, const LandBox& box) {
  const OGRSpatialReference wgs84 = system_of("EPSG:4326"), own = system_of(file.crs);
  const std::unique_ptr<OGRCoordinateTransformation> way(
      OGRCreateCoordinateTransformation(&wgs84, &own));
  if (!way) refuse(file, "intake.elevation.no_place");
  double left = 1e300, top = 1e300, right = -1e300, bottom = -1e300;
  constexpr int kSteps = 16;  // the box's sides are curves in the model's system
  for (int i = 0; i <= kSteps; ++i) {
    for (int j = 0; j <= kSteps; ++j) {
      double x = box.west_deg + (box.east_deg - box.west_deg) * i / kSteps;
      double y = box.south_deg + (box.north_deg - box.south_deg) * j / kSteps;
      if (way->Transform(1, &x, &y) == 0) continue;
      const RawPoint cell = grid.cell_of({x, y});
      left = std::min(left, cell.x);
      right = std::max(right, cell.x);
      top = std::min(top, cell.y);
      bottom = std::max(bottom, cell.y);
    }
  }
  const auto inside = [](double value, int most) {
    return static_cast<int>(std::clamp(value, 0.0, static_cast<double>(most)));
  };
  Window window;
  window.column = inside(std::floor(left) - 1, file.columns);
  window.row = inside(std::floor(top) - 1, file.rows);
  window.columns = inside(std::ceil(right) + 1, file.columns) - window.column;
  window.rows = inside(std::ceil(bottom) + 1, file.rows) - window.row;
  if (window.columns < 2 || window.rows < 2) refuse(file, "intake.elevation.elsewhere");
  return window;
}

// No-data becomes NaN, units metres; what cannot be a height is counted and left out.
std::int64_t clean(std::vector<float>& heights, GDALRasterBand& band, const ElevationFile& file,
                   const Parameters& parameters) {
  int has_none = 0;
  const auto none = static_cast<float>(band.GetNoDataValue(&has_none));
  const double scale = band.GetScale() * file.metres_per_unit;
  const double offset = band.GetOffset() * file.metres_per_unit;
  const double lowest = parameters.value("intake.elevation.lowest_m");
  const double highest = parameters.value("intake.elevation.highest_m");
  std::int64_t left_out = 0;
  for (float& height : heights) {
    if (std::isnan(height) || (has_none != 0 && height == none)) {
      height = kNone;
      continue;
    }
    const double metres = static_cast<double>(height) * scale + offset;
    const bool can_be = metres >= lowest && metres <= highest;
    left_out += can_be ? 0 : 1;
    height = can_be ? static_cast<float>(metres) : kNone;
  }
  return left_out;
}

GDALDatasetUniquePtr keep_in_memory(std::vector<float>& heights, int columns, int rows,
                                    std::array<double, 6> place, const ElevationFile& file) {
  GDALDatasetUniquePtr raster = in_memory(columns, rows, 1, GDT_Float32);
  if (!raster) refuse(file, "intake.elevation.no_memory");
  const OGRSpatialReference system = system_of(file.crs);
  raster->SetGeoTransform(place.data());
  raster->SetSpatialRef(&system);
  raster->GetRasterBand(1)->SetNoDataValue(static_cast<double>(kNone));
  if (raster->GetRasterBand(1)->RasterIO(GF_Write, 0, 0, columns, rows, heights.data(), columns,
                                         rows, GDT_Float32, 0, 0, nullptr) != CE_None)
    refuse(file, "intake.elevation.no_memory");
  return raster;
}

// A text grid is read row by row from its first: for a row behind the one where it is cut short,
// GDAL 3.6 tries all rows before it again, each of which does the same.
void check_rows(GDALDataset& raster, const ElevationFile& file, const QuietGdal& quiet) {
  if (std::string_view(raster.GetDriverName()) != "AAIGrid") return;
  float cell = 0;
  for (int row = 0; row < raster.GetRasterYSize(); ++row) {
    if (raster.GetRasterBand(1)->RasterIO(GF_Read, 0, row, 1, 1, &cell, 1, 1, GDT_Float32, 0, 0,
                                          nullptr) != CE_None)
      throw Error(ErrorKind::input, file.name,
                  say("intake.elevation.unreadable", {{"reason", quiet.last()}}));
  }
}

Heights read_heights(const ElevationFile& file, const LandBox& box, double most_cells,
                     const Parameters& parameters) {
  const QuietGdal quiet;
  const OpenRaster raster(*file.content, file.placed_by);
  const auto grid = raster ? GridPlace::of(*raster) : std::nullopt;
  if (!grid) refuse(file, "intake.elevation.no_place");
  const Window window = window_for(file, *grid, box);
  const double cells = static_cast<double>(window.columns) * window.rows;
  const double coarser = std::max(1.0, std::sqrt(cells / most_cells));
  const int columns = std::max(2, static_cast<int>(window.columns / coarser));
  const int rows = std::max(2, static_cast<int>(window.rows / coarser));
  std::vector<float> heights(static_cast<std::size_t>(columns) * static_cast<std::size_t>(rows));
  GDALRasterIOExtraArg how;
  INIT_RASTERIO_EXTRA_ARG(how);
  how.eResampleAlg = coarser > 1 ? GRIORA_Average : GRIORA_NearestNeighbour;
  GDALRasterBand& band = *raster->GetRasterBand(1);
  check_rows(*raster, file, quiet);
  if (band.RasterIO(GF_Read, window.column, window.row, window.columns, window.rows, heights.data(),
                    columns, rows, GDT_Float32, 0, 0, &how) != CE_None)
    throw Error(ErrorKind::input, file.name,
                say("intake.elevation.unreadable", {{"reason", quiet.last()}}));
  Heights read;
  read.left_out = clean(heights, band, file, parameters);
  const RawPoint corner = grid->at(window.column, window.row);
  const auto& n = grid->numbers;
  const double wide = static_cast<double>(window.columns) / columns;
  const double high = static_cast<double>(window.rows) / rows;
  read.cell_m = file.cell_m * std::sqrt(wide * high);
  read.raster = keep_in_memory(
      heights, columns, rows,
      {corner.x, n[1] * wide, n[2] * high, corner.y, n[4] * wide, n[5] * high}, file);
  return read;
}

/// The picture's frame in Web Mercator.
struct Frame {
  double west = 0, south = 0, east = 0, north = 0;  // metres of Web Mercator
  int columns = 0, rows = 0;
  double shrink = 1;  // true metres per metre of Web Mercator
};

Frame frame_of(const LandBox& box, double cell_m, double most_pixels) {
  const RawPoint low = mercator_m({box.west_deg, box.south_deg});
  const RawPoint high = mercator_m({box.east_deg, box.north_deg});
  Frame frame{low.x, low.y, high.x, high.y, 0, 0, 1};
  frame.shrink = std::cos((box.south_deg + box.north_deg) / 2 * kRad);
  const double wide = (high.x - low.x) * frame.shrink / cell_m;
  const double tall = (high.y - low.y) * frame.shrink / cell_m;
  const double coarser = std::max(1.0, std::sqrt(wide * tall / most_pixels));
  frame.columns = std::max(4, static_cast<int>(std::lround(wide / coarser)));
  frame.rows = std::max(4, static_cast<int>(std::lround(tall / coarser)));
  return frame;
}

class Arguments {
 public:
  Arguments(std::initializer_list<std::string> words) : words_(words) {
    for (std::string& word : words_) list_.push_back(word.data());
    list_.push_back(nullptr);
  }

  char** list() { return list_.data(); }

 private:
  std::vector<std::string> words_;
  std::vector<char*> list_;
};

GDALDatasetUniquePtr warped(GDALDataset& heights, const Frame& frame) {
  Arguments words{"-of",
                  "MEM",
                  "-t_srs",
                  "EPSG:3857",
                  "-r",
                  "bilinear",
                  "-dstnodata",
                  "nan",
                  "-ts",
                  std::to_string(frame.columns),
                  std::to_string(frame.rows),
                  "-te",
                  std::to_string(frame.west),
                  std::to_string(frame.south),
                  std::to_string(frame.east),
                  std::to_string(frame.north)};
  GDALWarpAppOptions* options = GDALWarpAppOptionsNew(words.list(), nullptr);
  GDALDatasetH source = GDALDataset::ToHandle(&heights);
  GDALDatasetH made = GDALWarp("", nullptr, 1, &source, options, nullptr);
  GDALWarpAppOptionsFree(options);
  return GDALDatasetUniquePtr(GDALDataset::FromHandle(made));
}

GDALDatasetUniquePtr shaded(GDALDataset& heights, const Frame& frame) {
  Arguments words{
      "-of", "MEM", "-multidirectional", "-compute_edges", "-z", std::to_string(1 / frame.shrink)};
  GDALDEMProcessingOptions* options = GDALDEMProcessingOptionsNew(words.list(), nullptr);
  GDALDatasetH made = GDALDEMProcessing("", GDALDataset::ToHandle(&heights), "hillshade", nullptr,
                                        options, nullptr);
  GDALDEMProcessingOptionsFree(options);
  return GDALDatasetUniquePtr(GDALDataset::FromHandle(made));
}

template <typename Number>
std::vector<Number> values_of(GDALDataset& raster, GDALDataType type) {
  const int columns = raster.GetRasterXSize(), rows = raster.GetRasterYSize();
  std::vector<Number> values(static_cast<std::size_t>(columns) * static_cast<std::size_t>(rows));
  if (raster.GetRasterBand(1)->RasterIO(GF_Read, 0, 0, columns, rows, values.data(), columns, rows,
                                        type, 0, 0, nullptr) != CE_None)
    values.assign(values.size(), Number{});
  return values;
}

std::unique_ptr<OGRGeometry> outline(const ground::Shape& shape) {
  auto all = std::make_unique<OGRMultiPolygon>();
  const auto ring_of = [](const ground::Ring& ring) {
    auto made = std::make_unique<OGRLinearRing>();
    for (const ground::LonLat& at : ring) made->addPoint(mercator_m(at).x, mercator_m(at).y);
    made->closeRings();
    return made;
  };
  for (const ground::Polygon& part : shape.parts) {
    auto polygon = std::make_unique<OGRPolygon>();
    polygon->addRingDirectly(ring_of(part.outer).release());
    for (const ground::Ring& hole : part.holes) polygon->addRingDirectly(ring_of(hole).release());
    all->addGeometryDirectly(polygon.release());
  }
  return all;
}

/// 1 where a pixel touches a site.
std::vector<std::uint8_t> site_pixels(const std::vector<ground::Shape>& sites, const Frame& frame) {
  GDALDatasetUniquePtr mask = in_memory(frame.columns, frame.rows, 1, GDT_Byte);
  std::array<double, 6> place = {frame.west, (frame.east - frame.west) / frame.columns,
                                 0,          frame.north,
                                 0,          -(frame.north - frame.south) / frame.rows};
  mask->SetGeoTransform(place.data());
  std::vector<std::unique_ptr<OGRGeometry>> shapes;
  std::vector<OGRGeometryH> handles;
  for (const ground::Shape& site : sites) {
    shapes.push_back(outline(site));
    handles.push_back(OGRGeometry::ToHandle(shapes.back().get()));
  }
  const std::vector<double> ones(handles.size(), 1.0);
  int band = 1;
  Arguments options{"ALL_TOUCHED=TRUE"};
  GDALRasterizeGeometries(GDALDataset::ToHandle(mask.get()), 1, &band,
                          static_cast<int>(handles.size()), handles.data(), nullptr, nullptr,
                          ones.data(), options.list(), nullptr, nullptr);
  return values_of<std::uint8_t>(*mask, GDT_Byte);
}

// Grey and transparency, the latter where there is no height.
std::string png_of(GDALDataset& shade, const std::vector<float>& heights,
                   const ElevationFile& file) {
  const int columns = shade.GetRasterXSize(), rows = shade.GetRasterYSize();
  std::vector<std::uint8_t> grey = values_of<std::uint8_t>(shade, GDT_Byte);
  std::vector<std::uint8_t> solid(grey.size());
  for (std::size_t i = 0; i < solid.size(); ++i) solid[i] = std::isnan(heights[i]) ? 0 : 255;
  GDALDatasetUniquePtr picture = in_memory(columns, rows, 2, GDT_Byte);
  picture->GetRasterBand(2)->SetColorInterpretation(GCI_AlphaBand);
  int number = 1;
  for (std::vector<std::uint8_t>* band : {&grey, &solid}) {
    if (picture->GetRasterBand(number++)->RasterIO(GF_Write, 0, 0, columns, rows, band->data(),
                                                   columns, rows, GDT_Byte, 0, 0,
                                                   nullptr) != CE_None)
      refuse(file, "intake.elevation.no_memory");
  }
  const GdalMemory folder;
  GDALDriver* driver = GetGDALDriverManager()->GetDriverByName("PNG");
  Arguments options{"ZLEVEL=9"};
  GDALDatasetUniquePtr written(driver->CreateCopy(folder.path("out.png").c_str(), picture.get(),
                                                  FALSE, options.list(), nullptr, nullptr));
  written.reset();  // closes the file
  std::string png = folder.take("out.png");
  if (png.empty()) refuse(file, "intake.elevation.no_memory");
  return png;
}

void judge(const std::vector<float>& heights, const std::vector<std::uint8_t>& on_site,
           const ElevationFile& file, Hillshade& result) {
  double wanted = 0, there = 0;
  result.lowest_m = std::numeric_limits<double>::infinity();
  result.highest_m = -result.lowest_m;
  for (std::size_t i = 0; i < heights.size(); ++i) {
    const bool known = !std::isnan(heights[i]);
    wanted += on_site[i] == 0 ? 0 : 1;
    there += on_site[i] != 0 && known ? 1 : 0;
    if (!known) continue;
    result.lowest_m = std::min(result.lowest_m, static_cast<double>(heights[i]));
    result.highest_m = std::max(result.highest_m, static_cast<double>(heights[i]));
  }
  if (there == 0) refuse(file, "intake.elevation.elsewhere");
  result.covered_share = there / wanted;
}

void tell(const ElevationFile& file, std::int64_t left_out, Hillshade& result) {
  if (result.covered_share < 1)
    result.findings.push_back(
        {Severity::note, file.name,
         say("intake.elevation.partly", {{"percent", std::floor(100 * result.covered_share)}})});
  if (left_out > 0)
    result.findings.push_back(
        {Severity::set_aside, file.name, say("intake.elevation.no_height", {{"cells", left_out}})});
  if (result.cell_m > 1.2 * file.cell_m)
    result.findings.push_back(
        {Severity::changed, file.name,
         say("intake.elevation.coarser", {{"cell", file.cell_m}, {"pixel", result.cell_m}})});
}

}  // namespace

LandBox land_box(const std::vector<ground::Shape>& shapes, double margin_m) {
  LandBox box{180, 90, -180, -90};
  for (const ground::Shape& shape : shapes) {
    for (const ground::Polygon& part : shape.parts) {
      for (const ground::LonLat& at : part.outer) {
        box.west_deg = std::min(box.west_deg, at.lon_deg);
        box.east_deg = std::max(box.east_deg, at.lon_deg);
        box.south_deg = std::min(box.south_deg, at.lat_deg);
        box.north_deg = std::max(box.north_deg, at.lat_deg);
      }
    }
  }
  if (box.west_deg > box.east_deg)
    throw Error(ErrorKind::usage, "", say("intake.elevation.no_site"));
  const double up = margin_m / (kRadiusM * kRad);
  const double aside = up / std::max(0.01, std::cos((box.south_deg + box.north_deg) / 2 * kRad));
  return {box.west_deg - aside, std::max(-85.0, box.south_deg - up), box.east_deg + aside,
          std::min(85.0, box.north_deg + up)};
}

Hillshade hillshade(const ElevationFile& file, const std::vector<ground::Shape>& sites,
                    const Parameters& parameters) {
  const double most = parameters.value("intake.elevation.most_pixels");
  const LandBox box = land_box(sites, parameters.value("intake.elevation.margin_m"));
  const Heights read = read_heights(file, box, most, parameters);
  const QuietGdal quiet;
  const Frame frame = frame_of(box, read.cell_m, most);
  const GDALDatasetUniquePtr flat = warped(*read.raster, frame);
  const GDALDatasetUniquePtr shade = flat ? shaded(*flat, frame) : nullptr;
  if (!shade)
    throw Error(ErrorKind::input, file.name,
                say("intake.elevation.unreadable", {{"reason", quiet.last()}}));
  const std::vector<float> heights = values_of<float>(*flat, GDT_Float32);
  Hillshade result;
  judge(heights, site_pixels(sites, frame), file, result);
  const ground::LonLat low = from_mercator_m({frame.west, frame.south});
  const ground::LonLat high = from_mercator_m({frame.east, frame.north});
  result.box = {low.lon_deg, low.lat_deg, high.lon_deg, high.lat_deg};
  result.columns = frame.columns;
  result.rows = frame.rows;
  result.cell_m = (frame.east - frame.west) / frame.columns * frame.shrink;
  result.png = png_of(*shade, heights, file);
  tell(file, read.left_out, result);
  return result;
}

}  // namespace wildling::intake
