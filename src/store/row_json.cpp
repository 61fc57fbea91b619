#include "store/row_json.hpp"

#include <array>

#include <nlohmann/json.hpp>

#include "base/error.hpp"

namespace wildling::store {
namespace {

using Json = nlohmann::json;

std::string to_hex(const Blob& blob) {
  constexpr std::string_view kDigits = "0123456789abcdef";
  std::string text;
  text.reserve(2 * blob.size());
  for (const std::uint8_t byte : blob) {
    text += kDigits[byte >> 4U];
    text += kDigits[byte & 15U];
  }
  return text;
}

[[noreturn]] void damaged() {
  throw Error(ErrorKind::input, "changes",
              say("store.damaged", {{"reason", std::string("changes")}}));
}

unsigned digit(char c) {
  if (c >= '0' && c <= '9') return static_cast<unsigned>(c - '0');
  if (c >= 'a' && c <= 'f') return static_cast<unsigned>(c - 'a') + 10U;
  damaged();
}

Blob from_hex(const std::string& text) {
  if (text.size() % 2 != 0) damaged();
  Blob blob;
  blob.reserve(text.size() / 2);
  for (std::size_t i = 0; i < text.size(); i += 2) {
    blob.push_back(static_cast<std::uint8_t>((digit(text[i]) << 4U) | digit(text[i + 1])));
  }
  return blob;
}

struct ToJson {
  Json operator()(std::monostate /*unused*/) const { return nullptr; }

  Json operator()(std::int64_t whole) const { return whole; }

  Json operator()(double real) const { return real; }

  Json operator()(const std::string& text) const { return text; }

  Json operator()(const Blob& blob) const { return Json{{"hex", to_hex(blob)}}; }
};

Value value_of(const Json& json) {
  if (json.is_null()) return {};
  if (json.is_number_integer()) return json.get<std::int64_t>();
  if (json.is_number_float()) return json.get<double>();
  if (json.is_string()) return json.get<std::string>();
  if (json.is_object() && json.size() == 1 && json.contains("hex") && json["hex"].is_string()) {
    return from_hex(json["hex"].get<std::string>());
  }
  damaged();
}

}  // namespace

std::string to_json(const Row& row) {
  Json json = Json::object();
  for (const auto& [name, value] : row) json[name] = std::visit(ToJson{}, value);
  return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

Row from_json(const std::string& text) {
  const Json json = Json::parse(text, nullptr, false);
  if (!json.is_object()) damaged();
  Row row;
  for (const auto& [name, value] : json.items()) row.emplace(name, value_of(value));
  return row;
}

}  // namespace wildling::store
