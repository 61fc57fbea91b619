#pragma once
#include <array>
#include <optional>
#include <span>
#include <string>
#include <variant>
#include <vector>

#include "store/value.hpp"

namespace wildling::store {

/// A place on WGS 84, degrees: longitude in [-180, 180], latitude in [-90, 90].
struct Position {
  double lon_deg = 0;
  double lat_deg = 0;
  bool operator==(const Position&) const = default;
};

struct LineString {
  std::vector<Position> points = {};  ///< none, or two and more
  bool operator==(const LineString&) const = default;
};

/// Open: the first point is not repeated at the end. At least 3 points. Direction is kept as given.
using Ring = std::vector<Position>;

/// rings[0] is the outline, the others are holes.
struct PolygonPart {
  std::vector<Ring> rings = {};
  bool operator==(const PolygonPart&) const = default;
};

struct MultiPolygon {
  std::vector<PolygonPart> parts = {};
  bool operator==(const MultiPolygon&) const = default;
};

using Geometry = std::variant<Position, LineString, MultiPolygon>;

struct Envelope {
  double min_lon_deg = 0, max_lon_deg = 0, min_lat_deg = 0, max_lat_deg = 0;
  bool operator==(const Envelope&) const = default;
};

/// OGC GeoPackage 1.3, clause 2.1.3: "GP" header with envelope (none for a point), then
/// little-endian WKB, SRS 4326.
/// @throws Error{input} when a coordinate is outside its range or NaN, or a ring or line has too
/// few points
Blob encode(const Geometry& geometry);

/// encode() of a point into a buffer that is reused; for millions of points.
void encode_point(Position at, Blob& into);

/// Reads what encode() writes and what other programs write: either byte order, any envelope,
/// Polygon as one part; Z and M are dropped. Never reads beyond the blob.
/// @throws Error{input} for anything else, another SRS than 4326, an empty point, or coordinates
/// out of range
Geometry decode(std::span<const std::uint8_t> blob);

/// Of the header if it has one, else of the coordinates; empty when the geometry is empty or the
/// blob is no geometry. Never throws: the database calls it for every row it changes.
std::optional<Envelope> envelope_of(std::span<const std::uint8_t> blob) noexcept;

}  // namespace wildling::store
