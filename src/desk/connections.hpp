#pragma once
/// Connections that wait. A browser keeps several open and a slow client may dribble: none of them
/// holds a thread. One thread watches all waiting sockets and hands a socket on only when a whole
/// header lies ready to be read; a client that does not bring one in time is dropped.
#include <chrono>
#include <functional>
#include <map>
#include <mutex>
#include <thread>

namespace wildling::desk {

struct ConnectionLimits {
  std::chrono::milliseconds header = std::chrono::seconds(10);  ///< from its first byte to its end
  std::chrono::milliseconds idle = std::chrono::seconds(20);    ///< before the first byte
  std::size_t header_bytes = 32U << 10U;
  std::size_t most = 400;  ///< waiting at the same time; the one that waits longest goes first
};

class Connections {
 public:
  /// @param ready  called on the watching thread with a socket whose next header is complete; it
  ///               owns the socket from then on, and gives it back with wait_for() or closes it
  Connections(const ConnectionLimits& limits, std::function<void(int)> ready);
  ~Connections();
  Connections(const Connections&) = delete;
  Connections& operator=(const Connections&) = delete;

  /// Takes a socket over until its next header is there.
  void wait_for(int socket);

  /// Drops all that wait, and everything that comes later; `ready` is not called any more.
  void close();

  [[nodiscard]] std::size_t waiting() const;

 private:
  using Clock = std::chrono::steady_clock;

  struct Waiting {
    Clock::time_point since = {};
    Clock::time_point first_byte = {};  ///< the clock's start = none yet
  };

  enum class Look { nothing, part, whole, too_long, gone };

  void watch(const std::stop_token& stop);
  void look_at(int socket);
  [[nodiscard]] Look look(int socket) const;
  void drop_late();
  void drop_oldest();
  /// Forgets the socket; the caller holds the mutex.
  void let_go(int socket);
  void wake() const;

  ConnectionLimits limits_;
  std::function<void(int)> ready_;
  int poll_ = -1;
  int bell_ = -1;
  mutable std::mutex mutex_;
  std::map<int, Waiting> waiting_;
  bool closed_ = false;
  std::jthread thread_;
};

}  // namespace wildling::desk
