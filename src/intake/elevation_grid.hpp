#pragma once
/// An elevation model while it is open. Needs GDAL's headers: include in .cpp files only.
#include <array>
#include <optional>
#include <string>
#include <string_view>

#include <gdal_priv.h>

#include "intake/gdal_memory.hpp"
#include "intake/raw_shape.hpp"

namespace wildling::intake {

/// A raster opened from bytes in memory, by the drivers an elevation model may use.
class OpenRaster {
 public:
  /// @param prj  text of the projection file beside an ASCII grid; may be empty
  OpenRaster(const std::string& bytes, const std::string& prj);

  explicit operator bool() const { return raster_ != nullptr; }

  GDALDataset& operator*() const { return *raster_; }

  GDALDataset* operator->() const { return raster_.get(); }

 private:
  GdalMemory folder_;
  GDALDatasetUniquePtr raster_;
};

/// Where the cells of a raster lie in its own coordinates: GDAL's six numbers.
struct GridPlace {
  std::array<double, 6> numbers = {};

  /// Empty when the raster does not say it.
  static std::optional<GridPlace> of(GDALDataset& raster);
  /// Position of (column, row), 0, 0 = the upper left corner of the first cell.
  [[nodiscard]] RawPoint at(double column, double row) const;
  /// The reverse.
  [[nodiscard]] RawPoint cell_of(RawPoint position) const;
};

}  // namespace wildling::intake
