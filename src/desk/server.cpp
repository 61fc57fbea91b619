#include "desk/server.hpp"

#include <atomic>
#include <set>

#include <netinet/in.h>
#include <netinet/tcp.h>
#include <sys/socket.h>
#include <unistd.h>

#include "desk/rules.hpp"
#include "desk/socket_stream.hpp"

namespace wildling::desk {
namespace {

/// Work that arrives on the accepting thread is done there: it only hands the socket on.
class HandOn : public httplib::TaskQueue {
 public:
  void enqueue(std::function<void()> hand_on) override { hand_on(); }

  void shutdown() override {}
};

// The headers that somebody here reads.
constexpr std::array<const char*, 10> kHeadersRead = {
    "Host",          "Origin",         "Sec-Fetch-Site",    "Cookie",
    "Content-Type",  "Content-Length", "Transfer-Encoding", "If-Match",
    "If-None-Match", "Accept-Language"};

std::string lower(std::string text) {
  for (char& c : text) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return text;
}

Request request_from(const httplib::Request& from, std::string_view body = {}) {
  Request request;
  request.method = from.method;
  request.path = from.path;
  request.query.insert(from.params.begin(), from.params.end());
  for (const char* name : kHeadersRead) {
    if (from.has_header(name)) request.headers[lower(name)] = from.get_header_value(name);
  }
  request.body = body;
  return request;
}

void put(const Answer& answer, httplib::Response& to) {
  to.status = answer.status;
  for (const auto& [name, value] : answer.headers) to.set_header(name, value);
  if (answer.headers.find("Cache-Control") == answer.headers.end())
    to.set_header("Cache-Control", "no-cache");
  if (!answer.body) return;
  if (answer.body->empty()) {
    to.set_content("", answer.type);
    return;
  }
  // The body may belong to a cache: it is sent as it lies there.
  to.set_content_provider(
      answer.body->size(), answer.type,
      [body = answer.body](std::size_t offset, std::size_t length, httplib::DataSink& sink) {
        return sink.write(body->data() + offset, std::min(length, body->size() - offset));
      });
}

httplib::Headers rules() {
  return {{"Content-Security-Policy", kContentSecurityPolicy},
          {"X-Content-Type-Options", "nosniff"},
          {"Referrer-Policy", "no-referrer"},
          {"Cross-Origin-Resource-Policy", "same-origin"},
          {"Cross-Origin-Opener-Policy", "same-origin"}};
}

}  // namespace

/// The library's server with connections and threads of our own.
class Server::Http : public httplib::Server {
 public:
  Http(Desk& desk, Outside& outside, wildling::desk::ServerOptions options)
      : desk_(desk), options_(std::move(options)) {
    new_task_queue = [] { return new HandOn; };
    // Not the library's own: with those a second server could share the port.
    set_socket_options([](socket_t socket) {
      const int yes = 1;
      ::setsockopt(socket, SOL_SOCKET, SO_REUSEADDR, &yes, sizeof yes);
    });
    set_default_headers(rules());
    set_payload_max_length(options_.body_most_bytes);
    // Told to the client only: how long it may keep a connection without asking anything.
    set_keep_alive_timeout(
        std::chrono::duration_cast<std::chrono::seconds>(options_.connections.idle).count() / 2);
    set_keep_alive_max_count(10'000);
    set_tcp_nodelay(true);  // head and body are sent apart: without it a short answer waits 40 ms
    take_port();
    if (options_.secret.empty())
      options_.secret = kept_secret(port_, cache_folder(), outside.new_uid() + outside.new_uid());
    gatekeeper_ = std::make_unique<Gatekeeper>(port_, options_.key, options_.secret);
    add_handlers();
    pool_ = std::make_unique<httplib::ThreadPool>(options_.threads);
    connections_ = std::make_unique<Connections>(options_.connections,
                                                 [this](int socket) { hand_to_pool(socket); });
  }

  ~Http() override {
    end_all();
    connections_->close();
    pool_->shutdown();
  }

  Http(const Http&) = delete;
  Http& operator=(const Http&) = delete;

  [[nodiscard]] int port() const { return port_; }

  /// Nothing more is read from anybody; answers on their way go out.
  void end_all() {
    stopping_ = true;
    const std::scoped_lock lock(served_mutex_);
    for (const int socket : served_) ::shutdown(socket, SHUT_RD);
  }

 private:
  void take_port() {
    const bool taken = options_.port == 0 ? (port_ = bind_to_any_port("127.0.0.1")) > 0
                                          : bind_to_port("127.0.0.1", port_ = options_.port);
    if (!taken)
      throw Error(ErrorKind::io, "",
                  say("desk.port_taken", {{"port", std::int64_t{options_.port}}}));
    // The library lets five connections queue; the sixth would try again after a second.
    ::listen(svr_sock_, 128);
  }

  void add_handlers() {
    set_pre_routing_handler([this](const httplib::Request& from, httplib::Response& to) {
      auto answer = gatekeeper_->stop(request_from(from));
      if (!answer && from.get_header_value<std::uint64_t>("Content-Length") > most())
        answer = too_large();
      if (!answer) return HandlerResponse::Unhandled;
      put(*answer, to);
      // The body of a refused request stays unread: the connection cannot be used again.
      if (from.method != "GET" && from.method != "HEAD") give_up_connection(to);
      return HandlerResponse::Handled;
    });
    const auto handler = [this](const httplib::Request& from, httplib::Response& to) {
      put(desk_.answer(request_from(from)), to);
    };
    Get(".*", handler);
    // The library would keep a body in chunks, or a packed one, however long it gets: it is
    // gathered here.
    const auto with_body = [this](const httplib::Request& from, httplib::Response& to,
                                  const httplib::ContentReader& read) {
      std::string body;
      bool over = false;
      const bool whole = read([&](const char* bytes, std::size_t size) {
        over = body.size() + size > most();
        if (!over) body.append(bytes, size);
        return !over;
      });
      if (whole) {
        put(desk_.answer(request_from(from, body)), to);
      } else {
        put(over ? too_large() : refusal(400, "", say("desk.no_request")), to);
        give_up_connection(to);
      }
    };
    Post(".*", with_body);
    Put(".*", with_body);
    // What the library itself refuses: a line that is no request.
    set_error_handler(HandlerWithResponse([](const httplib::Request&, httplib::Response& to) {
      if (to.has_header("Content-Type") || to.status == 304) return HandlerResponse::Unhandled;
      put(refusal(to.status, "", say("desk.no_request")), to);
      give_up_connection(to);
      return HandlerResponse::Handled;
    }));
  }

  [[nodiscard]] std::size_t most() const { return options_.body_most_bytes; }

  [[nodiscard]] Answer too_large() const {
    const auto most_mb = static_cast<std::int64_t>(most() >> 20U);
    return refusal(413, "", say("desk.body_too_large", {{"most_mb", most_mb}}));
  }

  void hand_to_pool(int socket) {
    pool_->enqueue([this, socket] { serve(socket); });
  }

  // Called by the library for every new connection.
  bool process_and_close_socket(socket_t socket) override {
    // Header and body go out in two writes; without this the second waits 40 ms for an echo.
    const int yes = 1;
    ::setsockopt(socket, IPPROTO_TCP, TCP_NODELAY, &yes, sizeof yes);
    connections_->wait_for(socket);
    return true;
  }

  // One request whose header lies ready; then the connection waits again.
  void serve(int socket) {
    {
      const std::scoped_lock lock(served_mutex_);
      served_.insert(socket);
    }
    const bool keep = !stopping_ && serve_requests(socket);
    {
      const std::scoped_lock lock(served_mutex_);
      served_.erase(socket);
    }
    if (keep) {
      connections_->wait_for(socket);
    } else {
      close_gently(socket);
    }
  }

  // @return true when the connection may be used again
  bool serve_requests(int socket) {
    SocketStream stream(socket, options_.body, options_.answer);
    do {
      stream.begin_request();
      given_up() = false;
      bool closed = false;
      const bool good = process_request(stream, false, closed, [](httplib::Request& request) {
        // On this machine packing costs more time than it saves.
        request.headers.erase("Accept-Encoding");
      });
      if (!good || closed || given_up() || stream.broken() || stopping_) return false;
    } while (stream.holds_bytes());
    return true;
  }

  // A request is answered on one thread from its first byte to its last.
  static bool& given_up() {
    static thread_local bool flag = false;
    return flag;
  }

  static void give_up_connection(httplib::Response& to) {
    given_up() = true;
    to.set_header("Connection", "close");
  }

  // A socket that is closed with unread bytes takes back what was sent last: read on for a moment.
  void close_gently(int socket) {
    ::shutdown(socket, SHUT_WR);
    if (!stopping_) {
      SocketStream rest(socket, std::chrono::milliseconds(500), std::chrono::milliseconds(0));
      std::array<char, 16384> bytes{};
      while (rest.read(bytes.data(), bytes.size()) > 0) continue;
    }
    ::close(socket);
  }

  Desk& desk_;
  wildling::desk::ServerOptions options_;
  int port_ = 0;
  std::atomic<bool> stopping_ = false;
  std::mutex served_mutex_;
  std::set<int> served_;
  std::unique_ptr<Gatekeeper> gatekeeper_;
  std::unique_ptr<httplib::ThreadPool> pool_;
  std::unique_ptr<Connections> connections_;
};

Server::Server(Desk& desk, Outside& outside, ServerOptions options) {
  if (options.key.empty()) options.key = outside.new_uid();
  key_ = options.key;
  http_ = std::make_unique<Http>(desk, outside, std::move(options));
}

Server::~Server() = default;

int Server::port() const {
  return http_->port();
}

std::string Server::address() const {
  return "http://127.0.0.1:" + std::to_string(port()) + "/?key=" + key_;
}

void Server::run() {
  if (!stopped_) http_->listen_after_bind();
}

void Server::stop() {
  stopped_ = true;
  http_->end_all();
  // The library forgets a stop that comes before it listens.
  for (int i = 0; i < 200 && !http_->is_running(); ++i)
    std::this_thread::sleep_for(std::chrono::milliseconds(5));
  http_->stop();
}

}  // namespace wildling::desk
