#include "plan/message_json.hpp"

namespace wildling {
namespace {

using Json = nlohmann::json;

struct ToJson {
  Json operator()(const std::string& text) const { return text; }

  Json operator()(double number) const { return number; }

  Json operator()(std::int64_t number) const { return number; }

  Json operator()(Date day) const { return Json{{"day", iso_date(day)}}; }
};

Argument argument_from(const Json& json) {
  if (json.is_string()) return json.get<std::string>();
  if (json.is_number_integer()) return json.get<std::int64_t>();
  if (json.is_object()) return parse_iso_date(json.at("day").get<std::string>()).value_or(Date{});
  return json.get<double>();
}

std::string severity_word(Severity severity) {
  if (severity == Severity::note) return "note";
  return severity == Severity::changed ? "changed" : "set_aside";
}

}  // namespace

void to_json(Json& json, const Message& message) {
  Json arguments = Json::object();
  for (const auto& [name, value] : message.arguments) arguments[name] = std::visit(ToJson{}, value);
  json = Json{{"key", message.key}, {"arguments", arguments}};
  if (!message.opens.empty()) json["opens"] = message.opens;
}

void from_json(const Json& json, Message& message) {
  message.key = json.at("key").get<std::string>();
  message.opens = json.value("opens", std::map<std::string, std::string>{});
  message.arguments.clear();
  for (const auto& [name, value] : json.at("arguments").items())
    message.arguments[name] = argument_from(value);
}

namespace plan {

Json findings_json(const Findings& findings) {
  Json list = Json::array();
  for (const Finding& finding : findings) {
    list.push_back(Json{{"severity", severity_word(finding.severity)},
                        {"where", finding.where},
                        {"message", finding.message}});
  }
  return list;
}

}  // namespace plan
}  // namespace wildling
