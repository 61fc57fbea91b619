#include "desk/http.hpp"

#include <nlohmann/json.hpp>

#include "plan/jobs/problem_json.hpp"
#include "plan/message_json.hpp"

namespace wildling::desk {
namespace {

constexpr std::size_t kMostJson = 1U << 20U;

std::string text_of(const nlohmann::json& json) {
  // A name that came in with broken letters must not end the answer.
  return json.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

}  // namespace

std::string Request::header(const std::string& name) const {
  const auto found = headers.find(name);
  return found == headers.end() ? std::string() : found->second;
}

std::optional<std::string> Request::asked(const std::string& name) const {
  const auto found = query.find(name);
  return found == query.end() ? std::nullopt : std::optional<std::string>(found->second);
}

std::string Request::needed(const std::string& name) const {
  const auto found = asked(name);
  if (!found || found->empty()) throw Error(ErrorKind::usage, name, say("desk.field_missing"));
  return *found;
}

Answer json_answer(const nlohmann::json& json, int status) {
  Answer answer;
  answer.status = status;
  answer.body = std::make_shared<const std::string>(text_of(json));
  return answer;
}

Answer text_answer(std::shared_ptr<const std::string> text, const std::string& type) {
  Answer answer;
  answer.type = type;
  answer.body = std::move(text);
  return answer;
}

Answer problem_answer(const Error& error) {
  return json_answer(plan::problem_json({error.kind(), error.where(), error.message()}),
                     http_status(error.kind()));
}

Answer refusal(int status, const std::string& where, const Message& message) {
  return json_answer(plan::problem_json({ErrorKind::usage, where, message}), status);
}

nlohmann::json object_of(const Request& request) {
  if (request.body.size() > kMostJson)
    throw Error(ErrorKind::usage, "", say("desk.json_too_large"));
  nlohmann::json json;
  try {
    json = nlohmann::json::parse(request.body);
  } catch (const nlohmann::json::parse_error& fault) {
    throw Error(ErrorKind::usage, "",
                say("desk.not_json", {{"at", static_cast<std::int64_t>(fault.byte)}}));
  }
  if (!json.is_object()) throw Error(ErrorKind::usage, "", say("desk.not_object"));
  return json;
}

Answer tagged(Answer answer, const Request& request, const std::string& tag) {
  const std::string quoted = '"' + tag + '"';
  answer.headers.emplace("ETag", quoted);
  const std::string known = request.header("if-none-match");
  if (known == quoted || known == "W/" + quoted) {
    answer.status = 304;
    answer.body.reset();
  }
  return answer;
}

}  // namespace wildling::desk
