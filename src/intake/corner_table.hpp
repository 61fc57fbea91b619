#pragma once
#include <string>
#include <string_view>

#include "intake/raw_shape.hpp"

namespace wildling::intake {

/// A table of corners: header row; a column of northings (northing, utara, y, latitude, lintang)
/// and one of eastings (easting, timur, x, longitude, bujur), in any order and with anything
/// behind those words, such as "Northing (UTM 47N)", which names the system, as does "EPSG:32647".
/// Latitude and longitude mean WGS 84. Sites are told apart by a column name, site or nama.
/// @throws Error{input} when there are no such columns
RawFile read_corner_table(std::string_view bytes, const std::string& name);

}  // namespace wildling::intake
