#include "export/whole_file.hpp"

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <utility>

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/error.hpp"

namespace wildling::exports {
namespace {

[[noreturn]] void fail(const std::string& path, int reason) {
  throw Error(ErrorKind::io, path,
              say("base.file_not_written", {{"reason", std::string(std::strerror(reason))}}));
}

}  // namespace

WholeFile::WholeFile(std::string path, bool overwrite)
    : path_(std::move(path)), temporary_(path_ + ".XXXXXX") {
  std::error_code status;
  if (std::filesystem::is_directory(path_, status))
    throw Error(ErrorKind::usage, path_, say("base.file_is_folder"));
  if (!overwrite && std::filesystem::exists(path_, status)) {
    throw Error(ErrorKind::usage, path_, say("base.file_exists"));
  }
  const int file = ::mkstemp(temporary_.data());
  if (file < 0) fail(path_, errno);
  ::fchmod(file, 0644);
  ::close(file);
}

WholeFile::~WholeFile() {
  if (!kept_) ::unlink(temporary_.c_str());
}

void WholeFile::keep() {
  const int file = ::open(temporary_.c_str(), O_RDONLY | O_CLOEXEC);
  if (file < 0) fail(path_, errno);
  const int synced = ::fsync(file);
  const int reason = errno;
  ::close(file);
  if (synced != 0) fail(path_, reason);
  if (::rename(temporary_.c_str(), path_.c_str()) != 0) fail(path_, errno);
  kept_ = true;
}

}  // namespace wildling::exports
