#include "desk/replies.hpp"

#include "desk/entries.hpp"
#include "plan/answer_to.hpp"

namespace wildling::desk {

KeptReply reply_to(Desk& desk, const std::string& name, const Request& request) {
  const plan::Question& question = plan::question(name);
  const plan::Entries entries = entries_of(request);
  plan::check_entries(question.fields, entries);
  const Date today = desk.today();
  std::string slot = "reply " + name + " " + iso_date(today);
  for (const auto& [field, texts] : entries) {
    for (const std::string& text : texts)
      slot.append(1, '\x1f').append(field).append(1, '=').append(text);
  }
  return desk.cached<plan::Reply>(slot, [&](const store::Store& store) {
    return plan::answer_to(question, store, entries, today, {});
  });
}

KeptReply reply_asked(Desk& desk, const Request& request) {
  const auto name = request.asked("reply");
  return name ? reply_to(desk, *name, request) : nullptr;
}

}  // namespace wildling::desk
