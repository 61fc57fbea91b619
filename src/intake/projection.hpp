#pragma once
#include <memory>
#include <optional>
#include <string>

#include "ground/shape.hpp"
#include "intake/raw_shape.hpp"

namespace wildling::intake {

/// From one coordinate system to WGS 84 by PROJ, x east and y north in both, without the guess it
/// calls ballpark. Not for use from several threads at once.
class Projection {
 public:
  /// @param crs  "EPSG:32650" or WKT
  /// @throws Error{input} at `where` when PROJ does not know it or knows no way to WGS 84
  Projection(const std::string& crs, const std::string& where);
  ~Projection();
  Projection(Projection&&) noexcept;
  Projection& operator=(Projection&&) noexcept;

  /// Empty when there is no such place.
  [[nodiscard]] std::optional<ground::LonLat> to_wgs84(RawPoint point) const;
  [[nodiscard]] bool degrees() const;
  [[nodiscard]] std::string name() const;
  /// Stated accuracy of the conversion last used, in metres; empty when unknown.
  [[nodiscard]] std::optional<double> accuracy_m() const;
  /// Whether a position lies where the system is meant to be used, 3 degrees around included.
  [[nodiscard]] bool meant_for(ground::LonLat position) const;

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace wildling::intake
