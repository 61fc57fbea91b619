#include "intake/outline.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <utility>

#include "ground/planar.hpp"
#include "intake/placing.hpp"

namespace wildling::intake {
namespace {

using ground::Xy;
using ground::XyPolygon;
using ground::XyShape;

struct Work {
  const RawFeature& feature;
  const Projection& way;
  Findings& findings;

  void tell(Severity severity, Message message) const {
    findings.push_back({severity, feature.where, std::move(message)});
  }
};

std::int64_t count(std::size_t n) {
  return static_cast<std::int64_t>(n);
}

double length_m(const RawLine& line, const Work& work) {
  const std::optional<ground::Ring> ring = placed(line, work.way);
  return ring ? ground::length_m(ground::Line{*ring}) : 0;
}

double gap_m(const RawLine& line, const Work& work) {
  return length_m({line.back(), line.front()}, work);
}

RawLine without_repeats(const RawLine& line) {
  RawLine result;
  for (const RawPoint p : line) {
    if (result.empty() || !(result.back() == p)) result.push_back(p);
  }
  return result;
}

bool closed(const RawLine& line) {
  return line.size() >= 4 && line.front() == line.back();
}

void add_line(const RawLine& line, const WalkRules& rules, const Work& work,
              std::vector<RawPolygon>& polygons) {
  if (closed(line)) {
    polygons.push_back({line});
    work.tell(Severity::changed,
              say("intake.closed_line_is_boundary", {{"points", count(line.size() - 1)}}));
    return;
  }
  if (rules.told && line.size() >= 3) {
    polygons.push_back({line});
    return;
  }
  if (line.size() < 4) {
    work.tell(Severity::set_aside, say("intake.walk_too_short", {{"points", count(line.size())}}));
    return;
  }
  const double length = length_m(line, work);
  const double gap = gap_m(line, work);
  if (!(gap <= rules.gap_share_most * length)) {
    work.tell(Severity::set_aside, say("intake.walk_open", {{"gap", gap}, {"length", length}}));
    return;
  }
  polygons.push_back({line});  // close_ring tells the gap
}

// The pieces of a walk end to end, in their order.
RawLine joined(const std::vector<RawLine>& lines, const Work& work) {
  RawLine all;
  double widest = 0;
  for (const RawLine& line : lines) {
    if (line.empty()) continue;
    if (!all.empty()) widest = std::max(widest, length_m({all.back(), line.front()}, work));
    all.insert(all.end(), line.begin(), line.end());
  }
  work.tell(Severity::changed,
            say("intake.walk_joined", {{"segments", count(lines.size())}, {"gap", widest}}));
  return all;
}

void add_lines(const WalkRules& rules, const Work& work, std::vector<RawPolygon>& polygons) {
  std::vector<RawLine> lines;
  for (const RawLine& line : work.feature.lines) lines.push_back(without_repeats(line));
  const bool all_closed = std::all_of(lines.begin(), lines.end(), closed);
  if (lines.size() <= 1 || all_closed) {
    for (const RawLine& line : lines) add_line(line, rules, work, polygons);
    return;
  }
  if (rules.told) {
    add_line(joined(lines, work), rules, work, polygons);
    return;
  }
  double length = 0;
  for (const RawLine& line : lines) length += length_m(line, work);
  work.tell(Severity::set_aside, say("intake.walk_in_segments",
                                     {{"segments", count(lines.size())}, {"length", length}}));
}

void add_points(bool corners, const Work& work, std::vector<RawPolygon>& polygons) {
  const RawLine points = without_repeats(work.feature.points);
  if (points.empty()) return;
  if (!corners) {
    work.tell(Severity::set_aside,
              say("intake.point_no_boundary", {{"points", count(points.size())}}));
    return;
  }
  RawLine ring = points;
  if (!(ring.front() == ring.back())) ring.push_back(ring.front());
  polygons.push_back({ring});
  work.tell(Severity::changed, say("intake.corners_joined", {{"points", count(ring.size() - 1)}}));
}

// Open ring of distinct neighbours; fewer than three points when it bounds nothing.
std::vector<Xy> ring_of(const RawLine& raw, const Work& work) {
  RawLine line;
  for (const RawPoint p : raw) {
    if (std::isfinite(p.x) && std::isfinite(p.y)) line.push_back(p);
  }
  if (line.size() != raw.size()) {
    work.tell(Severity::set_aside,
              say("intake.point_not_finite", {{"points", count(raw.size() - line.size())}}));
  }
  line = without_repeats(line);
  if (line.size() > 2 && !(line.front() == line.back())) {
    work.tell(Severity::changed, say("intake.ring_closed", {{"gap", gap_m(line, work)}}));
  }
  while (line.size() > 1 && line.front() == line.back()) line.pop_back();
  std::vector<Xy> ring;
  for (const RawPoint p : line) ring.push_back({p.x, p.y});
  return ring;
}

XyShape rings_of(const std::vector<RawPolygon>& polygons, const Work& work) {
  XyShape shape;
  for (const RawPolygon& polygon : polygons) {
    XyPolygon part;
    for (std::size_t i = 0; i < polygon.size(); ++i) {
      std::vector<Xy> ring = ring_of(polygon[i], work);
      if (ring.size() < 3) {
        work.tell(Severity::set_aside,
                  say("intake.ring_too_few", {{"points", count(ring.size())}}));
        if (i == 0) break;
        continue;
      }
      if (i == 0) {
        part.outer = std::move(ring);
      } else {
        part.holes.push_back(std::move(ring));
      }
    }
    if (!part.outer.empty()) shape.push_back(std::move(part));
  }
  return shape;
}

std::optional<ground::Ring> on_the_globe(const std::vector<Xy>& ring, const Projection& way) {
  RawLine line;
  for (const Xy p : ring) line.push_back({p.x_m, p.y_m});
  return placed(line, way);
}

std::optional<ground::Shape> on_the_globe(const XyShape& shape, const Projection& way) {
  ground::Shape result;
  for (const XyPolygon& part : shape) {
    ground::Polygon polygon;
    const std::optional<ground::Ring> outer = on_the_globe(part.outer, way);
    if (!outer) return {};
    polygon.outer = *outer;
    for (const std::vector<Xy>& hole : part.holes) {
      const std::optional<ground::Ring> inner = on_the_globe(hole, way);
      if (!inner) return {};
      polygon.holes.push_back(*inner);
    }
    result.parts.push_back(std::move(polygon));
  }
  return result;
}

ground::Shape repaired(const XyShape& drawn, const Work& work) {
  const std::optional<ground::Shape> before = on_the_globe(drawn, work.way);
  if (!before) {
    work.tell(Severity::set_aside, say("intake.point_no_place", {{"crs", work.way.name()}}));
    return {};
  }
  const ground::planar::Context context;
  const std::optional<Xy> fault = ground::planar::fault(context, drawn);
  if (!fault) return ground::normalised(*before);
  const XyShape mended = ground::planar::made_valid(context, drawn);
  const std::optional<ground::Shape> after = on_the_globe(mended, work.way);
  if (!after || mended.empty()) {
    work.tell(Severity::set_aside, say("intake.area_zero"));
    return {};
  }
  work.tell(Severity::changed,
            say("intake.ring_repaired", {{"x", fault->x_m},
                                         {"y", fault->y_m},
                                         {"before", ground::area_m2(*before) / 10000},
                                         {"after", ground::area_m2(*after) / 10000},
                                         {"parts", count(mended.size())}}));
  return ground::normalised(*after);
}

}  // namespace

ground::Shape outline(const RawFeature& feature, bool corners, const Projection& way,
                      const WalkRules& rules, Findings& findings) {
  const Work work{feature, way, findings};
  std::vector<RawPolygon> polygons = feature.polygons;
  if (!polygons.empty() && !feature.lines.empty()) {
    work.tell(Severity::set_aside,
              say("intake.lines_beside_area", {{"lines", count(feature.lines.size())}}));
  } else {
    add_lines(rules, work, polygons);
  }
  add_points(corners, work, polygons);
  const XyShape drawn = rings_of(polygons, work);
  if (drawn.empty()) {
    if (feature.polygons.empty() && feature.lines.empty() && feature.points.empty()) {
      work.tell(Severity::set_aside, say("intake.shape_empty"));
    }
    return {};
  }
  ground::Shape shape = repaired(drawn, work);
  if (shape.parts.empty()) return shape;
  if (ground::area_m2(shape) < 1) {
    work.tell(Severity::set_aside, say("intake.area_zero"));
    return {};
  }
  return shape;
}

}  // namespace wildling::intake
