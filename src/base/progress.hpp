#pragma once
#include <functional>
#include <stop_token>

#include "base/message.hpp"

namespace wildling {

/// Passed into long work. `report(done, what)` may be empty; done is in [0, 1].
/// Work checks stop() between chunks and throws Cancelled; it must leave nothing half done.
struct Progress {
  std::function<void(double done, const Message& what)> report = {};
  std::stop_token stop = {};

  void say(double done, const Message& what) const {
    if (report) report(done, what);
  }
};

/// Thrown by work that was asked to stop. Not an Error: nobody did anything wrong.
struct Cancelled {};

/// Throws Cancelled when a stop was requested.
void check_stop(const Progress& progress);

}  // namespace wildling
