#pragma once
#include <filesystem>
#include <memory>
#include <string>

#include <gtest/gtest.h>
#include <stdlib.h>
#include <unistd.h>

#include "store/geometry.hpp"
#include "store/store.hpp"

namespace wildling::store {

/// A folder of its own that goes with the test.
class Folder {
 public:
  explicit Folder(const std::filesystem::path& under = std::filesystem::temp_directory_path()) {
    std::string name = (under / "wildling_store.XXXXXX").string();
    if (::mkdtemp(name.data()) == nullptr) throw std::runtime_error("no temporary folder");
    path_ = name;
  }

  ~Folder() {
    std::error_code ignored;
    std::filesystem::permissions(path_, std::filesystem::perms::owner_all, ignored);
    std::filesystem::remove_all(path_, ignored);
  }

  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;

  [[nodiscard]] std::string file(const std::string& name) const { return (path_ / name).string(); }

  [[nodiscard]] const std::filesystem::path& path() const { return path_; }

 private:
  std::filesystem::path path_;
};

/// Where files live in memory, so that thousands of commits do not wait for a disk.
inline std::filesystem::path fast_place() {
  return ::access("/dev/shm", W_OK) == 0 ? "/dev/shm" : std::filesystem::temp_directory_path();
}

inline ChangeSet act(std::vector<RowChange> rows) {
  ChangeSet changes;
  changes.who = "Sari";
  changes.why = "test";
  changes.face = "command line";
  changes.rows = std::move(rows);
  return changes;
}

inline Blob square(double lon_deg, double lat_deg) {
  return encode(MultiPolygon{{{{{{lon_deg, lat_deg},
                                 {lon_deg + 0.01, lat_deg},
                                 {lon_deg + 0.01, lat_deg + 0.01},
                                 {lon_deg, lat_deg + 0.01}}}}}});
}

inline Row site(const std::string& code, double lon_deg = 117, double lat_deg = -1) {
  return {{"code", code},
          {"name", "Invented site"},
          {"geom", square(lon_deg, lat_deg)},
          {"vertex_error_m", 5.0}};
}

inline Import weather_file() {
  Import file;
  file.kind = "weather";
  file.file_name = "rain.csv";
  file.sha256 = std::string(64, 'a');
  file.bytes = 1234;
  file.records_read = 3;
  file.records_kept = 3;
  return file;
}

/// The key of the error that `work` throws, or "" when it throws none.
template <typename Work>
std::string refusal(Work&& work) {
  try {
    work();
  } catch (const Error& error) {
    return error.message().key;
  }
  return "";
}

/// All rows of all tables that people write, without what every change renews.
inline std::map<std::string, std::vector<Row>> content(const Store& store,
                                                       bool with_versions = false) {
  std::map<std::string, std::vector<Row>> all;
  for (const TableDef& table : store.tables()) {
    if (!with_versions && !is_editable(table)) continue;
    auto rows = store.rows(table.name);
    for (Row& row : rows) {
      if (with_versions) continue;
      for (const char* renewed : {"row_version", "changed_utc", "who"}) row.erase(renewed);
    }
    if (!rows.empty()) all[table.name] = std::move(rows);
  }
  return all;
}

}  // namespace wildling::store
