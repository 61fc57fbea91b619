#include "intake/workbook.hpp"

#include <algorithm>
#include <atomic>
#include <mutex>

#include <cpl_conv.h>
#include <cpl_error.h>
#include <cpl_string.h>
#include <cpl_vsi.h>
#include <fmt/format.h>
#include <gdal_priv.h>
#include <ogrsf_frmts.h>

#include "base/date.hpp"
#include "base/error.hpp"
#include "intake/vector_file.hpp"
#include "intake/workbook_merges.hpp"

extern "C" void RegisterOGRXLSX();

namespace wildling::intake {
namespace {

constexpr vsi_l_offset kLargest = 512U << 20U;  // bytes a workbook may unfold to
constexpr int kEpochShift = 1462;               // days from 1899-12-30 to 1904-01-01

// What GDAL has to say goes nowhere, and its own reading of headers and types is off.
class Settings {
 public:
  Settings() {
    static std::once_flag once;
    std::call_once(once, [] { RegisterOGRXLSX(); });
    CPLPushErrorHandler(CPLQuietErrorHandler);
    CPLSetThreadLocalConfigOption("OGR_XLSX_HEADERS", "DISABLE");
    CPLSetThreadLocalConfigOption("OGR_XLSX_FIELD_TYPES", "STRING");
  }

  Settings(const Settings&) = delete;
  Settings& operator=(const Settings&) = delete;

  ~Settings() {
    CPLSetThreadLocalConfigOption("OGR_XLSX_FIELD_TYPES", nullptr);
    CPLSetThreadLocalConfigOption("OGR_XLSX_HEADERS", nullptr);
    CPLPopErrorHandler();
  }
};

class MemoryFile {
 public:
  explicit MemoryFile(std::string_view bytes) {
    static std::atomic<unsigned> next{0};
    path_ = fmt::format("/vsimem/wildling_workbook_{}.xlsx", next++);
    VSILFILE* file = VSIFOpenL(path_.c_str(), "wb");
    if (file == nullptr) return;
    VSIFWriteL(bytes.data(), 1, bytes.size(), file);
    VSIFCloseL(file);
  }

  MemoryFile(const MemoryFile&) = delete;
  MemoryFile& operator=(const MemoryFile&) = delete;

  ~MemoryFile() { VSIUnlink(path_.c_str()); }

  [[nodiscard]] const std::string& path() const { return path_; }

 private:
  std::string path_;
};

[[noreturn]] void refuse(const std::string& name, const char* key) {
  throw Error(ErrorKind::input, name, say(key));
}

// Sum of the members' unfolded sizes.
vsi_l_offset unfolded(const std::string& zip) {
  char** members = VSIReadDirRecursive(zip.c_str());
  vsi_l_offset sum = 0;
  for (char** member = members; member != nullptr && *member != nullptr; ++member) {
    VSIStatBufL stat;
    if (VSIStatL((zip + *member).c_str(), &stat) == 0) {
      sum += static_cast<vsi_l_offset>(stat.st_size);
    }
  }
  CSLDestroy(members);
  return sum;
}

bool counts_from_1904(const std::string& zip) {
  VSILFILE* file = VSIFOpenL((zip + "xl/workbook.xml").c_str(), "rb");
  if (file == nullptr) return false;
  std::string head(16384, '\0');
  head.resize(VSIFReadL(head.data(), 1, head.size(), file));
  VSIFCloseL(file);
  return head.find("date1904=\"1\"") != std::string::npos ||
         head.find("date1904=\"true\"") != std::string::npos;
}

// GDAL writes date cells as "2021/01/01" or "2021/01/01 07:30:00", counted from 1900.
std::string cell_text(const std::string& text, bool epoch_1904) {
  if (text.size() < 10 || text[4] != '/' || text[7] != '/') return text;
  std::string iso = text.substr(0, 10);
  iso[4] = iso[7] = '-';
  const auto day = parse_iso_date(iso);
  if (!day) return text;
  return iso_date(*day + std::chrono::days(epoch_1904 ? kEpochShift : 0)) + text.substr(10);
}

Sheet read_sheet(OGRLayer& layer, bool epoch_1904) {
  Sheet sheet;
  sheet.name = as_utf8(layer.GetName());
  layer.ResetReading();
  while (const OGRFeatureUniquePtr feature{layer.GetNextFeature()}) {
    CsvRow row;
    row.line = static_cast<std::size_t>(std::max<GIntBig>(feature->GetFID(), 1));
    bool blank = true;
    for (int i = 0; i < feature->GetFieldCount(); ++i) {
      row.cells.push_back(feature->IsFieldSetAndNotNull(i)
                              ? cell_text(as_utf8(feature->GetFieldAsString(i)), epoch_1904)
                              : "");
      blank = blank && trimmed(row.cells.back()).empty();
    }
    if (!blank) sheet.rows.push_back(std::move(row));
  }
  return sheet;
}

}  // namespace

Workbook read_workbook(std::string_view bytes, const std::string& name) {
  const Settings settings;
  const MemoryFile file(bytes);
  const std::string zip = "/vsizip/" + file.path() + "/";
  if (unfolded(zip) > kLargest) refuse(name, "intake.workbook_too_large");
  const char* const drivers[] = {"XLSX", nullptr};
  const GDALDatasetUniquePtr dataset(
      GDALDataset::Open(file.path().c_str(), GDAL_OF_VECTOR | GDAL_OF_READONLY, drivers, nullptr));
  if (!dataset) refuse(name, "intake.workbook_unreadable");
  Workbook book;
  book.epoch_1904 = counts_from_1904(zip);
  const auto merged = merged_cells(zip);
  for (int i = 0; i < dataset->GetLayerCount(); ++i) {
    book.sheets.push_back(read_sheet(*dataset->GetLayer(i), book.epoch_1904));
    const auto joined = merged.find(book.sheets.back().name);
    if (joined != merged.end()) book.sheets.back().merged = joined->second;
  }
  return book;
}

}  // namespace wildling::intake
