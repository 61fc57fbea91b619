#include "intake/boundaries.hpp"

#include <cmath>
#include <cstdint>
#include <set>
#include <utility>

#include "base/hash.hpp"
#include "base/parameters.hpp"
#include "intake/outline.hpp"
#include "intake/overlaps.hpp"
#include "intake/placing.hpp"
#include "intake/site_words.hpp"

namespace wildling::intake {
namespace {

std::string stem_of(const std::string& name) {
  const std::size_t dot = name.rfind('.');
  return dot == std::string::npos || dot == 0 ? name : name.substr(0, dot);
}

void name_sites(const std::string& name, BoundaryFile& file) {
  std::set<std::string> used;
  for (std::size_t i = 0; i < file.sites.size(); ++i) {
    SiteShape& site = file.sites[i];
    const bool named = !site.name.empty();
    const std::string wanted = named ? site.name : stem_of(name);
    std::string given = wanted;
    if (!named && file.sites.size() > 1) given += " " + std::to_string(i + 1);
    for (int n = 2; used.contains(given); ++n) given = wanted + " " + std::to_string(n);
    if (!named || given != wanted) {
      file.findings.push_back(
          {Severity::changed, name,
           named ? say("intake.site_name_repeated", {{"name", wanted}, {"given", given}})
                 : say("intake.site_name_missing",
                       {{"number", static_cast<std::int64_t>(i + 1)}, {"given", given}})});
    }
    site.name = given;
    used.insert(given);
  }
}

// What the receiver says of its own error, per coordinate. Its hdop times the error of a range is
// the error of both coordinates together; its "accuracy" is the radius that holds the true place in
// 68 of 100 cases (Android's definition, from memory), sqrt(-2 ln 0.32) standard deviations.
std::optional<double> receiver_error_m(const RawFile& raw, const Parameters& parameters) {
  if (raw.hdop_rms) {
    return *raw.hdop_rms * parameters.value("intake.boundary.range_error_m") / std::sqrt(2.0);
  }
  if (raw.accuracy_rms_m) return *raw.accuracy_rms_m / std::sqrt(-2 * std::log(0.32));
  return {};
}

void set_vertex_error(const RawFile& raw, const std::string& name, const Parameters& parameters,
                      BoundaryFile& file) {
  if (const std::optional<double> error = receiver_error_m(raw, parameters)) {
    file.vertex_error_m = *error;
    file.vertex_error_origin = Origin::measured;
    file.findings.push_back(
        {Severity::note, name, say("intake.vertex_error_from_file", {{"metres", *error}})});
    return;
  }
  file.vertex_error_m = parameters.value("ground.vertex_error_m");
  file.vertex_error_origin = parameters.at("ground.vertex_error_m").origin;
}

bool too_large(double area_m2, const RawFeature& feature, const Parameters& parameters,
               Findings& findings) {
  const double largest_ha = parameters.value("intake.boundary.largest_site_ha");
  if (area_m2 <= 10000 * largest_ha) return false;
  findings.push_back(
      {Severity::set_aside, feature.where,
       say("intake.area_too_large", {{"ha", area_m2 / 10000}, {"most", largest_ha}})});
  return true;
}

void add_file_findings(const PlacedFile& file, const std::string& name, Findings& findings) {
  findings.insert(findings.end(), file.raw.findings.begin(), file.raw.findings.end());
  if (file.raw.heights) findings.push_back({Severity::note, name, say("intake.heights_dropped")});
}

void add_line(const RawLine& raw, const RawFeature& feature, const Projection& way,
              LineFile& file) {
  const std::optional<ground::Ring> points = placed(raw, way);
  if (!points || points->size() < 2) {
    file.findings.push_back({Severity::set_aside, feature.where, say("intake.line_too_few")});
    return;
  }
  file.lines.push_back(ground::Line{*points});
}

void add_outlines(const RawFeature& feature, const Projection& way, LineFile& file) {
  if (feature.polygons.empty()) return;
  file.findings.push_back({Severity::note, feature.where, say("intake.outline_is_line")});
  for (const RawPolygon& polygon : feature.polygons) {
    for (RawLine ring : polygon) {
      if (!ring.empty() && !(ring.front() == ring.back())) ring.push_back(ring.front());
      add_line(ring, feature, way, file);
    }
  }
}

}  // namespace

BoundaryFile read_boundaries_bytes(std::string_view bytes, const std::string& name,
                                   const BoundaryOptions& options, const Companions& companions) {
  const PlacedFile placed_file = read_placed(bytes, name, options, companions);
  const Parameters parameters = Parameters::shipped();
  BoundaryFile file;
  file.sha256 = sha256_hex(bytes);
  file.bytes = bytes.size();
  file.features_read = placed_file.raw.features.size();
  const WalkRules rules{parameters.value("intake.boundary.gap_share_most"), options.close_lines};
  add_file_findings(placed_file, name, file.findings);
  set_vertex_error(placed_file.raw, name, parameters, file);
  for (const RawFeature& feature : placed_file.raw.features) {
    SiteShape site;
    site.shape =
        outline(feature, placed_file.raw.points_are_corners, placed_file.way, rules, file.findings);
    if (site.shape.parts.empty()) continue;
    site.area_m2 = ground::area_m2(site.shape);
    if (too_large(site.area_m2, feature, parameters, file.findings)) continue;
    describe(feature, site, file.findings);
    site.parts = site.shape.parts.size();
    file.sites.push_back(std::move(site));
  }
  if (file.sites.empty()) refuse_by(file.findings, name);
  name_sites(name, file);
  tell_overlaps(file, name, parameters.value("intake.boundary.overlap_share_told"));
  tell_accuracy(placed_file, name, file.findings);
  return file;
}

BoundaryFile read_boundaries(const std::string& path, const BoundaryOptions& options) {
  const FileOnDisk file = read_from_disk(path);
  return read_boundaries_bytes(file.bytes, file.name, options, file.companions);
}

LineFile read_lines_bytes(std::string_view bytes, const std::string& name,
                          const BoundaryOptions& options, const Companions& companions) {
  const PlacedFile placed_file = read_placed(bytes, name, options, companions);
  LineFile file;
  file.sha256 = sha256_hex(bytes);
  file.bytes = bytes.size();
  add_file_findings(placed_file, name, file.findings);
  for (const RawFeature& feature : placed_file.raw.features) {
    for (const RawLine& line : feature.lines) add_line(line, feature, placed_file.way, file);
    add_outlines(feature, placed_file.way, file);
    if (feature.points.empty()) continue;
    if (placed_file.raw.points_are_corners) {
      add_line(feature.points, feature, placed_file.way, file);
    } else {
      file.findings.push_back({Severity::set_aside, feature.where, say("intake.point_no_line")});
    }
  }
  if (file.lines.empty()) refuse_by(file.findings, name);
  tell_accuracy(placed_file, name, file.findings);
  return file;
}

LineFile read_lines(const std::string& path, const BoundaryOptions& options) {
  const FileOnDisk file = read_from_disk(path);
  return read_lines_bytes(file.bytes, file.name, options, file.companions);
}

}  // namespace wildling::intake
