#include "intake/vector_file.hpp"

#include <algorithm>
#include <atomic>
#include <cctype>
#include <cmath>
#include <mutex>
#include <utility>

#include <cpl_conv.h>
#include <cpl_error.h>
#include <cpl_string.h>
#include <cpl_vsi.h>
#include <gdal_priv.h>
#include <ogrsf_frmts.h>

#include "intake/ogr_shape.hpp"

namespace wildling::intake {
namespace {

constexpr std::size_t kLargestMember = 512U << 20U;  // bytes a zip may unfold to

void register_drivers() {
  static std::once_flag once;
  std::call_once(once, [] {
    RegisterOGRShape();
    RegisterOGRGeoJSON();
    RegisterOGRGPX();
    RegisterOGRLIBKML();
    RegisterOGRGeoPackage();
  });
}

// Collects what GDAL says, which would otherwise go to standard error.
class Quiet {
 public:
  Quiet() { CPLPushErrorHandlerEx(&Quiet::hear, this); }

  ~Quiet() { CPLPopErrorHandler(); }

  Quiet(const Quiet&) = delete;
  Quiet& operator=(const Quiet&) = delete;

  [[nodiscard]] const std::string& last() const { return last_; }

 private:
  static void CPL_STDCALL hear(CPLErr, CPLErrorNum, const char* text) {
    static_cast<Quiet*>(CPLGetErrorHandlerUserData())->last_ = text;
  }

  std::string last_;
};

// Files in memory under a folder of their own, gone at the end.
class MemoryFolder {
 public:
  MemoryFolder() {
    static std::atomic<unsigned> next{0};
    path_ = "/vsimem/wildling_intake_" + std::to_string(next++) + "/";
  }

  ~MemoryFolder() { VSIRmdirRecursive(path_.c_str()); }

  MemoryFolder(const MemoryFolder&) = delete;
  MemoryFolder& operator=(const MemoryFolder&) = delete;

  // The bytes must outlive the folder. GDAL only reads them: files are opened read-only.
  std::string put(const std::string& name, std::string_view bytes) {
    const std::string path = path_ + name;
    VSILFILE* file = VSIFOpenL(path.c_str(), "wb");
    if (file != nullptr) {
      VSIFWriteL(bytes.data(), 1, bytes.size(), file);
      VSIFCloseL(file);
    }
    return path;
  }

 private:
  std::string path_;
};

std::string lower(std::string_view text) {
  std::string result(text);
  for (char& c : result) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return result;
}

bool ends_with(const std::string& text, std::string_view end) {
  return text.size() >= end.size() && text.compare(text.size() - end.size(), end.size(), end) == 0;
}

[[noreturn]] void refuse(const std::string& name, const std::string& reason) {
  throw Error(ErrorKind::input, name, say("intake.boundary_unreadable", {{"reason", reason}}));
}

// One field of a shapefile as text. Bytes that are valid UTF-8 beyond ASCII are hardly ever
// anything else, whatever the .cpg says; the other reading is told.
std::string shapefile_text(const std::string& raw, const std::string& code_page,
                           const std::string& where, Findings& findings) {
  const bool ascii = std::all_of(raw.begin(), raw.end(),
                                 [](char c) { return static_cast<unsigned char>(c) < 128; });
  if (ascii) return raw;
  const bool utf8 = CPLIsUTF8(raw.c_str(), static_cast<int>(raw.size())) != 0;
  const std::string page = code_page.empty() ? "1252" : code_page;
  if (utf8 && (page == "UTF-8" || page == "65001")) return raw;
  const bool digits = std::all_of(
      page.begin(), page.end(), [](char c) { return std::isdigit(static_cast<unsigned char>(c)); });
  char* recoded = CPLRecode(raw.c_str(), (digits ? "CP" + page : page).c_str(), "UTF-8");
  const std::string other = recoded == nullptr ? as_utf8(raw) : recoded;
  CPLFree(recoded);
  if (!utf8) return as_utf8(other);
  findings.push_back(
      {Severity::changed, where,
       say("intake.text_two_readings", {{"taken", raw}, {"other", as_utf8(other)}})});
  return raw;
}

struct Source {
  std::string name;
  bool shapefile = false;
  std::string code_page;
};

void add_attributes(const OGRFeature& feature, const Source& source, RawFeature& raw,
                    Findings& findings) {
  for (int i = 0; i < feature.GetFieldCount(); ++i) {
    if (!feature.IsFieldSetAndNotNull(i)) continue;
    const std::string value = feature.GetFieldAsString(i);
    if (value.empty()) continue;
    raw.attributes[as_utf8(feature.GetFieldDefnRef(i)->GetNameRef())] =
        source.shapefile ? shapefile_text(value, source.code_page, raw.where, findings)
                         : as_utf8(value);
  }
}

struct Crs {
  std::string wkt;
  std::string name;
};

Crs crs_of(OGRLayer& layer) {
  const OGRSpatialReference* crs = layer.GetSpatialRef();
  if (crs == nullptr || crs->IsLocal() != 0 || crs->IsEmpty()) return {};
  char* wkt = nullptr;
  const char* const options[] = {"FORMAT=WKT2_2019", nullptr};
  Crs result;
  if (crs->exportToWkt(&wkt, options) == OGRERR_NONE && wkt != nullptr) {
    result = {wkt, crs->GetName() == nullptr ? "" : crs->GetName()};
  }
  CPLFree(wkt);
  return result;
}

// False when the layer cannot go with those read before: it is in another coordinate system.
bool same_crs(OGRLayer& layer, const std::string& name, RawFile& file) {
  const Crs crs = crs_of(layer);
  if (file.features.empty()) {
    file.crs = crs.wkt;
    file.crs_name = crs.name;
  } else if (crs.wkt != file.crs && layer.GetFeatureCount() > 0) {
    file.findings.push_back({Severity::set_aside, name,
                             say("intake.layer_in_other_crs", {{"layer", as_utf8(layer.GetName())},
                                                               {"crs", as_utf8(crs.name)},
                                                               {"first", file.crs_name}})});
    return false;
  }
  return true;
}

// Root mean square of the receiver's dilution over the points of all tracks.
std::optional<double> hdop_rms(GDALDataset& dataset) {
  OGRLayer* points = dataset.GetLayerByName("track_points");
  if (points == nullptr) return {};
  const int field = points->GetLayerDefn()->GetFieldIndex("hdop");
  double squares = 0;
  double count = 0;
  points->ResetReading();
  while (const OGRFeatureUniquePtr point{points->GetNextFeature()}) {
    if (field < 0 || !point->IsFieldSetAndNotNull(field)) continue;
    const double hdop = point->GetFieldAsDouble(field);
    if (!(hdop > 0 && hdop < 100)) continue;
    squares += hdop * hdop;
    ++count;
  }
  if (count == 0) return {};
  return std::sqrt(squares / count);
}

// GPX repeats its tracks and routes as points; corners as waypoints count only when nothing else is
// there.
bool skip_layer(const std::string& layer, bool gpx, const RawFile& file) {
  if (!gpx) return false;
  return ends_with(layer, "_points") || (layer == "waypoints" && !file.features.empty());
}

void read_layers(GDALDataset& dataset, const Source& source, bool gpx, RawFile& file) {
  std::vector<OGRLayer*> layers;
  for (int i = 0; i < dataset.GetLayerCount(); ++i) layers.push_back(dataset.GetLayer(i));
  if (gpx) {
    std::stable_partition(layers.begin(), layers.end(), [](OGRLayer* layer) {
      return std::string(layer->GetName()) != "waypoints";
    });
  }
  for (OGRLayer* layer : layers) {
    if (skip_layer(layer->GetName(), gpx, file)) continue;
    if (!same_crs(*layer, source.name, file)) continue;
    layer->ResetReading();
    while (const OGRFeatureUniquePtr feature{layer->GetNextFeature()}) {
      RawFeature raw;
      raw.number = file.features.size() + 1;
      raw.where = source.name + ", shape " + std::to_string(raw.number);
      add_attributes(*feature, source, raw, file.findings);
      if (const OGRGeometry* geometry = feature->GetGeometryRef()) {
        file.heights = add_geometry(*geometry, raw) || file.heights;
      }
      file.features.push_back(std::move(raw));
    }
    if (gpx && std::string(layer->GetName()) == "waypoints") file.points_are_corners = true;
  }
}

// Waypoints are one boundary together, not one shape each.
void gather_corners(const std::string& name, RawFile& file) {
  if (!file.points_are_corners || file.features.empty()) return;
  RawFeature all;
  all.number = 1;
  all.where = name;
  for (const RawFeature& feature : file.features) {
    all.points.insert(all.points.end(), feature.points.begin(), feature.points.end());
  }
  file.features = {all};
}

RawFile open_and_read(const std::string& path, const char* driver, const Source& source) {
  const Quiet quiet;
  const char* const drivers[] = {driver, nullptr};
  const char* const shape_options[] = {"ENCODING=", "ADJUST_TYPE=NO", nullptr};
  const char* const* options = source.shapefile ? shape_options : nullptr;
  GDALDatasetUniquePtr dataset(
      GDALDataset::Open(path.c_str(), GDAL_OF_VECTOR | GDAL_OF_READONLY, drivers, options));
  if (!dataset) refuse(source.name, as_utf8(quiet.last()));
  RawFile file;
  const bool gpx = std::string_view(driver) == "GPX";
  read_layers(*dataset, source, gpx, file);
  if (gpx) file.hdop_rms = hdop_rms(*dataset);
  gather_corners(source.name, file);
  return file;
}

std::vector<std::string> members(const std::string& zip, std::string_view ending) {
  char** names = VSIReadDirRecursive(zip.c_str());
  std::vector<std::string> found;
  for (char** name = names; name != nullptr && *name != nullptr; ++name) {
    if (ends_with(lower(*name), ending)) found.emplace_back(*name);
  }
  CSLDestroy(names);
  std::sort(found.begin(), found.end());
  return found;
}

std::string unzip(const std::string& path, const std::string& name) {
  VSIStatBufL stat;
  if (VSIStatL(path.c_str(), &stat) != 0) return "";
  if (static_cast<std::size_t>(stat.st_size) > kLargestMember) {
    throw Error(ErrorKind::input, name, say("intake.zip_too_large"));
  }
  std::string bytes(static_cast<std::size_t>(stat.st_size), '\0');
  VSILFILE* file = VSIFOpenL(path.c_str(), "rb");
  if (file == nullptr) return "";
  bytes.resize(VSIFReadL(bytes.data(), 1, bytes.size(), file));
  VSIFCloseL(file);
  return bytes;
}

RawFile read_zip(std::string_view bytes, const std::string& name) {
  std::string inner;
  Companions companions;
  VectorKind kind = VectorKind::unknown;
  {
    const Quiet quiet;
    MemoryFolder folder;
    const std::string zip = "/vsizip/" + folder.put("in.zip", bytes);
    for (const std::string_view ending : {".shp", ".kml", ".geojson", ".gpx", ".gpkg"}) {
      const std::vector<std::string> all = members(zip, ending);
      if (all.empty()) continue;
      if (all.size() > 1) {
        throw Error(
            ErrorKind::input, name,
            say("intake.zip_several", {{"first", as_utf8(all[0])}, {"second", as_utf8(all[1])}}));
      }
      const std::string& found = all.front();
      inner = unzip(zip + "/" + found, name);
      kind = vector_kind(inner);
      const std::string stem = lower(found.substr(0, found.size() - 4));
      for (const char* end : {"shx", "dbf", "prj", "cpg"}) {
        if (kind != VectorKind::shapefile) break;
        const std::vector<std::string> others = members(zip, stem + "." + end);
        if (!others.empty()) companions[end] = unzip(zip + "/" + others.front(), name);
      }
      break;
    }
  }
  if (kind == VectorKind::unknown || kind == VectorKind::zip || kind == VectorKind::table) {
    throw Error(ErrorKind::input, name, say("intake.zip_without_shapes"));
  }
  return read_vector(inner, kind, name, companions);
}

RawFile read_shapefile(std::string_view bytes, const std::string& name,
                       const Companions& companions) {
  MemoryFolder folder;
  const std::string path = folder.put("in.shp", bytes);
  std::string code_page;
  for (const auto& [ending, content] : companions) {
    if (ending == "cpg") {
      for (const char c : content) {
        if (std::isspace(static_cast<unsigned char>(c)) == 0) code_page += c;
      }
    } else {
      folder.put("in." + ending, content);
    }
  }
  if (!companions.contains("shx")) CPLSetThreadLocalConfigOption("SHAPE_RESTORE_SHX", "YES");
  try {
    RawFile file = open_and_read(path, "ESRI Shapefile", {name, true, code_page});
    CPLSetThreadLocalConfigOption("SHAPE_RESTORE_SHX", nullptr);
    return file;
  } catch (...) {
    CPLSetThreadLocalConfigOption("SHAPE_RESTORE_SHX", nullptr);
    throw;
  }
}

}  // namespace

VectorKind vector_kind(std::string_view bytes) {
  if (bytes.substr(0, 4) == "PK\x03\x04") return VectorKind::zip;
  if (bytes.substr(0, 15) == "SQLite format 3") return VectorKind::geopackage;
  if (bytes.substr(0, 4) == std::string_view("\0\0\x27\x0a", 4)) return VectorKind::shapefile;
  if (bytes.find('\0') != std::string_view::npos) return VectorKind::unknown;
  if (bytes.substr(0, 3) == "\xEF\xBB\xBF") bytes.remove_prefix(3);
  const std::size_t start = bytes.find_first_not_of(" \t\r\n");
  if (start == std::string_view::npos) return VectorKind::unknown;
  if (bytes[start] == '{') return VectorKind::geojson;
  if (bytes[start] != '<') return VectorKind::table;
  const std::string head = lower(bytes.substr(0, 4096));
  if (head.find("<gpx") != std::string::npos) return VectorKind::gpx;
  if (head.find("<kml") != std::string::npos) return VectorKind::kml;
  return VectorKind::unknown;
}

RawFile read_vector(std::string_view bytes, VectorKind kind, const std::string& name,
                    const Companions& companions) {
  register_drivers();
  if (kind == VectorKind::zip) return read_zip(bytes, name);
  if (kind == VectorKind::shapefile) return read_shapefile(bytes, name, companions);
  MemoryFolder folder;
  const Source source{name, false, {}};
  switch (kind) {
    case VectorKind::geojson:
      return open_and_read(folder.put("in.geojson", bytes), "GeoJSON", source);
    case VectorKind::gpx:
      return open_and_read(folder.put("in.gpx", bytes), "GPX", source);
    case VectorKind::kml:
      return open_and_read(folder.put("in.kml", bytes), "LIBKML", source);
    case VectorKind::geopackage:
      return open_and_read(folder.put("in.gpkg", bytes), "GPKG", source);
    default:
      throw Error(ErrorKind::input, name, say("intake.boundary_kind_unknown"));
  }
}

std::string as_utf8(std::string_view text) {
  std::string result(text);
  if (CPLIsUTF8(result.c_str(), static_cast<int>(result.size())) != 0) return result;
  char* recoded = CPLRecode(result.c_str(), "CP1252", "UTF-8");
  if (recoded != nullptr) result = recoded;
  CPLFree(recoded);
  if (CPLIsUTF8(result.c_str(), static_cast<int>(result.size())) != 0) return result;
  for (char& c : result) {
    if (static_cast<unsigned char>(c) >= 128) c = '?';
  }
  return result;
}

}  // namespace wildling::intake
