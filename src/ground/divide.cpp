// Notation: u = distance along the longer axis, c = where the line crosses it, k = pieces wanted.
#include "ground/divide.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <utility>

#include "base/error.hpp"
#include "ground/planar.hpp"

namespace wildling::ground {
namespace {

constexpr double kM2PerHa = 10000;
constexpr double kMostPieces = 10000;

double along(Xy p, Xy axis) {
  return p.x_m * axis.x_m + p.y_m * axis.y_m;
}

// Signed twice-area of the part of a ring with u <= c (Sutherland and Hodgman 1974; the edges that
// run back along the line enclose nothing).
double ring_area_below(const std::vector<Xy>& ring, Xy axis, double c) {
  std::vector<Xy> kept;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Xy p = ring[i];
    const Xy q = ring[(i + 1) % ring.size()];
    const double u = along(p, axis);
    const double v = along(q, axis);
    if (u <= c) kept.push_back(p);
    if ((u <= c) != (v <= c)) {
      const double t = (c - u) / (v - u);
      kept.push_back({p.x_m + t * (q.x_m - p.x_m), p.y_m + t * (q.y_m - p.y_m)});
    }
  }
  return kept.size() < 3 ? 0 : area_m2(XyShape{XyPolygon{kept, {}}});
}

double area_below(const XyPolygon& part, Xy axis, double c) {
  double area = ring_area_below(part.outer, axis, c);
  for (const std::vector<Xy>& hole : part.holes) area -= ring_area_below(hole, axis, c);
  return area;
}

struct Span {
  double low = std::numeric_limits<double>::infinity();
  double high = -std::numeric_limits<double>::infinity();
};

Span span_along(const XyPolygon& part, Xy axis) {
  Span span;
  for (const Xy p : part.outer) {
    span.low = std::min(span.low, along(p, axis));
    span.high = std::max(span.high, along(p, axis));
  }
  return span;
}

double cut_at(const XyPolygon& part, Xy axis, double wanted_m2) {
  Span span = span_along(part, axis);
  for (int i = 0; i < 60; ++i) {
    const double c = (span.low + span.high) / 2;
    (area_below(part, axis, c) < wanted_m2 ? span.low : span.high) = c;
  }
  return (span.low + span.high) / 2;
}

// A box that holds everything of the part with from <= u <= to.
XyPolygon band(const XyPolygon& part, Xy axis, double from, double to) {
  const Xy across{-axis.y_m, axis.x_m};
  const Span span = span_along(part, across);
  const auto corner = [&](double u, double v) {
    return Xy{u * axis.x_m + v * across.x_m, u * axis.y_m + v * across.y_m};
  };
  const double low = span.low - 10;
  const double high = span.high + 10;
  return XyPolygon{{corner(from, low), corner(to, low), corner(to, high), corner(from, high)}, {}};
}

void cut(const planar::Context& context, const XyPolygon& part, double max_m2, XyShape& pieces) {
  const double area = area_m2({part});
  const double k = std::ceil(area / max_m2 * (1 - 1e-9));
  if (k <= 1) {
    pieces.push_back(part);
    return;
  }
  const Xy axis = planar::longer_axis(context, part);
  const double c = cut_at(part, axis, area * std::floor(k / 2) / k);
  const Span span = span_along(part, axis);
  const XyShape first = planar::common(context, part, band(part, axis, span.low - 10, c));
  const XyShape second = planar::common(context, part, band(part, axis, c, span.high + 10));
  if (first.empty() || second.empty()) {
    throw Error(ErrorKind::input, "", say("ground.shape_not_valid"));
  }
  for (const XyPolygon& piece : first) cut(context, piece, max_m2, pieces);
  for (const XyPolygon& piece : second) cut(context, piece, max_m2, pieces);
}

std::size_t best_neighbour(const planar::Context& context, const std::vector<XyShape>& pieces,
                           std::size_t sliver) {
  std::size_t best = sliver;
  double edge = 0;
  double distance = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    if (i == sliver) continue;
    const double d = planar::distance_m(context, pieces[sliver], pieces[i]);
    const double shared = d < 1e-6 ? planar::shared_edge_m(context, pieces[sliver], pieces[i]) : 0;
    if (shared > edge || (shared == edge && d < distance)) {
      best = i;
      edge = shared;
      distance = d;
    }
  }
  return best;
}

void join_slivers(const planar::Context& context, double below_m2, std::vector<XyShape>& pieces) {
  while (pieces.size() > 1) {
    std::size_t least = 0;
    for (std::size_t i = 1; i < pieces.size(); ++i) {
      if (area_m2(pieces[i]) < area_m2(pieces[least])) least = i;
    }
    if (area_m2(pieces[least]) >= below_m2) return;
    const std::size_t into = best_neighbour(context, pieces, least);
    pieces[into] = planar::together(context, pieces[into], pieces[least]);
    pieces.erase(pieces.begin() + static_cast<std::ptrdiff_t>(least));
  }
}

using Known = std::map<std::pair<double, double>, LonLat>;

void remember(const Ring& ring, const Frame& frame, Known& known) {
  for (const LonLat p : ring) {
    const Xy at = frame.to_xy(p);
    known.emplace(std::pair{at.x_m, at.y_m}, p);
  }
}

// As to_lonlat, but a vertex that came from the site gets its own position back.
Ring on_the_globe(const std::vector<Xy>& ring, const Frame& frame, const Known& known) {
  Ring result;
  for (const Xy p : ring) {
    const auto found = known.find({p.x_m, p.y_m});
    result.push_back(found == known.end() ? frame.to_lonlat(p) : found->second);
  }
  return result;
}

Shape on_the_globe(const XyShape& piece, const Frame& frame, const Known& known) {
  Shape shape;
  for (const XyPolygon& part : piece) {
    Polygon polygon{on_the_globe(part.outer, frame, known), {}};
    for (const std::vector<Xy>& hole : part.holes) {
      polygon.holes.push_back(on_the_globe(hole, frame, known));
    }
    shape.parts.push_back(std::move(polygon));
  }
  return normalised(shape);
}

void check(double max_area_ha, double slivers_below_ha, double area) {
  if (!(max_area_ha > 0)) {
    throw Error(ErrorKind::usage, "",
                say("ground.block_size_not_positive", {{"value", max_area_ha}}));
  }
  if (!(slivers_below_ha >= 0)) {
    throw Error(ErrorKind::usage, "", say("ground.error_negative", {{"value", slivers_below_ha}}));
  }
  if (area / kM2PerHa / max_area_ha > kMostPieces) {
    throw Error(ErrorKind::usage, "",
                say("ground.too_many_blocks",
                    {{"area", area / kM2PerHa}, {"value", max_area_ha}, {"most", kMostPieces}}));
  }
}

}  // namespace

std::vector<Shape> divide(const Shape& shape, double max_area_ha, double slivers_below_ha) {
  const Shape clean = normalised(shape);
  if (clean.parts.empty()) throw Error(ErrorKind::input, "", say("ground.no_vertex"));
  const Frame frame(middle(clean));
  const XyShape plane = to_xy(clean, frame);
  check(max_area_ha, slivers_below_ha, area_m2(plane));
  const planar::Context context;
  if (!planar::valid(context, plane)) {
    throw Error(ErrorKind::input, "", say("ground.shape_not_valid"));
  }
  XyShape cut_parts;
  for (const XyPolygon& part : plane) cut(context, part, max_area_ha * kM2PerHa, cut_parts);
  std::vector<XyShape> pieces;
  for (XyPolygon& part : cut_parts) pieces.push_back({std::move(part)});
  join_slivers(context, slivers_below_ha * kM2PerHa, pieces);
  Known known;
  for (const Polygon& part : clean.parts) {
    remember(part.outer, frame, known);
    for (const Ring& hole : part.holes) remember(hole, frame, known);
  }
  std::vector<Shape> result;
  for (const XyShape& piece : pieces) result.push_back(on_the_globe(piece, frame, known));
  return result;
}

}  // namespace wildling::ground
