#pragma once
#include <string>
#include <vector>

#include "base/progress.hpp"
#include "export/laid_block.hpp"

namespace wildling::exports {

/// What goes into a GeoPackage copy of a plan.
struct GeoPackageCopy {
  std::vector<LaidBlock> blocks = {};
  std::vector<std::string> species = {};  ///< name per byte value
  std::string title = {};                 ///< "Plan 4 of the programme ..."
  std::string made_at_utc = {};           ///< "2026-11-25T04:37:13.123Z"
  std::vector<Table> tables = {};  ///< further tables, written as attributes after the same rules
};

/// Writes an OGC GeoPackage 1.3 (SQLite) that any GIS opens, WGS 84, whole or not at all:
/// - `blocks` multipolygons: block, site, ground_type, area_ha, places, planted, status
/// - `seedlings` points of open blocks, no spatial index: seedling (id), block, row, number,
/// species
/// - `pegs` points and `baselines` lines of open blocks
/// - `about` (no geometry): the note of what the file contains, line by line; and the further
/// tables Closed blocks are polygons with status "draft, not for crews" only. The same input gives
/// the same bytes.
/// @return what the file contains
/// @throws Error{io} (disk full, read-only folder ...), Error{usage} (exists, rules without
/// reason), Error{infeasible} for a
///         further table that is a list of a closed block, Cancelled; then no file is left and an
///         old one is untouched
std::vector<Message> write_geopackage(const std::string& path, const GeoPackageCopy& copy,
                                      const ExportRules& rules, const Words& words, bool overwrite,
                                      const Progress& progress = {});

}  // namespace wildling::exports
