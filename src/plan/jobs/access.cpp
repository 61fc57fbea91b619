#include "plan/jobs/access.hpp"

#include <filesystem>
#include <thread>

#include <unistd.h>

#include "base/progress.hpp"

namespace wildling::plan {
namespace {

using Clock = std::chrono::steady_clock;

constexpr std::size_t kReadersKept = 4;
constexpr auto kLook = std::chrono::milliseconds(25);  // between two tries for the lock

bool may_write(const std::string& path) {
  const std::string folder = std::filesystem::path(path).parent_path().string();
  return ::access(path.c_str(), W_OK) == 0 &&
         ::access(folder.empty() ? "." : folder.c_str(), W_OK) == 0;
}

bool held_by_another(const Error& error) {
  return error.kind() == ErrorKind::io && error.message().key == "store.locked";
}

}  // namespace

FileAccess::FileAccess(std::string path, Outside& outside)
    : path_(std::move(path)), outside_(outside) {
  // A first look tells a file that is no programme apart from one that may not be written.
  store::open_file(path_, store::OpenMode::read_only, outside_);
  if (!may_write(path_)) {
    findings_ = store::open_file(path_, store::OpenMode::read_only, outside_)->findings();
    return;
  }
  const auto store = open_to_write(std::chrono::seconds(5), {});
  writable_ = !store->read_only();
  findings_ = store->findings();
}

FileAccess::~FileAccess() {
  readers_.clear();
  if (!writable_) return;
  try {
    // Opening and closing for writing folds the log of the last acts into the file.
    open_to_write(std::chrono::milliseconds(0), {});
  } catch (const std::exception&) {
    return;  // somebody else writes, and will do it
  }
}

void FileAccess::read(const std::function<void(const store::Store&)>& use) {
  std::unique_ptr<store::Store> reader;
  {
    const std::scoped_lock lock(readers_mutex_);
    if (!readers_.empty()) {
      reader = std::move(readers_.back());
      readers_.pop_back();
    }
  }
  if (!reader) reader = store::open_file(path_, store::OpenMode::read_only, outside_);
  use(*reader);
  const std::scoped_lock lock(readers_mutex_);
  if (readers_.size() < kReadersKept) readers_.push_back(std::move(reader));
}

std::unique_ptr<store::Store> FileAccess::open_to_write(std::chrono::milliseconds patience,
                                                        const std::stop_token& stop) {
  const auto until = Clock::now() + patience;
  for (;;) {
    if (stop.stop_requested()) throw Cancelled{};
    try {
      return store::open_file(path_, store::OpenMode::read_write, outside_);
    } catch (const Error& error) {
      if (!held_by_another(error) || Clock::now() >= until) throw;
    }
    std::this_thread::sleep_for(kLook);
  }
}

void FileAccess::write(const std::function<void(store::Store&)>& use,
                       std::chrono::milliseconds patience, const std::stop_token& stop) {
  if (!writable_) throw Error(ErrorKind::usage, "", say("store.read_only"));
  std::unique_lock lock(writing_, std::defer_lock);
  // Our own acts are short: they wait for each other in turn.
  while (!lock.try_lock_for(kLook)) {
    if (stop.stop_requested()) throw Cancelled{};
  }
  const auto store = open_to_write(patience, stop);
  use(*store);
}

}  // namespace wildling::plan
