#include <nlohmann/json.hpp>

#include "desk/entries.hpp"
#include "desk/routes.hpp"
#include "plan/jobs/problem_json.hpp"
#include "plan/jobs/work.hpp"

namespace wildling::desk {
namespace {

using nlohmann::json;

constexpr std::size_t kNewest = 20;

plan::JobWork plan_asked(Desk& desk, const json& asked) {
  plan::PlanOptions options;
  options.seed = Seed{maybe_seed(asked, "seed").value_or(1)};
  options.today = maybe_day(asked, "today").value_or(desk.today());
  options.program_version = desk.options().program_version;
  return plan::plan_work(desk.access(), options, desk.options().actor);
}

plan::JobWork reply_asked_for(Desk& desk, const json& asked) {
  return plan::reply_work(desk.access(), text_member(asked, "name"),
                          entries_of(asked.value("entries", json::object())),
                          maybe_day(asked, "today").value_or(desk.today()), desk.options().actor);
}

Answer start(Desk& desk, const Request& request, const std::vector<std::string>&) {
  const json asked = object_of(request);
  const std::string kind = text_member(asked, "kind");
  if (kind == "plan")
    return json_answer(plan::job_json(desk.jobs().start(plan_asked(desk, asked))), 202);
  if (kind == "reply")
    return json_answer(plan::job_json(desk.jobs().start(reply_asked_for(desk, asked))), 202);
  throw Error(ErrorKind::usage, "kind", say("desk.no_such_job_kind", {{"value", kind}}));
}

Answer list(Desk& desk, const Request&, const std::vector<std::string>&) {
  json all = json::array();
  for (const plan::Job& job : desk.jobs().newest(kNewest)) all.push_back(plan::job_json(job));
  return json_answer(all);
}

Answer none(const std::string& id) {
  return refusal(404, id, say("desk.no_such_job"));
}

Answer one(Desk& desk, const Request&, const std::vector<std::string>& stars) {
  const auto job = desk.jobs().find(stars.front());
  return job ? json_answer(plan::job_json(*job)) : none(stars.front());
}

Answer cancel(Desk& desk, const Request&, const std::vector<std::string>& stars) {
  const auto job = desk.jobs().cancel(stars.front());
  return job ? json_answer(plan::job_json(*job)) : none(stars.front());
}

Answer result(Desk& desk, const Request&, const std::vector<std::string>& stars) {
  const auto job = desk.jobs().find(stars.front());
  if (!job || !job->result) return none(stars.front());
  return text_answer(job->result, "application/json");
}

}  // namespace

Routes job_routes() {
  return {{"POST", "/api/jobs", start},
          {"GET", "/api/jobs", list},
          {"GET", "/api/jobs/*", one},
          {"POST", "/api/jobs/*/cancel", cancel},
          {"GET", "/api/jobs/*/result", result}};
}

}  // namespace wildling::desk
