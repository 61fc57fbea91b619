#include <cstdlib>
#include <filesystem>

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/files.hpp"
#include "desk/gatekeeper.hpp"

namespace wildling::desk {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t kLeast = 32;  // hexadecimal digits of a secret

// A file that others could have read or written is no secret.
std::string read_own(const std::string& path) {
  struct stat found {};

  if (::lstat(path.c_str(), &found) != 0 || !S_ISREG(found.st_mode)) return "";
  if (found.st_uid != ::getuid() || (found.st_mode & 077U) != 0) return "";
  try {
    std::string text = read_file(path, 4096);
    while (!text.empty() && text.back() == '\n') text.pop_back();
    const bool digits = text.find_first_not_of("0123456789abcdef") == std::string::npos;
    return digits && text.size() >= kLeast ? text : "";
  } catch (const Error&) {
    return "";
  }
}

bool write_own(const std::string& path, const std::string& text) {
  ::unlink(path.c_str());
  const int file = ::open(path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0600);
  if (file < 0) return false;
  const bool whole = ::write(file, text.data(), text.size()) == static_cast<ssize_t>(text.size());
  ::close(file);
  if (!whole) ::unlink(path.c_str());
  return whole;
}

}  // namespace

std::string cache_folder() {
  const char* own = std::getenv("XDG_CACHE_HOME");
  if (own != nullptr && *own == '/') return std::string(own) + "/wildling";
  const char* home = std::getenv("HOME");
  if (home != nullptr && *home == '/') return std::string(home) + "/.cache/wildling";
  return "";
}

std::string kept_secret(int port, const std::string& folder, const std::string& fresh) {
  if (folder.empty()) return fresh;
  const std::string path = folder + "/page-" + std::to_string(port);
  std::string known = read_own(path);
  if (!known.empty()) return known;
  std::error_code fault;
  fs::create_directories(folder, fault);
  if (!fault) write_own(path, fresh);
  return fresh;
}

}  // namespace wildling::desk
