#include "desk/socket_stream.hpp"

#include <algorithm>
#include <cerrno>

#include <poll.h>

namespace wildling::desk {

SocketStream::SocketStream(int socket, std::chrono::milliseconds read_for,
                           std::chrono::milliseconds write_for)
    : socket_(socket), read_for_(read_for), write_for_(write_for) {
  begin_request();
}

void SocketStream::begin_request() {
  read_until_ = Clock::now() + read_for_;
  writing_ = false;
}

bool SocketStream::ready(short what, Clock::time_point until) const {
  for (;;) {
    const auto left = std::chrono::duration_cast<std::chrono::milliseconds>(until - Clock::now());
    if (left.count() <= 0) return false;
    pollfd watched{socket_, what, 0};
    const int n =
        ::poll(&watched, 1, static_cast<int>(std::min<std::int64_t>(left.count(), 60'000)));
    if (n > 0) return true;
    if (n < 0 && errno != EINTR) return false;
  }
}

bool SocketStream::is_readable() const {
  return holds_bytes() || ready(POLLIN, read_until_);
}

bool SocketStream::is_writable() const {
  return ready(POLLOUT, writing_ ? write_until_ : Clock::now() + write_for_);
}

ssize_t SocketStream::read(char* to, size_t size) {
  if (!holds_bytes()) {
    ssize_t n = 0;
    do {
      if (broken_ || !ready(POLLIN, read_until_))
        n = -1;
      else
        n = ::recv(socket_, buffer_.data(), buffer_.size(), 0);
    } while (n < 0 && errno == EINTR && !broken_ && Clock::now() < read_until_);
    if (n <= 0) {
      broken_ = true;
      return n;
    }
    begin_ = 0;
    end_ = static_cast<std::size_t>(n);
  }
  const std::size_t taken = std::min(size, end_ - begin_);
  std::copy_n(buffer_.begin() + static_cast<std::ptrdiff_t>(begin_), taken, to);
  begin_ += taken;
  return static_cast<ssize_t>(taken);
}

ssize_t SocketStream::write(const char* from, size_t size) {
  if (!writing_) {
    writing_ = true;
    write_until_ = Clock::now() + write_for_;
  }
  if (broken_ || !ready(POLLOUT, write_until_)) {
    broken_ = true;
    return -1;
  }
  const ssize_t n = ::send(socket_, from, size, MSG_NOSIGNAL | MSG_DONTWAIT);
  if (n < 0 && (errno == EAGAIN || errno == EINTR)) return 0;
  if (n < 0) broken_ = true;
  return n;
}

void SocketStream::get_remote_ip_and_port(std::string& ip, int& port) const {
  ip = "127.0.0.1";
  port = 0;
}

void SocketStream::get_local_ip_and_port(std::string& ip, int& port) const {
  ip = "127.0.0.1";
  port = 0;
}

}  // namespace wildling::desk
