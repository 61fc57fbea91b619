// The server over real sockets: who is answered, who is dropped, and that nobody starves.
#include "desk/server.hpp"

#include <atomic>
#include <thread>

#include <arpa/inet.h>
#include <gtest/gtest.h>
#include <httplib.h>
#include <netinet/in.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include "help.hpp"

namespace wildling::desk {
namespace {

using namespace std::chrono_literals;

constexpr const char* kSecret = "0123456789abcdef0123456789abcdef";

ServerOptions quick() {
  ServerOptions options;
  options.key = "thekey";
  options.secret = kSecret;
  options.body_most_bytes = 1U << 20U;
  options.connections.header = 400ms;
  options.connections.idle = 600ms;
  options.body = 500ms;
  return options;
}

/// A page that is open and served.
struct Open {
  explicit Open(bool with_plan = false, const ServerOptions& options = quick())
      : page(with_plan), server(page.desk, page.machine, options) {
    thread = std::jthread([this] { server.run(); });
  }

  ~Open() { server.stop(); }

  [[nodiscard]] httplib::Headers cookie() const {
    return {{"Cookie", "wildling_" + std::to_string(server.port()) + "=" + kSecret}};
  }

  [[nodiscard]] httplib::Client client() const {
    httplib::Client made("127.0.0.1", server.port());
    made.set_default_headers(cookie());
    made.set_read_timeout(5);
    return made;
  }

  MemoryDesk page;
  Server server;
  std::jthread thread;
};

/// A client that says exactly what the test wants.
class Raw {
 public:
  explicit Raw(int port) : socket_(::socket(AF_INET, SOCK_STREAM, 0)) {
    sockaddr_in to{};
    to.sin_family = AF_INET;
    to.sin_port = htons(static_cast<std::uint16_t>(port));
    to.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    connected_ = ::connect(socket_, reinterpret_cast<sockaddr*>(&to), sizeof to) == 0;
  }

  ~Raw() { ::close(socket_); }

  Raw(const Raw&) = delete;
  Raw& operator=(const Raw&) = delete;

  [[nodiscard]] bool connected() const { return connected_; }

  bool say(std::string_view text) const {
    return ::send(socket_, text.data(), text.size(), MSG_NOSIGNAL) ==
           static_cast<ssize_t>(text.size());
  }

  /// All that comes until the server closes or nothing comes for `patience`.
  [[nodiscard]] std::string hear(std::chrono::milliseconds patience) const {
    std::string all;
    for (;;) {
      pollfd watched{socket_, POLLIN, 0};
      if (::poll(&watched, 1, static_cast<int>(patience.count())) <= 0) return all;
      char bytes[4096];
      const ssize_t n = ::recv(socket_, bytes, sizeof bytes, 0);
      if (n <= 0) return all;
      all.append(bytes, static_cast<std::size_t>(n));
    }
  }

  /// True when the server has closed.
  [[nodiscard]] bool dropped_within(std::chrono::milliseconds patience) const {
    pollfd watched{socket_, POLLIN, 0};
    if (::poll(&watched, 1, static_cast<int>(patience.count())) <= 0) return false;
    char byte = 0;
    return ::recv(socket_, &byte, 1, 0) <= 0;
  }

 private:
  int socket_;
  bool connected_ = false;
};

std::string head_of(const Open& open, const std::string& line, const std::string& more = "") {
  const std::string port = std::to_string(open.server.port());
  return line + " HTTP/1.1\r\nHost: 127.0.0.1:" + port + "\r\nCookie: wildling_" + port + "=" +
         kSecret + "\r\n" + more;
}

TEST(Server, TheKeyBecomesACookieOnce) {
  const Open open;
  httplib::Client stranger("127.0.0.1", open.server.port());
  EXPECT_EQ(stranger.Get("/api/state")->status, 403);
  const auto first = stranger.Get("/?key=thekey");
  EXPECT_EQ(first->status, 303);
  EXPECT_NE(first->get_header_value("Set-Cookie").find(kSecret), std::string::npos);
  EXPECT_EQ(stranger.Get("/?key=thekey")->status, 403);
  EXPECT_EQ(open.client().Get("/api/state")->status, 200);
}

TEST(Server, EveryAnswerCarriesTheRules) {
  const Open open;
  for (const auto& answer : {open.client().Get("/api/state"), open.client().Get("/none")}) {
    EXPECT_NE(answer->get_header_value("Content-Security-Policy").find("default-src 'none'"),
              std::string::npos);
    EXPECT_EQ(answer->get_header_value("X-Content-Type-Options"), "nosniff");
    EXPECT_EQ(answer->get_header_value("Referrer-Policy"), "no-referrer");
  }
}

TEST(Server, ForeignHostsAndOriginsAreRefused) {
  const Open open;
  auto client = open.client();
  const auto ask = [&](const char* name, const char* value) {
    httplib::Headers headers = open.cookie();
    headers.emplace(name, value);
    httplib::Client plain("127.0.0.1", open.server.port());
    return plain.Get("/api/state", headers)->status;
  };
  EXPECT_EQ(ask("Host", "evil.example"), 403);
  EXPECT_EQ(ask("Origin", "http://evil.example"), 403);
  EXPECT_EQ(ask("Sec-Fetch-Site", "cross-site"), 403);
}

TEST(Server, OnlyThisMachineIsListenedTo) {
  const Open open;
  EXPECT_EQ(open.server.address().substr(0, 17), "http://127.0.0.1:");
}

TEST(Server, PathsThatClimbAreNotFound) {
  const Open open;
  for (const char* path : {"/../../etc/passwd", "/%2e%2e/%2e%2e/etc/passwd", "/assets/..%5c..%5cx",
                           "/..%00/x", "//etc/passwd"}) {
    const Raw raw(open.server.port());
    raw.say(head_of(open, std::string("GET ") + path, "\r\n"));
    const std::string heard = raw.hear(1s);
    EXPECT_TRUE(heard.empty() || heard.substr(9, 3) == "404" || heard.substr(9, 3) == "400")
        << path << heard;
    EXPECT_EQ(heard.find("root:"), std::string::npos);
  }
}

TEST(Server, BrokenJsonAndFormsGetASentence) {
  const Open open;
  auto client = open.client();
  const auto broken = client.Post("/api/jobs", "{\"kind\":", "application/json");
  EXPECT_EQ(broken->status, 400);
  EXPECT_NE(broken->body.find("desk.not_json"), std::string::npos);
  const auto form = open.client().Post("/api/answer", "who=x", "application/x-www-form-urlencoded");
  EXPECT_EQ(form->status, 415);
  EXPECT_NE(form->body.find("desk.body_type"), std::string::npos);
}

TEST(Server, AnUploadOverTheLimitIsRefusedWithTheLimit) {
  const Open open;
  const std::string large(3U << 20U, 'x');
  const auto answer =
      open.client().Post("/api/take?what=weather&name=rain.csv", large, "application/octet-stream");
  ASSERT_TRUE(answer);
  EXPECT_EQ(answer->status, 413);
  EXPECT_NE(answer->body.find("desk.body_too_large"), std::string::npos);
  EXPECT_EQ(open.client().Get("/api/state")->status, 200);
}

TEST(Server, AChunkedUploadOverTheLimitIsRefusedToo) {
  const Open open;
  const auto answer = open.client().Post(
      "/api/take?what=weather&name=rain.csv",
      [](std::size_t offset, httplib::DataSink& sink) {
        const std::string part(100'000, 'x');
        if (offset > 3'000'000) {
          sink.done();
        } else {
          sink.write(part.data(), part.size());
        }
        return true;
      },
      "application/octet-stream");
  if (answer) {
    EXPECT_EQ(answer->status, 413);
  }
  EXPECT_EQ(open.client().Get("/api/state")->status, 200);
}

TEST(Server, AChunkOverTheLimitIsRefusedBeforeTheBodyEnds) {
  const Open open;
  const Raw raw(open.server.port());
  const std::string head =
      head_of(open, "POST /api/take?what=weather&name=rain.csv",
              "Content-Type: application/octet-stream\r\nTransfer-Encoding: chunked\r\n\r\n");
  raw.say(head + "40000000\r\n" + std::string((1U << 20U) + 8192, 'x'));
  EXPECT_EQ(raw.hear(400ms).substr(9, 3), "413");
}

TEST(Server, ALengthOverTheLimitIsRefusedBeforeTheBodyIsRead) {
  const Open open;
  const Raw raw(open.server.port());
  raw.say(head_of(open, "POST /api/take?what=weather&name=rain.csv",
                  "Content-Type: application/octet-stream\r\nContent-Length: 1048577\r\n\r\n"));
  EXPECT_EQ(raw.hear(400ms).substr(9, 3), "413");
}

TEST(Server, ABodyInChunksArrivesWhole) {
  const Open open;
  const Raw raw(open.server.port());
  raw.say(head_of(open, "POST /api/jobs",
                  "Content-Type: application/json\r\nTransfer-Encoding: chunked\r\n\r\n"
                  "8\r\n{\"kind\":\r\n7\r\n\"moon\"}\r\n0\r\n\r\n"));
  EXPECT_NE(raw.hear(400ms).find("desk.no_such_job_kind"), std::string::npos);
}

TEST(Server, AClientThatDribblesItsHeaderIsDropped) {
  const Open open;
  const Raw raw(open.server.port());
  const std::string head = head_of(open, "GET /api/state");
  bool said = true;
  for (std::size_t i = 0; i < 40 && said; ++i) {
    said = raw.say(head.substr(i, 1));
    std::this_thread::sleep_for(40ms);
    if (raw.dropped_within(0ms)) said = false;
  }
  EXPECT_FALSE(said);
}

TEST(Server, AClientThatDribblesItsBodyIsDropped) {
  const Open open;
  const Raw raw(open.server.port());
  raw.say(head_of(open, "POST /api/jobs",
                  "Content-Type: application/json\r\nContent-Length: 1000\r\n\r\n"));
  bool said = true;
  for (std::size_t i = 0; i < 100 && said; ++i) {
    said = raw.say("x");
    std::this_thread::sleep_for(30ms);
    if (raw.dropped_within(0ms)) said = false;
  }
  EXPECT_FALSE(said);
}

TEST(Server, AClientThatSaysNothingIsDropped) {
  const Open open;
  const Raw raw(open.server.port());
  EXPECT_TRUE(raw.dropped_within(3s));
}

TEST(Server, AHeaderWithoutEndIsRefused) {
  const Open open;
  const Raw raw(open.server.port());
  raw.say(head_of(open, "GET /api/state", "X-Long: " + std::string(40'000, 'a')));
  EXPECT_EQ(raw.hear(2s).substr(0, 12), "HTTP/1.1 431");
}

TEST(Server, NoiseIsAnsweredOrDropped) {
  const Open open;
  for (const char* noise :
       {"\r\n\r\n", "GET\r\n\r\n", "\x16\x03\x01\x02\r\n\r\n", "GET / HTTP/9.9\r\n\r\n",
        "POST / HTTP/1.1\r\nContent-Length: -1\r\n\r\n",
        "GET / HTTP/1.1\r\nContent-Length: 99999999999999999999\r\n\r\n"}) {
    const Raw raw(open.server.port());
    raw.say(noise);
    const std::string heard = raw.hear(1500ms);
    EXPECT_TRUE(heard.empty() || heard.substr(0, 9) == "HTTP/1.1 ") << noise;
    EXPECT_EQ(heard.find("200 OK"), std::string::npos);
  }
  EXPECT_EQ(open.client().Get("/api/state")->status, 200);
}

TEST(Server, AHundredSlowClientsKeepNobodyWaiting) {
  ServerOptions options = quick();
  options.threads = 4;
  options.connections.header = 20s;
  options.connections.idle = 20s;
  const Open open(false, options);
  std::vector<std::unique_ptr<Raw>> slow;
  for (int i = 0; i < 100; ++i) {
    slow.push_back(std::make_unique<Raw>(open.server.port()));
    if (i % 2 == 0) slow.back()->say("GET / HT");
  }
  const auto answer = open.client().Get("/api/state");
  ASSERT_TRUE(answer);
  EXPECT_EQ(answer->status, 200);
}

TEST(Server, AConnectionServesManyRequests) {
  const Open open;
  const Raw raw(open.server.port());
  for (int i = 0; i < 5; ++i) {
    ASSERT_TRUE(raw.say(head_of(open, "GET /api/jobs", "\r\n")));
    EXPECT_EQ(raw.hear(150ms).substr(0, 15), "HTTP/1.1 200 OK");
  }
}

TEST(Server, TwoRequestsInOnePieceAreBothAnswered) {
  const Open open;
  const Raw raw(open.server.port());
  const std::string one = head_of(open, "GET /api/jobs", "\r\n");
  raw.say(one + one);
  const std::string heard = raw.hear(300ms);
  const std::size_t first = heard.find("HTTP/1.1 200");
  EXPECT_NE(heard.find("HTTP/1.1 200", first + 1), std::string::npos);
}

TEST(Server, TheBodyOfARefusedRequestIsNoRequest) {
  const Open open;
  const Raw raw(open.server.port());
  const std::string inner = head_of(open, "GET /api/jobs", "\r\n");
  const std::string port = std::to_string(open.server.port());
  raw.say("POST /api/jobs HTTP/1.1\r\nHost: 127.0.0.1:" + port +
          "\r\nContent-Type: application/json\r\nContent-Length: " + std::to_string(inner.size()) +
          "\r\n\r\n" + inner);
  const std::string heard = raw.hear(1s);
  EXPECT_EQ(heard.substr(9, 3), "403");
  EXPECT_EQ(heard.find("200 OK"), std::string::npos);
}

TEST(Server, TwentyClientsAtOnceAllGetTheirAnswers) {
  const Open open(true);
  std::atomic<int> good = 0;
  {
    std::vector<std::jthread> clients;
    for (int i = 0; i < 20; ++i) {
      clients.emplace_back([&] {
        auto client = open.client();
        client.set_keep_alive(true);
        for (const char* path : {"/api/state", "/api/plan", "/api/land",
                                 "/api/workings?key=parameter/layout.spacing", "/api/parameters"}) {
          const auto answer = client.Get(path);
          good += answer && answer->status == 200 ? 1 : 0;
        }
      });
    }
  }
  EXPECT_EQ(good, 100);
}

TEST(Server, AJobIsStartedWatchedAndItsPlanShown) {
  const Open open;
  auto client = open.client();
  const auto started = client.Post("/api/jobs", R"({"kind":"plan","seed":3})", "application/json");
  ASSERT_EQ(started->status, 202) << started->body;
  const std::string id = json::parse(started->body).at("id");
  json job;
  for (int i = 0; i < 3000; ++i) {
    job = json::parse(client.Get("/api/jobs/" + id)->body);
    if (job.at("state") != "waiting" && job.at("state") != "running") break;
    std::this_thread::sleep_for(20ms);
  }
  EXPECT_EQ(job.at("state"), "done") << job;
  EXPECT_EQ(job.at("result").at("number"), 1);
  EXPECT_EQ(json::parse(client.Get("/api/state")->body).at("plan").at("seed"), "3");
  EXPECT_EQ(client.Get("/api/plan")->status, 200);
}

TEST(Server, ACancelledPlanEndsAtOnceAndLeavesNothing) {
  const Open open;
  auto client = open.client();
  const auto started = client.Post("/api/jobs", R"({"kind":"plan"})", "application/json");
  const std::string id = json::parse(started->body).at("id");
  const json job =
      json::parse(client.Post("/api/jobs/" + id + "/cancel", "", "application/json")->body);
  EXPECT_EQ(job.at("state"), "cancelled");
  EXPECT_EQ(open.page.store->count("plans"), 0);
}

TEST(Server, UnknownJobsAndKindsAreRefused) {
  const Open open;
  auto client = open.client();
  EXPECT_EQ(client.Get("/api/jobs/none")->status, 404);
  EXPECT_EQ(client.Post("/api/jobs/none/cancel", "", "application/json")->status, 404);
  EXPECT_EQ(client.Post("/api/jobs", R"({"kind":"moon"})", "application/json")->status, 400);
  EXPECT_EQ(client.Post("/api/jobs", R"({"kind":"plan","seed":-1})", "application/json")->status,
            400);
}

TEST(Server, ATakenPortIsSaidByNumber) {
  const Open open;
  ServerOptions options = quick();
  options.port = open.server.port();
  MemoryDesk page;
  try {
    const Server second(page.desk, page.machine, options);
    FAIL();
  } catch (const wildling::Error& error) {
    EXPECT_EQ(error.message().key, "desk.port_taken");
  }
}

TEST(Server, StopsAlsoWhenItHasNotStarted) {
  MemoryDesk page;
  Server server(page.desk, page.machine, quick());
  std::jthread stopping([&] { server.stop(); });
  server.run();
}

}  // namespace
}  // namespace wildling::desk
