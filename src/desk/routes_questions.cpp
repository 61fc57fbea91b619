#include <nlohmann/json.hpp>

#include "desk/entries.hpp"
#include "desk/replies.hpp"
#include "desk/routes.hpp"
#include "plan/ask.hpp"
#include "plan/message_json.hpp"

namespace wildling::desk {
namespace {

using nlohmann::json;

const char* kind_name(plan::FieldKind kind) {
  switch (kind) {
    case plan::FieldKind::text:
      return "text";
    case plan::FieldKind::day:
      return "day";
    case plan::FieldKind::number:
      return "number";
    case plan::FieldKind::whole:
      return "whole";
    case plan::FieldKind::yes_no:
      return "yes_no";
    case plan::FieldKind::choice:
      return "choice";
  }
  return "text";
}

json fields_json(const std::vector<plan::Field>& fields) {
  json list = json::array();
  for (const plan::Field& field : fields) {
    list.push_back({{"name", field.name},
                    {"kind", kind_name(field.kind)},
                    {"required", field.required},
                    {"repeats", field.repeats},
                    {"choices", field.choices},
                    {"low", field.low ? json(*field.low) : json()},
                    {"high", field.high ? json(*field.high) : json()}});
  }
  return list;
}

Answer questions(Desk&, const Request&, const std::vector<std::string>&) {
  json list = json::array();
  for (const plan::Question& question : plan::questions())
    list.push_back({{"name", question.name},
                    {"slow", question.slow},
                    {"fields", fields_json(question.fields)}});
  return json_answer(list);
}

Answer reply(Desk& desk, const Request& request, const std::vector<std::string>&) {
  const KeptReply found = reply_to(desk, request.needed("name"), request);
  return text_answer(std::make_shared<const std::string>(plan::reply_text(*found)),
                     "application/json");
}

Answer notes(Desk&, const Request&, const std::vector<std::string>&) {
  json list = json::array();
  for (const plan::Note& note : plan::notes())
    list.push_back({{"name", note.name}, {"fields", fields_json(note.fields)}});
  return json_answer(list);
}

Answer keep_note(Desk& desk, const Request& request, const std::vector<std::string>&) {
  const json asked = object_of(request);
  const plan::Note& note = plan::note(text_member(asked, "name"));
  const plan::Entries entries = entries_of(asked.value("entries", json::object()));
  plan::check_entries(note.fields, entries);
  Message message;
  desk.access().write([&](store::Store& store) {
    message = note.keep(store, entries, desk.today(), desk.options().actor);
  });
  return json_answer({{"message", message}});
}

}  // namespace

Routes question_routes() {
  return {{"GET", "/api/questions", questions},
          {"GET", "/api/reply", reply},
          {"GET", "/api/notes", notes},
          {"POST", "/api/note", keep_note}};
}

}  // namespace wildling::desk
