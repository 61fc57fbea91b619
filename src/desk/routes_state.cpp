#include <nlohmann/json.hpp>

#include "base/hash.hpp"
#include "desk/routes.hpp"
#include "plan/jobs/problem_json.hpp"
#include "plan/keep.hpp"
#include "plan/programme.hpp"

namespace wildling::desk {
namespace {

using nlohmann::json;

json newest_plan_json(const store::Store& store, const Parameters& parameters) {
  store::Filter filter = store::Filter{}.by("number", true);
  filter.at_most = 1;
  const auto rows = store.rows("plans", filter);
  if (rows.empty()) return nullptr;
  const store::Row& row = rows.front();
  const auto today = store::date_of(row, "today");
  return {{"number", *store::integer_of(row, "number")},
          {"stale", plan::fingerprint(store, parameters) != store::text_of(row, "fingerprint")},
          {"today", today ? json(iso_date(*today)) : json()},
          {"seed", store::text_of(row, "seed")}};
}

// The part of the state that follows from the file alone.
json programme_json(const store::Store& store) {
  const auto settings = plan::programme_settings(store);
  const auto get = [&](const char* key) {
    const auto found = settings.find(key);
    return found == settings.end() ? std::string() : found->second;
  };
  return {{"programme", get("name")},
          {"invented_figures", get("invented") == "yes"},
          {"data_version", store.data_version()},
          {"plan", newest_plan_json(store, plan::programme_parameters(store))}};
}

Answer state(Desk& desk, const Request&, const std::vector<std::string>&) {
  json all = *desk.cached<json>("state", programme_json);
  all["program_version"] = desk.options().program_version;
  all["file"] = desk.options().file_name;
  all["language"] = desk.options().language;
  all["today"] = iso_date(desk.today());
  all["writable"] = desk.access().writable();
  const auto job = desk.jobs().current();
  all["job"] = job ? plan::job_json(*job) : json();
  return json_answer(all);
}

struct Catalogue {
  std::shared_ptr<const std::string> text;
  std::string tag;
};

Catalogue catalogue_of(Language language) {
  const Words words(language);
  json all = json::object();
  for (const std::string& key : words.keys()) all[key] = words.pattern(key);
  auto text = std::make_shared<const std::string>(all.dump());
  return {text, sha256_hex(*text).substr(0, 32)};
}

Answer words(Desk&, const Request& request, const std::vector<std::string>& stars) {
  static const Catalogue english = catalogue_of(Language::en);
  static const Catalogue indonesian = catalogue_of(Language::id);
  const auto language = parse_language(stars.front());
  if (!language) return refusal(404, stars.front(), say("desk.no_language"));
  const Catalogue& found = *language == Language::en ? english : indonesian;
  return tagged(text_answer(found.text, "application/json"), request, found.tag);
}

}  // namespace

Routes state_routes() {
  return {{"GET", "/api/state", state}, {"GET", "/api/words/*", words}};
}

}  // namespace wildling::desk
