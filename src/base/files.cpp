#include "base/files.hpp"

#include <cerrno>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <sstream>

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/error.hpp"

namespace wildling {
namespace {

[[noreturn]] void fail_writing(const std::string& path, int reason) {
  throw Error(ErrorKind::io, path,
              say("base.file_not_written", {{"reason", std::string(std::strerror(reason))}}));
}

void write_all(int file, std::string_view bytes, const std::string& path) {
  while (!bytes.empty()) {
    const ssize_t n = ::write(file, bytes.data(), bytes.size());
    if (n < 0 && errno == EINTR) continue;
    if (n < 0) fail_writing(path, errno);
    bytes.remove_prefix(static_cast<std::size_t>(n));
  }
  if (::fsync(file) != 0) fail_writing(path, errno);
}

}  // namespace

std::string read_file(const std::string& path, std::size_t limit_bytes) {
  std::error_code status;
  if (!std::filesystem::exists(path, status))
    throw Error(ErrorKind::input, path, say("base.file_missing"));
  if (std::filesystem::is_directory(path, status))
    throw Error(ErrorKind::input, path, say("base.file_is_folder"));
  std::ifstream file(path, std::ios::binary);
  if (!file) throw Error(ErrorKind::input, path, say("base.file_unreadable"));
  std::string bytes;
  std::string buffer(1U << 16U, '\0');
  while (file.read(buffer.data(), static_cast<std::streamsize>(buffer.size())) ||
         file.gcount() > 0) {
    bytes.append(buffer.data(), static_cast<std::size_t>(file.gcount()));
    if (bytes.size() > limit_bytes) {
      throw Error(ErrorKind::input, path,
                  say("base.file_too_large",
                      {{"limit_mb", static_cast<std::int64_t>(limit_bytes >> 20U)}}));
    }
  }
  return bytes;
}

void write_file(const std::string& path, std::string_view bytes, bool overwrite) {
  std::error_code status;
  if (!overwrite && std::filesystem::exists(path, status)) {
    throw Error(ErrorKind::usage, path, say("base.file_exists"));
  }
  std::string temporary = path + ".XXXXXX";
  const int file = ::mkstemp(temporary.data());
  if (file < 0) fail_writing(path, errno);
  try {
    ::fchmod(file, 0644);
    write_all(file, bytes, path);
    ::close(file);
  } catch (...) {
    ::close(file);
    ::unlink(temporary.c_str());
    throw;
  }
  if (::rename(temporary.c_str(), path.c_str()) != 0) {
    const int reason = errno;
    ::unlink(temporary.c_str());
    fail_writing(path, reason);
  }
}

}  // namespace wildling
