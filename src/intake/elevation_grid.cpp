#include "intake/elevation_grid.hpp"

#include <algorithm>
#include <cmath>
#include <mutex>

#include <gdal_frmts.h>

namespace wildling::intake {
namespace {

void register_drivers() {
  static std::once_flag once;
  std::call_once(once, [] {
    GDALRegister_GTiff();
    GDALRegister_AAIGrid();
    GDALRegister_USGSDEM();
    GDALRegister_DTED();
    GDALRegister_MEM();
    GDALRegister_PNG();
  });
}

}  // namespace

OpenRaster::OpenRaster(const std::string& bytes, const std::string& prj) {
  register_drivers();
  const std::string path = folder_.put("in.asc", bytes);
  if (!prj.empty()) folder_.put("in.prj", prj);
  const std::array<const char*, 5> drivers = {"GTiff", "AAIGrid", "USGSDEM", "DTED", nullptr};
  raster_.reset(GDALDataset::Open(path.c_str(), GDAL_OF_RASTER | GDAL_OF_READONLY, drivers.data()));
}

std::optional<GridPlace> GridPlace::of(GDALDataset& raster) {
  GridPlace place;
  if (raster.GetGeoTransform(place.numbers.data()) != CE_None) return {};
  const auto& n = place.numbers;
  const bool finite =
      std::all_of(n.begin(), n.end(), [](double value) { return std::isfinite(value); });
  if (!finite || n[1] * n[5] - n[2] * n[4] == 0) return {};
  return place;
}

RawPoint GridPlace::at(double column, double row) const {
  return {numbers[0] + column * numbers[1] + row * numbers[2],
          numbers[3] + column * numbers[4] + row * numbers[5]};
}

RawPoint GridPlace::cell_of(RawPoint position) const {
  const double x = position.x - numbers[0], y = position.y - numbers[3];
  const double size = numbers[1] * numbers[5] - numbers[2] * numbers[4];
  return {(x * numbers[5] - y * numbers[2]) / size, (y * numbers[1] - x * numbers[4]) / size};
}

}  // namespace wildling::intake
