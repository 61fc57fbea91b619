#pragma once
#include <string>
#include <string_view>

#include "intake/boundaries.hpp"
#include "intake/raw_shape.hpp"

namespace wildling::intake {

enum class VectorKind { geojson, gpx, kml, shapefile, geopackage, zip, table, unknown };

/// By the first bytes; text that is none of the others is a table.
VectorKind vector_kind(std::string_view bytes);

/// Features through GDAL, which sees nothing but these bytes and may use one driver only.
/// @throws Error{input} if GDAL cannot read them
RawFile read_vector(std::string_view bytes, VectorKind kind, const std::string& name,
                    const Companions& companions);

/// Valid UTF-8 as it is, anything else read as Windows-1252.
std::string as_utf8(std::string_view text);

}  // namespace wildling::intake
