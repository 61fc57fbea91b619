#include "plan/jobs/problem_json.hpp"

#include <array>

#include "plan/message_json.hpp"

namespace wildling::plan {
namespace {

constexpr std::array<std::pair<ErrorKind, std::string_view>, 6> kKinds = {{
    {ErrorKind::usage, "usage"},
    {ErrorKind::input, "input"},
    {ErrorKind::infeasible, "infeasible"},
    {ErrorKind::conflict, "conflict"},
    {ErrorKind::io, "io"},
    {ErrorKind::internal, "internal"},
}};

nlohmann::json message_or_null(const Message& message) {
  return message.key.empty() ? nlohmann::json() : nlohmann::json(message);
}

}  // namespace

std::string_view error_kind_name(ErrorKind kind) {
  for (const auto& pair : kKinds) {
    if (pair.first == kind) return pair.second;
  }
  return "internal";
}

nlohmann::json problem_json(const Problem& problem) {
  return {{"kind", error_kind_name(problem.kind)},
          {"where", problem.where},
          {"message", problem.message}};
}

Problem problem_from(const nlohmann::json& json) {
  Problem problem;
  const auto kind = json.at("kind").get<std::string>();
  for (const auto& pair : kKinds) {
    if (pair.second == kind) problem.kind = pair.first;
  }
  problem.where = json.at("where").get<std::string>();
  problem.message = json.at("message").get<Message>();
  return problem;
}

nlohmann::json job_json(const Job& job) {
  return {{"id", job.id},
          {"kind", job.kind},
          {"asked", nlohmann::json::parse(job.asked)},
          {"state", job_state_name(job.state)},
          {"share", job.share},
          {"step", message_or_null(job.step)},
          {"error", job.problem ? problem_json(*job.problem) : nlohmann::json()},
          {"result", job.outcome.empty() ? nlohmann::json() : nlohmann::json::parse(job.outcome)},
          {"who", job.who},
          {"started_utc", job.started_utc},
          {"ended_utc", job.ended_utc}};
}

}  // namespace wildling::plan
