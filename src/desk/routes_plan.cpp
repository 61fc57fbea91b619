#include <nlohmann/json.hpp>

#include "desk/routes.hpp"
#include "plan/keep.hpp"
#include "plan/message_json.hpp"
#include "plan/programme.hpp"
#include "plan/workings_of.hpp"

namespace wildling::desk {
namespace {

using nlohmann::json;

Answer plan_letter(Desk& desk, const Request& request, const std::vector<std::string>&) {
  const int number = desk.plan_number();
  if (number == 0) return refusal(404, "", say("plan.no_plan"));
  const auto text = desk.cached<std::string>(
      "plan text", [number](const store::Store& store) { return plan::plan_text(store, number); });
  return tagged(text_answer(text, "application/json"), request, "plan-" + std::to_string(number));
}

json intake_json(const store::Row& row) {
  const std::string findings = store::text_of(row, "findings");
  return {{"file", store::text_of(row, "file_name")},
          {"kind", store::text_of(row, "kind")},
          {"day", store::text_of(row, "changed_utc").substr(0, 10)},
          {"read", store::integer_of(row, "records_read").value_or(0)},
          {"kept", store::integer_of(row, "records_kept").value_or(0)},
          {"set_aside", store::integer_of(row, "records_set_aside").value_or(0)},
          {"findings", findings.empty() ? json::array() : json::parse(findings)}};
}

Answer findings(Desk& desk, const Request& request, const std::vector<std::string>&) {
  const auto text = desk.cached<std::string>("findings", [](const store::Store& store) {
    json list = json::array();
    for (const store::Row& row : store.rows("imports", store::Filter{}.by("id", true)))
      list.push_back(intake_json(row));
    return list.dump(-1, ' ', false, json::error_handler_t::replace);
  });
  return tagged(text_answer(text, "application/json"), request,
                "findings-" + std::to_string(desk.data_version()));
}

std::optional<Sheet> plan_sheet(Desk& desk, const std::string& kind, const Words& words) {
  if (!desk.options().faces.sheet) return {};
  const auto result = desk.newest_plan();
  const auto parameters = desk.cached<Parameters>("parameters", plan::programme_parameters);
  return desk.options().faces.sheet(kind, *result, *parameters, words);
}

// Sheets of the field book: day=, block= (several), crew=.
std::optional<Sheet> book_sheet(Desk& desk, const Request& request, const plan::SheetKind& kind,
                                const Words& words) {
  if (!desk.options().faces.book_sheet) return {};
  plan::SheetWish wish;
  if (const auto day = request.asked("day")) {
    wish.day = parse_iso_date(*day);
    if (!wish.day) throw Error(ErrorKind::usage, "day", say("desk.not_a_day", {{"value", *day}}));
  }
  const auto [first, last] = request.query.equal_range("block");
  for (auto it = first; it != last; ++it) wish.blocks.push_back(it->second);
  wish.crew = request.asked("crew").value_or("");
  std::vector<Sheet> sheets;
  desk.access().read([&](const store::Store& store) {
    sheets = desk.options().faces.book_sheet(kind.fill(store, wish, desk.today()), words);
  });
  if (sheets.empty()) return {};
  return std::move(sheets.front());
}

const plan::SheetKind* book_kind(const std::string& name) {
  for (const plan::SheetKind& kind : plan::sheet_kinds()) {
    if (kind.name == name) return &kind;
  }
  return nullptr;
}

Answer sheet(Desk& desk, const Request& request, const std::vector<std::string>&) {
  const std::string name = request.needed("kind");
  const auto wanted = request.asked("lang").value_or(desk.options().language);
  const Words words(parse_language(wanted).value_or(Language::en));
  const plan::SheetKind* kind = book_kind(name);
  auto made =
      kind == nullptr ? plan_sheet(desk, name, words) : book_sheet(desk, request, *kind, words);
  if (!made) return refusal(404, name, say("desk.no_sheet"));
  Answer answer =
      text_answer(std::make_shared<const std::string>(std::move(made->bytes)), made->type);
  answer.headers.emplace("Content-Disposition", "inline; filename=\"" + made->name + "\"");
  return answer;
}

}  // namespace

Routes plan_routes() {
  Routes list = {{"GET", "/api/plan", plan_letter},
                 {"GET", "/api/findings", findings},
                 {"GET", "/api/sheet", sheet}};
  return list;
}

}  // namespace wildling::desk
