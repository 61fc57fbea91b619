#include "desk/gatekeeper.hpp"

#include <algorithm>

namespace wildling::desk {
namespace {

bool starts_with(const std::string& text, std::string_view start) {
  return std::string_view(text).substr(0, start.size()) == start;
}

// The value of a cookie in "a=1; b=2".
std::string cookie_of(const std::string& header, const std::string& name) {
  std::string_view rest = header;
  while (!rest.empty()) {
    const std::size_t end = std::min(rest.find(';'), rest.size());
    std::string_view pair = rest.substr(0, end);
    while (!pair.empty() && pair.front() == ' ') pair.remove_prefix(1);
    const std::size_t sign = pair.find('=');
    if (sign != std::string_view::npos && pair.substr(0, sign) == name)
      return std::string(pair.substr(sign + 1));
    rest.remove_prefix(std::min(end + 1, rest.size()));
  }
  return "";
}

bool has_body(const Request& request) {
  return request.method == "POST" || request.method == "PUT";
}

bool says_length(const Request& request) {
  return !request.header("content-length").empty() || !request.header("transfer-encoding").empty();
}

bool is_known_body(const Request& request) {
  const std::string type = request.header("content-type");
  if (type.empty()) return request.header("content-length") == "0";
  return starts_with(type, "application/json") || starts_with(type, "application/octet-stream");
}

bool is_known_method(const std::string& method) {
  return method == "GET" || method == "HEAD" || method == "POST" || method == "PUT";
}

Answer to_the_page() {
  Answer answer;
  answer.status = 303;
  answer.headers.emplace("Location", "/");
  return answer;
}

}  // namespace

bool same_secret(std::string_view a, std::string_view b) {
  if (a.size() != b.size()) return false;
  unsigned difference = 0;
  for (std::size_t i = 0; i < a.size(); ++i)
    difference |=
        static_cast<unsigned>(static_cast<unsigned char>(a[i]) ^ static_cast<unsigned char>(b[i]));
  return difference == 0;
}

Gatekeeper::Gatekeeper(int port, std::string key, std::string secret)
    : host_number_("127.0.0.1:" + std::to_string(port)),
      host_name_("localhost:" + std::to_string(port)),
      cookie_("wildling_" + std::to_string(port)),
      secret_(std::move(secret)),
      key_(std::move(key)) {}

bool Gatekeeper::host_is_ours(const Request& request) const {
  const std::string host = request.header("host");
  return host == host_number_ || host == host_name_;
}

bool Gatekeeper::comes_from_us(const Request& request) const {
  const auto origin = request.headers.find("origin");
  if (origin != request.headers.end() && origin->second != "http://" + request.header("host"))
    return false;
  const std::string site = request.header("sec-fetch-site");
  return site.empty() || site == "same-origin" || site == "none";
}

bool Gatekeeper::knows_secret(const Request& request) const {
  return same_secret(cookie_of(request.header("cookie"), cookie_), secret_);
}

std::optional<Answer> Gatekeeper::first_visit(const Request& request) {
  const auto brought = request.asked("key");
  if (request.method != "GET" || request.path != "/" || !brought) return {};
  if (knows_secret(request)) return to_the_page();
  const std::scoped_lock lock(mutex_);
  if (key_.empty() || !same_secret(*brought, key_)) return refusal(403, "", say("desk.key_used"));
  key_.clear();
  Answer answer = to_the_page();
  answer.headers.emplace("Set-Cookie",
                         cookie_ + "=" + secret_ + "; Path=/; HttpOnly; SameSite=Strict");
  return answer;
}

std::optional<Answer> Gatekeeper::stop(const Request& request) {
  if (!host_is_ours(request)) return refusal(403, "", say("desk.foreign_host"));
  if (!comes_from_us(request)) return refusal(403, "", say("desk.foreign_origin"));
  if (!is_known_method(request.method)) return refusal(405, request.method, say("desk.no_method"));
  if (auto answer = first_visit(request)) return answer;
  if (!knows_secret(request)) return refusal(403, "", say("desk.no_cookie"));
  if (has_body(request) && !says_length(request)) return refusal(411, "", say("desk.no_length"));
  if (has_body(request) && !is_known_body(request)) return refusal(415, "", say("desk.body_type"));
  return {};
}

}  // namespace wildling::desk
