#pragma once
#include <string>

namespace wildling::exports {

/// A file that a library writes by name: it is written under a temporary name in the same folder
/// and renamed when all is well; otherwise the temporary file is removed and an old file stays
/// untouched.
class WholeFile {
 public:
  /// @throws Error{usage} when `path` exists and `overwrite` is false; Error{io} when the folder
  /// cannot be written
  WholeFile(std::string path, bool overwrite);
  WholeFile(const WholeFile&) = delete;
  WholeFile& operator=(const WholeFile&) = delete;
  ~WholeFile();

  [[nodiscard]] const std::string& temporary() const { return temporary_; }

  [[nodiscard]] const std::string& path() const { return path_; }

  /// Flushes to the disk and renames. @throws Error{io}
  void keep();

 private:
  std::string path_;
  std::string temporary_;
  bool kept_ = false;
};

}  // namespace wildling::exports
