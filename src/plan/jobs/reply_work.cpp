#include <nlohmann/json.hpp>

#include "plan/answer_to.hpp"
#include "plan/jobs/work.hpp"
#include "plan/reply.hpp"

namespace wildling::plan {

JobWork reply_work(Access& access, const std::string& name, const Entries& entries, Date today,
                   const Actor& actor) {
  const Question& asked = question(name);
  check_entries(asked.fields, entries);
  JobWork work;
  work.kind = "reply";
  work.asked =
      nlohmann::json{{"name", name}, {"entries", entries}, {"today", iso_date(today)}}.dump();
  work.actor = actor;
  work.run = [&access, &asked, entries, today](const Progress& progress, const Ending&) {
    Outcome outcome;
    access.read([&](const store::Store& store) {
      outcome.result = std::make_shared<const std::string>(
          reply_text(answer_to(asked, store, entries, today, progress)));
    });
    outcome.json = nlohmann::json{{"name", asked.name}}.dump();
    return outcome;
  };
  return work;
}

}  // namespace wildling::plan
