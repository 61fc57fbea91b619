#pragma once
#include <string>

namespace wildling::store {

/// The right to write to a file: an flock on FILE.lock, which holds the machine's name and the
/// process number. A process that dies gives it up; the lock file that it leaves does not matter.
class FileLock {
 public:
  /// @throws Error{io} when another process (or another open programme of this one) has it, naming
  /// machine and process
  explicit FileLock(const std::string& path);
  ~FileLock();
  FileLock(const FileLock&) = delete;
  FileLock& operator=(const FileLock&) = delete;

 private:
  std::string lock_path_;
  int file_ = -1;
};

}  // namespace wildling::store
