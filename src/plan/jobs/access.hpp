#pragma once
/// How a program that stays open reaches its programme file. Nobody holds the right to write longer
/// than one act takes, so the command line and an open page work on the same file side by side.
#include <chrono>
#include <functional>
#include <memory>
#include <mutex>
#include <stop_token>
#include <string>
#include <vector>

#include "base/outside.hpp"
#include "store/store.hpp"

namespace wildling::plan {

/// Thread-safe. `use` may throw; what it throws comes out.
class Access {
 public:
  Access() = default;
  Access(const Access&) = delete;
  Access& operator=(const Access&) = delete;
  virtual ~Access() = default;

  /// Several may read at the same time, also while somebody writes.
  virtual void read(const std::function<void(const store::Store&)>& use) = 0;

  /// One at a time. Waits for another program that writes, at most `patience`.
  /// @throws Error{usage} when the programme can only be read; Error{io} when another program still
  /// writes; Cancelled when `stop` is requested while it waits
  virtual void write(const std::function<void(store::Store&)>& use,
                     std::chrono::milliseconds patience = std::chrono::seconds(2),
                     const std::stop_token& stop = {}) = 0;

  [[nodiscard]] virtual bool writable() const = 0;
};

/// A programme file. Opening brings an older file up to date. Reading connections stay open; the
/// lock is taken for each act and given back.
class FileAccess : public Access {
 public:
  /// @throws as store::open_file
  FileAccess(std::string path, Outside& outside);
  /// Leaves one file that opens from a write-protected stick, when nobody else has it open.
  ~FileAccess() override;

  void read(const std::function<void(const store::Store&)>& use) override;
  void write(const std::function<void(store::Store&)>& use, std::chrono::milliseconds patience,
             const std::stop_token& stop) override;

  [[nodiscard]] bool writable() const override { return writable_; }

  /// What opening had to say.
  [[nodiscard]] const Findings& findings() const { return findings_; }

 private:
  std::unique_ptr<store::Store> open_to_write(std::chrono::milliseconds patience,
                                              const std::stop_token& stop);

  std::string path_;
  Outside& outside_;
  bool writable_ = false;
  Findings findings_;
  std::mutex readers_mutex_;
  std::vector<std::unique_ptr<store::Store>> readers_;  ///< those that nobody uses now
  std::timed_mutex writing_;
};

/// One store that is open already, such as one in memory.
class StoreAccess : public Access {
 public:
  explicit StoreAccess(store::Store& store) : store_(store) {}

  void read(const std::function<void(const store::Store&)>& use) override { use(store_); }

  void write(const std::function<void(store::Store&)>& use, std::chrono::milliseconds,
             const std::stop_token&) override {
    const std::scoped_lock lock(writing_);
    use(store_);
  }

  [[nodiscard]] bool writable() const override { return !store_.read_only(); }

 private:
  store::Store& store_;
  std::mutex writing_;
};

}  // namespace wildling::plan
