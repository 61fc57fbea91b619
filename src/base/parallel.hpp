#pragma once
#include <cstddef>
#include <functional>
#include <stop_token>

namespace wildling {

/// Runs `work(begin, end)` over [0, count) in fixed chunks of `chunk` items on `threads` threads
/// (0 = as many as the machine has). Which chunk a thread takes differs from run to run; what a
/// chunk computes must depend on its indices only, so results have the same bits for any number of
/// threads. The first exception of a chunk ends the loop and is thrown again here; a stop request
/// ends it with Cancelled.
void parallel_for(std::size_t count, std::size_t chunk, unsigned threads,
                  const std::function<void(std::size_t begin, std::size_t end)>& work,
                  const std::stop_token& stop = {});

}  // namespace wildling
