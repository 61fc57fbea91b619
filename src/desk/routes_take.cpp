#include <nlohmann/json.hpp>

#include "desk/entries.hpp"
#include "desk/routes.hpp"
#include "plan/message_json.hpp"
#include "plan/take_file.hpp"

namespace wildling::desk {
namespace {

Answer take(Desk& desk, const Request& request, const std::vector<std::string>&) {
  const std::string what = request.needed("what");
  const std::string name = request.needed("name");
  const auto options = take_options(request, desk.today());
  // Reading needs no lock; keeping is one short act.
  const plan::ReadFile read =
      plan::read_to_take(what, plan::TakeSource::upload(name, std::string(request.body)), options);
  if (!read.keep) {
    // Nothing was kept: the findings say why, so they must arrive beside the refusal.
    return json_answer({{"kind", "input"},
                        {"where", read.record.name},
                        {"message", say("plan.take.nothing_kept")},
                        {"findings", plan::findings_json(read.record.findings)}},
                       http_status(ErrorKind::input));
  }
  Message message;
  desk.access().write(
      [&](store::Store& store) { message = read.keep(store, desk.options().actor); });
  Findings findings = read.record.findings;
  findings.insert(findings.end(), read.changes->begin(), read.changes->end());
  return json_answer({{"message", message}, {"findings", plan::findings_json(findings)}});
}

}  // namespace

Routes take_routes() {
  return {{"POST", "/api/take", take}};
}

}  // namespace wildling::desk
