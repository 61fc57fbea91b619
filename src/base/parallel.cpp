#include "base/parallel.hpp"

#include <algorithm>
#include <atomic>
#include <cassert>
#include <exception>
#include <mutex>
#include <thread>
#include <vector>

#include "base/progress.hpp"

namespace wildling {

void check_stop(const Progress& progress) {
  if (progress.stop.stop_requested()) throw Cancelled{};
}

void parallel_for(std::size_t count, std::size_t chunk, unsigned threads,
                  const std::function<void(std::size_t, std::size_t)>& work,
                  const std::stop_token& stop) {
  assert(chunk > 0);
  const std::size_t chunks = (count + chunk - 1) / chunk;
  if (threads == 0) threads = std::max(1U, std::thread::hardware_concurrency());
  threads = static_cast<unsigned>(std::min<std::size_t>(threads, std::max<std::size_t>(chunks, 1)));
  std::atomic<std::size_t> next{0};
  std::atomic<bool> failed{false};
  std::exception_ptr first;
  std::mutex mutex;
  const auto loop = [&] {
    for (;;) {
      const std::size_t i = next.fetch_add(1);
      if (i >= chunks || failed.load() || stop.stop_requested()) return;
      try {
        work(i * chunk, std::min(count, (i + 1) * chunk));
      } catch (...) {
        const std::scoped_lock lock(mutex);
        if (!first) first = std::current_exception();
        failed.store(true);
      }
    }
  };
  {
    std::vector<std::jthread> pool;
    for (unsigned i = 1; i < threads; ++i) pool.emplace_back(loop);
    loop();
  }
  if (first) std::rethrow_exception(first);
  if (stop.stop_requested()) throw Cancelled{};
}

}  // namespace wildling
