#pragma once
#include <atomic>
#include <chrono>
#include <memory>
#include <string>

#include "desk/connections.hpp"
#include "desk/desk.hpp"
#include "desk/gatekeeper.hpp"

namespace wildling::desk {

struct ServerOptions {
  int port = 0;  ///< 0 = a free one
  std::string key = {};
  std::string secret = {};  ///< empty = from the user's cache folder
  unsigned threads = 64;
  std::size_t body_most_bytes = 0;
  ConnectionLimits connections = {};
  std::chrono::milliseconds body = std::chrono::seconds(60);    ///< for a whole body
  std::chrono::milliseconds answer = std::chrono::seconds(60);  ///< for a whole answer
};

/// The server: this machine's loopback address, and nothing else.
class Server {
 public:
  /// Takes the port. @throws Error{io} when it is taken or may not be used
  Server(Desk& desk, Outside& outside, ServerOptions options);
  ~Server();
  Server(const Server&) = delete;
  Server& operator=(const Server&) = delete;

  [[nodiscard]] int port() const;
  /// "http://127.0.0.1:PORT/?key=KEY"
  [[nodiscard]] std::string address() const;

  /// Serves until stop() is called from another thread.
  void run();
  void stop();

 private:
  class Http;
  std::unique_ptr<Http> http_;
  std::string key_;
  std::atomic<bool> stopped_ = false;
};

}  // namespace wildling::desk
