#include <array>

#include "base/embedded.hpp"
#include "desk/routes.hpp"

namespace wildling::desk {
namespace {

constexpr std::array<std::pair<std::string_view, std::string_view>, 12> kTypes = {{
    {".html", "text/html; charset=utf-8"},
    {".js", "text/javascript; charset=utf-8"},
    {".mjs", "text/javascript; charset=utf-8"},
    {".css", "text/css; charset=utf-8"},
    {".json", "application/json"},
    {".svg", "image/svg+xml"},
    {".png", "image/png"},
    {".ico", "image/x-icon"},
    {".woff2", "font/woff2"},
    {".webmanifest", "application/manifest+json"},
    {".txt", "text/plain; charset=utf-8"},
    {".map", "application/json"},
}};

std::string type_of(std::string_view name) {
  const std::size_t dot = name.rfind('.');
  const std::string_view ending = dot == std::string_view::npos ? "" : name.substr(dot);
  for (const auto& pair : kTypes) {
    if (pair.first == ending) return std::string(pair.second);
  }
  return "application/octet-stream";
}

bool is_packed(std::string_view bytes) {
  return bytes.size() > 2 && bytes.substr(0, 2) == std::string_view("\x1f\x8b", 2);
}

// File names of the build's assets carry a hash of what is in them.
bool never_changes(std::string_view path) {
  return path.substr(0, 8) == "/assets/";
}

Answer no_page() {
  return text_answer(
      std::make_shared<const std::string>(
          "<!doctype html><meta charset=\"utf-8\"><title>Wildling</title>"
          "<p>The page was not built into this program. ./dev demo builds it; the command line "
          "shows everything as well: wildling show FILE."),
      "text/html; charset=utf-8");
}

}  // namespace

Answer static_file(const Request& request) {
  if (request.method != "GET" && request.method != "HEAD")
    return refusal(405, request.path, say("desk.no_method"));
  const std::string path = request.path == "/" ? "/index.html" : request.path;
  const auto bytes = embedded_file("page" + path);
  if (!bytes) {
    return request.path == "/" ? no_page()
                               : refusal(404, request.path, say("desk.no_such_address"));
  }
  Answer answer = text_answer(std::make_shared<const std::string>(*bytes), type_of(path));
  if (is_packed(*bytes)) answer.headers.emplace("Content-Encoding", "gzip");
  answer.headers.emplace("Cache-Control",
                         never_changes(path) ? "private, max-age=31536000, immutable" : "no-cache");
  return answer;
}

}  // namespace wildling::desk
