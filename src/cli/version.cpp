#include "cli/version.hpp"

#include <fmt/format.h>
#include <gdal.h>
#include <geos_c.h>
#include <proj.h>
#include <sqlite3.h>

#ifndef WILDLING_VERSION
#error "WILDLING_VERSION comes from CMake"
#endif
#ifndef WILDLING_CBC_VERSION
#error "WILDLING_CBC_VERSION comes from CMake"
#endif

namespace wildling::cli {

std::string program_version() {
  return WILDLING_VERSION;
}

std::string version_text() {
  return fmt::format("wildling {}\nGDAL {}\nPROJ {}\nGEOS {}\nSQLite {}\nCBC {}", WILDLING_VERSION,
                     GDALVersionInfo("RELEASE_NAME"), proj_info().version, GEOSversion(),
                     sqlite3_libversion(), WILDLING_CBC_VERSION);
}

}  // namespace wildling::cli
