#include "desk/desk.hpp"

#include <malloc.h>
#include <nlohmann/json.hpp>

#include "desk/routes.hpp"
#include "plan/keep.hpp"

namespace wildling::desk {
namespace {

constexpr std::string_view kApi = "/api/";

// Parts of a path between slashes; no part of ours is empty.
std::vector<std::string_view> parts_of(std::string_view path) {
  std::vector<std::string_view> parts;
  while (!path.empty()) {
    path.remove_prefix(1);
    const std::size_t end = std::min(path.find('/'), path.size());
    parts.push_back(path.substr(0, end));
    path.remove_prefix(end);
  }
  return parts;
}

std::optional<std::vector<std::string>> fit(std::string_view pattern, std::string_view path) {
  const auto wanted = parts_of(pattern);
  const auto found = parts_of(path);
  if (wanted.size() != found.size()) return {};
  std::vector<std::string> stars;
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    if (wanted[i] == "*") {
      stars.emplace_back(found[i]);
    } else if (wanted[i] != found[i]) {
      return {};
    }
  }
  return stars;
}

Answer dispatch(Desk& desk, const Request& request) {
  if (request.path.empty() || request.path.front() != '/')
    return refusal(404, request.path, say("desk.no_such_address"));
  if (request.path.substr(0, kApi.size()) != kApi) return static_file(request);
  bool known = false;
  for (const Route& route : routes()) {
    const auto stars = fit(route.pattern, request.path);
    if (!stars) continue;
    known = true;
    const bool asked =
        route.method == request.method || (route.method == "GET" && request.method == "HEAD");
    if (asked) return route.handler(desk, request, *stars);
  }
  return known ? refusal(405, request.path, say("desk.no_method"))
               : refusal(404, request.path, say("desk.no_such_address"));
}

Answer fault(const std::string& what) {
  return problem_answer(Error(ErrorKind::internal, "", say("desk.fault", {{"what", what}})));
}

}  // namespace

Desk::Desk(plan::Access& access, plan::Jobs& jobs, Outside& outside, DeskOptions options)
    : access_(access), jobs_(jobs), outside_(outside), options_(std::move(options)) {}

Answer Desk::answer(const Request& request) {
  try {
    return dispatch(*this, request);
  } catch (const Error& error) {
    return problem_answer(error);
  } catch (const nlohmann::json::exception&) {
    return problem_answer(Error(ErrorKind::usage, "", say("desk.wrong_type")));
  } catch (const Cancelled&) {
    return problem_answer(Error(ErrorKind::usage, "", say("desk.cancelled")));
  } catch (const std::bad_alloc&) {
    return problem_answer(Error(ErrorKind::io, "", say("desk.no_memory")));
  } catch (const std::exception& thrown) {
    return fault(thrown.what());
  }
}

void Desk::give_back_memory() {
  ::malloc_trim(0);
}

Date Desk::today() {
  return options_.today ? *options_.today : *parse_iso_date(outside_.now_utc().substr(0, 10));
}

std::int64_t Desk::data_version() {
  std::int64_t version = 0;
  access_.read([&](const store::Store& store) { version = store.data_version(); });
  return version;
}

int Desk::plan_number() {
  return *cached<int>("plan number", [](const store::Store& store) {
    store::Filter filter = store::Filter{}.by("number", true).only({"number"});
    filter.at_most = 1;
    const auto rows = store.rows("plans", filter);
    return rows.empty() ? 0 : static_cast<int>(*store::integer_of(rows.front(), "number"));
  });
}

std::shared_ptr<const plan::PlanResult> Desk::newest_plan() {
  const int number = plan_number();
  if (number == 0) throw Error(ErrorKind::input, "", say("plan.no_plan"));
  return of_plan<plan::PlanResult>(
      "result", [number](const store::Store& store) { return plan::load_plan(store, number); });
}

}  // namespace wildling::desk
