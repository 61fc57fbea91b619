#include "plan/field/note_parts.hpp"

namespace wildling::plan {

Field note_field(std::string name, FieldKind kind, std::string help, bool required) {
  Field field;
  field.name = std::move(name);
  field.kind = kind;
  field.help = std::move(help);
  field.required = required;
  return field;
}

Field choice_field(std::string name, std::string help, std::vector<std::string> choices,
                   bool required) {
  Field field = note_field(std::move(name), FieldKind::choice, std::move(help), required);
  field.choices = std::move(choices);
  return field;
}

std::vector<std::string> job_choices() {
  std::vector<std::string> names;
  for (int i = 0; i < tending::kJobs; ++i)
    names.emplace_back(tending::job_name(static_cast<tending::Job>(i)));
  return names;
}

store::Value text_or_null(const std::optional<std::string>& text) {
  return text && !text->empty() ? store::Value{*text} : store::Value{};
}

const ground::Block& known_block(const Programme& programme, const std::string& code) {
  if (const ground::Block* block = block_of(programme, code)) return *block;
  throw Error(ErrorKind::input, code,
              say("fieldbook.no_block", {{"block", code}, {"blocks", block_list(programme)}}));
}

const ground::Block& known_block(const Programme& programme, const Entries& entries) {
  return known_block(programme, text_of(entries, "block").value_or(""));
}

Message said_of(const Message& finding, const std::string& prefix,
                const std::map<std::string, Argument>& more) {
  Message message = finding;
  message.key = prefix + finding.key.substr(finding.key.rfind('.') + 1);
  for (const auto& [name, argument] : more) message.arguments[name] = argument;
  return message;
}

}  // namespace wildling::plan
