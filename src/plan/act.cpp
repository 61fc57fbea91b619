#include "plan/act.hpp"

#include <nlohmann/json.hpp>

#include "plan/message_json.hpp"

namespace wildling::plan {

store::ChangeSet act_of(const Actor& actor, std::string why) {
  store::ChangeSet act;
  act.who = actor.who;
  act.why = std::move(why);
  act.face = actor.face;
  return act;
}

void attach(store::ChangeSet& act, const std::string& kind, const TakenFile& file) {
  act.source_file = file.name;
  store::Import import;
  import.kind = kind;
  import.file_name = file.name;
  import.sha256 = file.sha256;
  import.bytes = file.bytes;
  import.records_read = file.read;
  import.records_kept = file.kept;
  import.records_set_aside = file.set_aside;
  import.findings_json = findings_json(file.findings).dump();
  act.import = std::move(import);
}

store::Value text_or_null(const std::string& text) {
  return text.empty() ? store::Value{} : store::Value{text};
}

}  // namespace wildling::plan
