#include "desk/open.hpp"

#include <csignal>
#include <cstdlib>
#include <filesystem>
#include <ostream>
#include <thread>

#include <malloc.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include "desk/server.hpp"
#include "plan/programme.hpp"
#include "store/file_lock.hpp"

namespace wildling::desk {
namespace {

/// The signals that end a program, held back in this thread and all that it starts, so that they
/// can be waited for.
class EndSignals {
 public:
  EndSignals() {
    ::sigemptyset(&wanted_);
    for (const int signal : {SIGINT, SIGTERM, SIGHUP}) ::sigaddset(&wanted_, signal);
    ::pthread_sigmask(SIG_BLOCK, &wanted_, &before_);
  }

  ~EndSignals() { ::pthread_sigmask(SIG_SETMASK, &before_, nullptr); }

  EndSignals(const EndSignals&) = delete;
  EndSignals& operator=(const EndSignals&) = delete;

  /// @return true when one came within half a second
  [[nodiscard]] bool came() const {
    const timespec patience{0, 500'000'000};
    return ::sigtimedwait(&wanted_, nullptr, &patience) > 0;
  }

 private:
  sigset_t wanted_{}, before_{};
};

// One page per programme: two would not know of each other's jobs.
std::unique_ptr<store::FileLock> page_lock(const std::string& path) {
  const std::string real = std::filesystem::canonical(path).string();
  if (::access(std::filesystem::path(real).parent_path().c_str(), W_OK) != 0) return nullptr;
  try {
    return std::make_unique<store::FileLock>(real + ".page");
  } catch (const Error& error) {
    if (error.message().key != "store.locked") throw;
    throw Error(ErrorKind::io, path, say("desk.open_already", error.message().arguments));
  }
}

DeskOptions desk_options(const OpenOptions& options, const Faces& faces, plan::Access& access) {
  DeskOptions wanted;
  wanted.file_name = std::filesystem::path(options.path).filename().string();
  wanted.program_version = options.program_version;
  wanted.language = options.language;
  wanted.today = options.today;
  wanted.actor = {options.who, "page"};
  wanted.faces = faces;
  access.read([&](const store::Store& store) {
    wanted.upload_most_bytes =
        static_cast<std::size_t>(plan::programme_parameters(store).value("desk.upload_most_mb"))
        << 20U;
  });
  return wanted;
}

void start_browser(const std::string& address) {
  if (std::getenv("DISPLAY") == nullptr && std::getenv("WAYLAND_DISPLAY") == nullptr) return;
  std::string program = "xdg-open";
  std::string argument = address;
  char* const arguments[] = {program.data(), argument.data(), nullptr};
  pid_t child = 0;
  if (::posix_spawnp(&child, "xdg-open", nullptr, nullptr, arguments, environ) == 0)
    std::thread([child] { ::waitpid(child, nullptr, 0); }).detach();
}

void tell(const Findings& findings, const Words& words, std::ostream& notes) {
  for (const Finding& finding : findings) notes << words.text(finding) << '\n';
}

}  // namespace

int open_programme(const OpenOptions& options, const Faces& faces, std::ostream& out,
                   std::ostream& notes) {
  // Sixty-four threads must not keep a heap each.
  ::mallopt(M_ARENA_MAX, 4);
  const EndSignals signals;
  const Words words(parse_language(options.language).value_or(Language::en));
  Machine outside;
  plan::FileAccess access(options.path, outside);
  const auto lock = page_lock(options.path);
  tell(access.findings(), words, notes);
  plan::Jobs jobs(access, outside);
  Desk desk(access, jobs, outside, desk_options(options, faces, access));
  ServerOptions wanted;
  wanted.port = options.port;
  wanted.body_most_bytes = desk.options().upload_most_bytes;
  Server server(desk, outside, wanted);
  notes << words.text("desk.listening", {{"file", desk.options().file_name}}) << '\n';
  out << server.address() << std::endl;
  if (options.browser) start_browser(server.address());
  std::atomic<bool> ended = false;
  const std::jthread serving([&] {
    server.run();
    ended = true;
  });
  while (!ended && !signals.came()) continue;
  server.stop();
  return 0;
}

}  // namespace wildling::desk
