#include <nlohmann/json.hpp>

#include "desk/entries.hpp"
#include "desk/routes.hpp"
#include "plan/parameter_list.hpp"

namespace wildling::desk {
namespace {

using nlohmann::json;

json maybe(const std::optional<double>& value) {
  return value ? json(*value) : json();
}

Answer parameters(Desk& desk, const Request& request, const std::vector<std::string>&) {
  const auto text = desk.cached<std::string>("parameter list", [](const store::Store& store) {
    json list = json::array();
    for (const plan::ParameterEntry& entry : plan::parameter_list(store))
      list.push_back(parameter_json(entry));
    return list.dump(-1, ' ', false, json::error_handler_t::replace);
  });
  return tagged(text_answer(text, "application/json"), request,
                "parameters-" + std::to_string(desk.data_version()));
}

// What a person may say about a number: where it comes from. The program alone computes or chooses.
Origin origin_said(const std::string& name) {
  const auto origin = parse_origin(name);
  if (!origin || *origin == Origin::computed || *origin == Origin::chosen)
    throw Error(ErrorKind::usage, "origin", say("desk.no_origin", {{"value", name}}));
  return *origin;
}

Answer change(Desk& desk, const Request& request, const std::vector<std::string>&) {
  const std::int64_t seen = version_seen(request);
  const json asked = object_of(request);
  const std::string key = text_member(asked, "key");
  const double value = number_member(asked, "value");
  const Origin origin = origin_said(maybe_text(asked, "origin").value_or("told"));
  const std::string source = text_member(asked, "source");
  if (source.find_first_not_of(" \t\n") == std::string::npos)
    throw Error(ErrorKind::usage, "source", say("desk.no_reason"));
  std::optional<plan::ParameterEntry> entry;
  desk.access().write([&](store::Store& store) {
    plan::change_parameter(store, key, value, origin, source, seen, desk.options().actor);
    entry = plan::parameter_entry(store, key);
  });
  return json_answer(parameter_json(*entry));
}

}  // namespace

json parameter_json(const plan::ParameterEntry& entry) {
  const Parameter& now = entry.now;
  return {{"key", now.key},
          {"value", now.value},
          {"shipped", entry.shipped},
          {"low", maybe(now.low)},
          {"high", maybe(now.high)},
          {"unit", now.unit},
          {"origin", origin_name(now.origin)},
          {"source", now.source},
          {"note", now.note},
          {"row_version", entry.row_version}};
}

Routes parameter_routes() {
  return {{"GET", "/api/parameters", parameters}, {"PUT", "/api/parameter", change}};
}

}  // namespace wildling::desk
