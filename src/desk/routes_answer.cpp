#include <nlohmann/json.hpp>

#include "desk/entries.hpp"
#include "desk/routes.hpp"
#include "plan/message_json.hpp"
#include "plan/take.hpp"

namespace wildling::desk {
namespace {

using nlohmann::json;

std::optional<ground::Answer> gate_answer(const json& asked, const std::string& name) {
  const auto text = maybe_text(asked, name);
  if (!text || text->empty()) return {};
  if (*text == "yes") return ground::Answer::yes;
  if (*text == "no") return ground::Answer::no;
  throw Error(ErrorKind::usage, name, say("desk.yes_or_no", {{"value", *text}}));
}

// A number of trees, "not-counted", or nothing.
void put_trees(plan::GateUpdate& update, const json& asked) {
  const auto found = asked.find("natural_trees_per_ha");
  if (found == asked.end() || found->is_null()) return;
  update.natural_trees_said = true;
  if (found->is_string() && found->get<std::string>() == "not-counted") return;
  update.natural_trees_per_ha = number_member(asked, "natural_trees_per_ha");
}

Answer keep(Desk& desk, const Request& request, const std::vector<std::string>&) {
  const json asked = object_of(request);
  plan::GateUpdate update;
  update.consent = gate_answer(asked, "consent");
  update.fire_and_cattle = gate_answer(asked, "fire_and_cattle");
  update.drained_peat = gate_answer(asked, "drained_peat");
  put_trees(update, asked);
  update.who = text_member(asked, "who");
  if (update.who.find_first_not_of(" \t\n") == std::string::npos)
    throw Error(ErrorKind::usage, "who", say("desk.field_missing"));
  update.day = maybe_day(asked, "day").value_or(desk.today());
  update.note = maybe_text(asked, "note").value_or("");
  if (!update.consent && !update.fire_and_cattle && !update.drained_peat &&
      !update.natural_trees_said) {
    throw Error(ErrorKind::usage, "", say("desk.no_answer"));
  }
  const std::string where = maybe_text(asked, "where").value_or("");
  int blocks = 0;
  desk.access().write([&](store::Store& store) {
    blocks = plan::take_answers(store, where, update, desk.options().actor);
  });
  return json_answer(
      {{"message", say("desk.answered", {{"blocks", std::int64_t{blocks}}, {"who", update.who}})},
       {"blocks", blocks}});
}

}  // namespace

Routes answer_routes() {
  return {{"POST", "/api/answer", keep}};
}

}  // namespace wildling::desk
