#pragma once
/// What follows from the programme alone is made once per data version, however many pages ask.
#include <cstdint>
#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <string>

namespace wildling::desk {

/// Thread-safe. Those who ask for the same thing at the same time wait for one making.
class Cache {
 public:
  /// @param make  gives the thing for this version; what it throws is thrown, and nothing is kept
  template <typename T>
  std::shared_ptr<const T> get(const std::string& name, std::int64_t version,
                               const std::function<std::shared_ptr<const T>()>& make) {
    return std::static_pointer_cast<const T>(
        found(name, version, [&] { return std::static_pointer_cast<const void>(make()); }));
  }

 private:
  struct Slot {
    std::mutex mutex;
    std::int64_t version = -1;
    std::shared_ptr<const void> thing;
  };

  std::shared_ptr<const void> found(const std::string& name, std::int64_t version,
                                    const std::function<std::shared_ptr<const void>()>& make) {
    std::shared_ptr<Slot> slot;
    {
      const std::scoped_lock lock(mutex_);
      auto& place = slots_[name];
      if (!place) place = std::make_shared<Slot>();
      slot = place;
    }
    const std::scoped_lock lock(slot->mutex);
    if (!slot->thing || slot->version != version) {
      slot->thing = make();
      slot->version = version;
    }
    return slot->thing;
  }

  std::mutex mutex_;
  std::map<std::string, std::shared_ptr<Slot>> slots_;
};

}  // namespace wildling::desk
