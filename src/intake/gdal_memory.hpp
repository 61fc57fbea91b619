#pragma once
/// What the readers through GDAL share: they see nothing but bytes in memory, and what GDAL says is
/// heard instead of going to standard error. Needs GDAL's headers: include in .cpp files only.
#include <atomic>
#include <string>
#include <string_view>

#include <cpl_error.h>
#include <cpl_vsi.h>

namespace wildling::intake {

/// Collects what GDAL says while it lives.
class QuietGdal {
 public:
  QuietGdal() { CPLPushErrorHandlerEx(&QuietGdal::hear, this); }

  ~QuietGdal() { CPLPopErrorHandler(); }

  QuietGdal(const QuietGdal&) = delete;
  QuietGdal& operator=(const QuietGdal&) = delete;

  [[nodiscard]] const std::string& last() const { return last_; }

 private:
  static void CPL_STDCALL hear(CPLErr, CPLErrorNum, const char* text) {
    static_cast<QuietGdal*>(CPLGetErrorHandlerUserData())->last_ = text;
  }

  std::string last_;
};

/// Files in memory under a folder of their own, gone at the end.
class GdalMemory {
 public:
  GdalMemory() {
    static std::atomic<unsigned> next{0};
    path_ = "/vsimem/wildling_raster_" + std::to_string(next++) + "/";
  }

  ~GdalMemory() { VSIRmdirRecursive(path_.c_str()); }

  GdalMemory(const GdalMemory&) = delete;
  GdalMemory& operator=(const GdalMemory&) = delete;

  [[nodiscard]] std::string path(const std::string& name) const { return path_ + name; }

  std::string put(const std::string& name, std::string_view bytes) const {
    VSILFILE* file = VSIFOpenL(path(name).c_str(), "wb");
    if (file != nullptr) {
      VSIFWriteL(bytes.data(), 1, bytes.size(), file);
      VSIFCloseL(file);
    }
    return path(name);
  }

  /// Empty when there is no such file.
  [[nodiscard]] std::string take(const std::string& name) const {
    VSIStatBufL stat;
    if (VSIStatL(path(name).c_str(), &stat) != 0) return {};
    std::string bytes(static_cast<std::size_t>(stat.st_size), '\0');
    VSILFILE* file = VSIFOpenL(path(name).c_str(), "rb");
    if (file == nullptr) return {};
    bytes.resize(VSIFReadL(bytes.data(), 1, bytes.size(), file));
    VSIFCloseL(file);
    return bytes;
  }

 private:
  std::string path_;
};

}  // namespace wildling::intake
