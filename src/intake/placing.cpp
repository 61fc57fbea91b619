#include "intake/placing.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <filesystem>
#include <utility>

#include "base/files.hpp"
#include "intake/corner_table.hpp"
#include "intake/vector_file.hpp"

namespace wildling::intake {
namespace {

template <typename Act>
void each_line(RawFile& file, const Act& act) {
  for (RawFeature& feature : file.features) {
    for (RawPolygon& polygon : feature.polygons) {
      for (RawLine& ring : polygon) act(ring);
    }
    for (RawLine& line : feature.lines) act(line);
    act(feature.points);
  }
}

struct Extent {
  double x_most = 0;  ///< of absolute values
  double y_most = 0;
  RawPoint first = {};
  bool any = false;
};

Extent extent_of(RawFile& file) {
  Extent extent;
  each_line(file, [&extent](RawLine& line) {
    for (const RawPoint p : line) {
      if (!std::isfinite(p.x) || !std::isfinite(p.y)) continue;
      if (!extent.any) extent.first = p;
      extent.any = true;
      extent.x_most = std::max(extent.x_most, std::abs(p.x));
      extent.y_most = std::max(extent.y_most, std::abs(p.y));
    }
  });
  return extent;
}

void check_degrees(const Extent& extent, const std::string& name) {
  if (extent.x_most <= 180 && extent.y_most <= 90) return;
  const std::map<std::string, Argument> first = {{"x", extent.first.x}, {"y", extent.first.y}};
  if (extent.x_most <= 90 && extent.y_most <= 180) {
    throw Error(ErrorKind::input, name, say("intake.axes_swapped", first));
  }
  if (extent.x_most <= 360 && extent.y_most <= 90) return;
  throw Error(ErrorKind::input, name, say("intake.metres_not_degrees", first));
}

void check_metres(const Extent& extent, const Projection& way, const std::string& name,
                  Findings& findings) {
  if (extent.x_most <= 180 && extent.y_most <= 90) {
    throw Error(ErrorKind::input, name,
                say("intake.degrees_not_metres",
                    {{"x", extent.first.x}, {"y", extent.first.y}, {"crs", way.name()}}));
  }
  const std::optional<ground::LonLat> at = way.to_wgs84(extent.first);
  if (at && way.meant_for(*at)) return;
  const std::optional<ground::LonLat> turned = way.to_wgs84({extent.first.y, extent.first.x});
  const std::map<std::string, Argument> first = {
      {"x", extent.first.x}, {"y", extent.first.y}, {"crs", way.name()}};
  if (turned && way.meant_for(*turned)) {
    throw Error(ErrorKind::input, name, say("intake.axes_swapped_metres", first));
  }
  if (!at) throw Error(ErrorKind::input, name, say("intake.no_place_in_crs", first));
  findings.push_back({Severity::note, name, say("intake.outside_crs_area", first)});
}

std::string settled_crs(RawFile& file, const Extent& extent, const BoundaryOptions& options,
                        const std::string& name) {
  if (options.crs && !options.crs->empty()) {
    if (!file.crs.empty() && file.crs_name != *options.crs && file.crs != *options.crs) {
      file.findings.push_back(
          {Severity::note, name,
           say("intake.crs_overruled", {{"file", file.crs_name}, {"told", *options.crs}})});
    }
    return *options.crs;
  }
  if (!file.crs.empty()) return file.crs;
  throw Error(ErrorKind::input, name,
              say("intake.crs_missing", {{"x", extent.first.x}, {"y", extent.first.y}}));
}

}  // namespace

PlacedFile read_placed(std::string_view bytes, const std::string& name,
                       const BoundaryOptions& options, const Companions& companions) {
  if (bytes.empty()) throw Error(ErrorKind::input, name, say("intake.boundary_file_empty"));
  const VectorKind kind = vector_kind(bytes);
  RawFile raw = kind == VectorKind::table ? read_corner_table(bytes, name)
                                          : read_vector(bytes, kind, name, companions);
  if (options.swap_axes) {
    each_line(raw, [](RawLine& line) {
      for (RawPoint& p : line) std::swap(p.x, p.y);
    });
  }
  const Extent extent = extent_of(raw);
  if (!extent.any) refuse_by(raw.findings, name);
  Projection way(settled_crs(raw, extent, options, name), name);
  if (way.degrees()) {
    check_degrees(extent, name);
  } else {
    check_metres(extent, way, name, raw.findings);
  }
  return {std::move(raw), std::move(way)};
}

void refuse_by(const Findings& findings, const std::string& name) {
  for (const Finding& finding : findings) {
    if (finding.severity == Severity::set_aside) {
      throw Error(ErrorKind::input, finding.where, finding.message);
    }
  }
  throw Error(ErrorKind::input, name, say("intake.boundary_no_shape"));
}

std::optional<ground::Ring> placed(const RawLine& line, const Projection& way) {
  ground::Ring ring;
  ring.reserve(line.size());
  for (const RawPoint p : line) {
    const std::optional<ground::LonLat> at = way.to_wgs84(p);
    if (!at) return {};
    ring.push_back(*at);
  }
  return ring;
}

void tell_accuracy(const PlacedFile& file, const std::string& name, Findings& findings) {
  const std::optional<double> accuracy = file.way.accuracy_m();
  if (!accuracy) {
    findings.push_back(
        {Severity::note, name, say("intake.crs_accuracy_unknown", {{"crs", file.way.name()}})});
  } else if (*accuracy >= 0.1) {
    findings.push_back(
        {Severity::note, name,
         say("intake.crs_accuracy", {{"crs", file.way.name()}, {"metres", *accuracy}})});
  }
}

FileOnDisk read_from_disk(const std::string& path) {
  namespace fs = std::filesystem;
  FileOnDisk file;
  file.bytes = read_file(path);
  file.name = fs::path(path).filename().string();
  if (vector_kind(file.bytes) != VectorKind::shapefile) return file;
  const std::string stem = fs::path(path).stem().string();
  std::error_code failed;
  const fs::path folder = fs::path(path).has_parent_path() ? fs::path(path).parent_path() : ".";
  for (const fs::directory_entry& entry : fs::directory_iterator(folder, failed)) {
    std::string ending = entry.path().extension().string();
    for (char& c : ending) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    if (entry.path().stem().string() != stem) continue;
    if (ending == ".shx" || ending == ".dbf" || ending == ".prj" || ending == ".cpg") {
      file.companions[ending.substr(1)] = read_file(entry.path().string());
    }
  }
  return file;
}

}  // namespace wildling::intake
