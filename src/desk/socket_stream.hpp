#pragma once
#include <array>
#include <chrono>

#include <httplib.h>

namespace wildling::desk {

/// A socket as the HTTP library reads and writes it, with deadlines for a whole body and a whole
/// answer. (The library's own timeouts are per read: a client that dribbles would never be
/// dropped.)
class SocketStream : public httplib::Stream {
 public:
  using Clock = std::chrono::steady_clock;

  /// @param read_for   time for everything that is read
  /// @param write_for  time for everything that is written
  SocketStream(int socket, std::chrono::milliseconds read_for, std::chrono::milliseconds write_for);

  [[nodiscard]] bool is_readable() const override;
  [[nodiscard]] bool is_writable() const override;
  ssize_t read(char* to, size_t size) override;
  ssize_t write(const char* from, size_t size) override;
  void get_remote_ip_and_port(std::string& ip, int& port) const override;
  void get_local_ip_and_port(std::string& ip, int& port) const override;

  [[nodiscard]] socket_t socket() const override { return socket_; }

  /// Bytes that were received and not read by anybody.
  [[nodiscard]] bool holds_bytes() const { return begin_ < end_; }

  /// A read or write failed or came too late: the connection is of no more use.
  [[nodiscard]] bool broken() const { return broken_; }

  /// Starts the clocks again, for the next request.
  void begin_request();

 private:
  /// Waits for the socket until `until`. @return false when the time is over
  [[nodiscard]] bool ready(short what, Clock::time_point until) const;

  int socket_;
  std::chrono::milliseconds read_for_, write_for_;
  Clock::time_point read_until_, write_until_;
  bool writing_ = false;
  bool broken_ = false;
  std::array<char, 16384> buffer_{};
  std::size_t begin_ = 0, end_ = 0;
};

}  // namespace wildling::desk
