#include "desk/connections.hpp"

#include <array>
#include <cerrno>
#include <string_view>
#include <vector>

#include <sys/epoll.h>
#include <sys/eventfd.h>
#include <sys/socket.h>
#include <unistd.h>

#include "base/error.hpp"

namespace wildling::desk {
namespace {

constexpr int kLookEveryMs = 250;  // for clients that are late

void close_socket(int socket) {
  ::shutdown(socket, SHUT_RDWR);
  ::close(socket);
}

void refuse_header(int socket) {
  constexpr std::string_view kText =
      "HTTP/1.1 431 Request Header Fields Too Large\r\nContent-Length: 0\r\nConnection: "
      "close\r\n\r\n";
  [[maybe_unused]] const ssize_t sent =
      ::send(socket, kText.data(), kText.size(), MSG_NOSIGNAL | MSG_DONTWAIT);
}

}  // namespace

Connections::Connections(const ConnectionLimits& limits, std::function<void(int)> ready)
    : limits_(limits),
      ready_(std::move(ready)),
      poll_(::epoll_create1(EPOLL_CLOEXEC)),
      bell_(::eventfd(0, EFD_CLOEXEC | EFD_NONBLOCK)) {
  epoll_event event{};
  event.events = EPOLLIN;
  event.data.fd = bell_;
  if (poll_ < 0 || bell_ < 0 || ::epoll_ctl(poll_, EPOLL_CTL_ADD, bell_, &event) != 0)
    throw Error(ErrorKind::io, "", say("desk.no_sockets"));
  thread_ = std::jthread([this](const std::stop_token& stop) { watch(stop); });
}

Connections::~Connections() {
  close();
  ::close(bell_);
  ::close(poll_);
}

void Connections::close() {
  thread_.request_stop();
  wake();
  if (thread_.joinable()) thread_.join();
  const std::scoped_lock lock(mutex_);
  closed_ = true;
  for (const auto& pair : waiting_) close_socket(pair.first);
  waiting_.clear();
}

void Connections::wake() const {
  const std::uint64_t one = 1;
  [[maybe_unused]] const ssize_t written = ::write(bell_, &one, sizeof one);
}

std::size_t Connections::waiting() const {
  const std::scoped_lock lock(mutex_);
  return waiting_.size();
}

void Connections::wait_for(int socket) {
  const std::scoped_lock lock(mutex_);
  if (closed_) {
    close_socket(socket);
    return;
  }
  if (waiting_.size() >= limits_.most) drop_oldest();
  waiting_[socket] = {Clock::now(), {}};
  epoll_event event{};
  // Edge-triggered: a dribbling client wakes us once per arrival, not all the time.
  event.events = EPOLLIN | EPOLLRDHUP | EPOLLET;
  event.data.fd = socket;
  if (::epoll_ctl(poll_, EPOLL_CTL_ADD, socket, &event) != 0) {
    waiting_.erase(socket);
    close_socket(socket);
  }
}

void Connections::let_go(int socket) {
  ::epoll_ctl(poll_, EPOLL_CTL_DEL, socket, nullptr);
  waiting_.erase(socket);
}

void Connections::drop_oldest() {
  auto oldest = waiting_.begin();
  for (auto it = waiting_.begin(); it != waiting_.end(); ++it) {
    if (it->second.since < oldest->second.since) oldest = it;
  }
  if (oldest == waiting_.end()) return;
  const int socket = oldest->first;
  let_go(socket);
  close_socket(socket);
}

Connections::Look Connections::look(int socket) const {
  std::vector<char> bytes(limits_.header_bytes);
  const ssize_t n = ::recv(socket, bytes.data(), bytes.size(), MSG_PEEK | MSG_DONTWAIT);
  if (n == 0) return Look::gone;
  if (n < 0) return errno == EAGAIN || errno == EINTR ? Look::nothing : Look::gone;
  const std::string_view text(bytes.data(), static_cast<std::size_t>(n));
  if (text.find("\r\n\r\n") != std::string_view::npos) return Look::whole;
  return text.size() == bytes.size() ? Look::too_long : Look::part;
}

void Connections::look_at(int socket) {
  {
    const std::scoped_lock lock(mutex_);
    const auto found = waiting_.find(socket);
    if (found == waiting_.end()) return;
    const Look seen = look(socket);
    if (seen == Look::nothing) return;
    if (seen == Look::part) {
      if (found->second.first_byte == Clock::time_point{}) found->second.first_byte = Clock::now();
      return;
    }
    let_go(socket);
    if (seen != Look::whole) {
      if (seen == Look::too_long) refuse_header(socket);
      close_socket(socket);
      return;
    }
  }
  ready_(socket);
}

void Connections::drop_late() {
  const std::scoped_lock lock(mutex_);
  const auto now = Clock::now();
  std::vector<int> late;
  for (const auto& [socket, waiting] : waiting_) {
    const bool began = waiting.first_byte != Clock::time_point{};
    if (began ? now - waiting.first_byte > limits_.header : now - waiting.since > limits_.idle)
      late.push_back(socket);
  }
  for (const int socket : late) {
    let_go(socket);
    close_socket(socket);
  }
}

void Connections::watch(const std::stop_token& stop) {
  std::array<epoll_event, 64> events{};
  while (!stop.stop_requested()) {
    const int n = ::epoll_wait(poll_, events.data(), static_cast<int>(events.size()), kLookEveryMs);
    for (int i = 0; i < n; ++i) {
      const int socket = events.at(static_cast<std::size_t>(i)).data.fd;
      if (socket != bell_) {
        look_at(socket);
        continue;
      }
      std::uint64_t rung = 0;
      [[maybe_unused]] const ssize_t read = ::read(bell_, &rung, sizeof rung);
    }
    drop_late();
  }
}

}  // namespace wildling::desk
