#include "store/file_lock.hpp"

#include <array>
#include <cerrno>
#include <cstring>

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/error.hpp"

namespace wildling::store {
namespace {

std::string machine_name() {
  std::array<char, 256> name{};
  if (::gethostname(name.data(), name.size() - 1) != 0) return "?";
  return name.data();
}

[[noreturn]] void refuse(const std::string& path, int reason) {
  throw Error(ErrorKind::io, path,
              say("store.lock_failed", {{"reason", std::string(std::strerror(reason))}}));
}

[[noreturn]] void refuse_locked(const std::string& path, int file) {
  std::array<char, 512> held{};
  const ssize_t n = ::pread(file, held.data(), held.size() - 1, 0);
  std::string text(held.data(), n > 0 ? static_cast<std::size_t>(n) : 0U);
  const std::size_t space = text.find(' ');
  const std::string machine = space == std::string::npos ? "?" : text.substr(0, space);
  const std::string process =
      space == std::string::npos ? "?" : text.substr(space + 1, text.find('\n') - space - 1);
  throw Error(ErrorKind::io, path,
              say("store.locked", {{"machine", machine}, {"process", process}}));
}

/// True while the name still stands for the open file: its last holder may have removed it in
/// between.
bool still_named(const std::string& lock_path, int file) {
  struct stat by_name {};

  struct stat by_file {};

  return ::stat(lock_path.c_str(), &by_name) == 0 && ::fstat(file, &by_file) == 0 &&
         by_name.st_ino == by_file.st_ino && by_name.st_dev == by_file.st_dev;
}

int open_locked(const std::string& path, const std::string& lock_path) {
  for (;;) {
    const int file = ::open(lock_path.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0666);
    if (file < 0) refuse(path, errno);
    int locked = 0;
    do {
      locked = ::flock(file, LOCK_EX | LOCK_NB);
    } while (locked != 0 && errno == EINTR);
    const int reason = errno;
    try {
      if (locked != 0 && reason == EWOULDBLOCK) refuse_locked(path, file);
      if (locked != 0) refuse(path, reason);
    } catch (...) {
      ::close(file);
      throw;
    }
    if (still_named(lock_path, file)) return file;
    ::close(file);
  }
}

}  // namespace

FileLock::FileLock(const std::string& path)
    : lock_path_(path + ".lock"), file_(open_locked(path, lock_path_)) {
  const std::string text = fmt::format("{} {}\n", machine_name(), ::getpid());
  // What the file says helps people only; a full disk must not keep them from opening.
  if (::ftruncate(file_, 0) == 0) {
    [[maybe_unused]] const ssize_t written = ::pwrite(file_, text.data(), text.size(), 0);
  }
}

FileLock::~FileLock() {
  ::unlink(lock_path_.c_str());
  ::close(file_);
}

}  // namespace wildling::store
