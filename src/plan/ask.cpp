#include "plan/ask.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>

#include "plan/registry.hpp"

namespace wildling::plan {
namespace {

[[noreturn]] void refuse(const std::string& field, const char* key, const std::string& value) {
  throw Error(ErrorKind::usage, "--" + field, say(key, {{"value", value}}));
}

const std::string* only_entry(const Entries& entries, const std::string& field) {
  const auto found = entries.find(field);
  if (found == entries.end() || found->second.empty()) return nullptr;
  if (found->second.size() > 1) refuse(field, "plan.entry.twice", found->second.back());
  return &found->second.front();
}

template <class T>
T parsed(const std::string& field, const std::string& text, const char* key) {
  T value{};
  const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (fault != std::errc{} || end != text.data() + text.size()) refuse(field, key, text);
  return value;
}

double number_in(const std::string& field, const std::string& text) {
  const auto value = parsed<double>(field, text, "plan.entry.no_number");
  if (!std::isfinite(value)) refuse(field, "plan.entry.no_number", text);
  return value;
}

void check_range(const Field& field, double value) {
  const bool inside = !(field.low && value < *field.low) && !(field.high && value > *field.high);
  if (inside) return;
  const double none = std::nan("");
  throw Error(ErrorKind::usage, "--" + field.name,
              say("plan.entry.outside", {{"value", value},
                                         {"low", field.low.value_or(none)},
                                         {"high", field.high.value_or(none)},
                                         {"limits", std::string(!field.high  ? "low"
                                                                : !field.low ? "high"
                                                                             : "both")}}));
}

std::string listed(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : ", ") + word;
  return text;
}

void check_text(const Field& field, const std::string& text) {
  switch (field.kind) {
    case FieldKind::text:
      return;
    case FieldKind::day:
      if (!parse_iso_date(text)) refuse(field.name, "plan.entry.no_day", text);
      return;
    case FieldKind::number:
      check_range(field, number_in(field.name, text));
      return;
    case FieldKind::whole:
      check_range(field, static_cast<double>(
                             parsed<std::int64_t>(field.name, text, "plan.entry.no_whole")));
      return;
    case FieldKind::yes_no:
      if (text != "yes" && text != "no") refuse(field.name, "plan.entry.yes_no", text);
      return;
    case FieldKind::choice:
      if (std::find(field.choices.begin(), field.choices.end(), text) == field.choices.end()) {
        throw Error(
            ErrorKind::usage, "--" + field.name,
            say("plan.entry.choice", {{"value", text}, {"choices", listed(field.choices)}}));
      }
  }
}

template <class T>
const T& named(const std::vector<T>& list, const std::string& name) {
  std::vector<std::string> names;
  for (const T& one : list) {
    if (one.name == name) return one;
    names.push_back(one.name);
  }
  throw Error(ErrorKind::usage, name, say("plan.entry.unknown_name", {{"names", listed(names)}}));
}

}  // namespace

std::optional<std::string> text_of(const Entries& entries, const std::string& field) {
  const std::string* text = only_entry(entries, field);
  return text == nullptr ? std::nullopt : std::optional<std::string>(*text);
}

std::optional<Date> day_of(const Entries& entries, const std::string& field) {
  const std::string* text = only_entry(entries, field);
  if (text == nullptr) return {};
  const auto day = parse_iso_date(*text);
  if (!day) refuse(field, "plan.entry.no_day", *text);
  return day;
}

std::optional<double> number_of(const Entries& entries, const std::string& field) {
  const std::string* text = only_entry(entries, field);
  return text == nullptr ? std::nullopt : std::optional<double>(number_in(field, *text));
}

std::optional<std::int64_t> whole_of(const Entries& entries, const std::string& field) {
  const std::string* text = only_entry(entries, field);
  if (text == nullptr) return {};
  return parsed<std::int64_t>(field, *text, "plan.entry.no_whole");
}

std::optional<bool> yes_no_of(const Entries& entries, const std::string& field) {
  const std::string* text = only_entry(entries, field);
  if (text == nullptr) return {};
  if (*text != "yes" && *text != "no") refuse(field, "plan.entry.yes_no", *text);
  return *text == "yes";
}

std::vector<std::string> all_of(const Entries& entries, const std::string& field) {
  const auto found = entries.find(field);
  return found == entries.end() ? std::vector<std::string>{} : found->second;
}

void check_entries(const std::vector<Field>& fields, const Entries& entries) {
  for (const auto& entry : entries) {
    const std::string& name = entry.first;
    const std::vector<std::string>& texts = entry.second;
    const auto field = std::find_if(fields.begin(), fields.end(),
                                    [&](const Field& one) { return one.name == name; });
    if (field == fields.end()) {
      std::vector<std::string> names;
      for (const Field& one : fields) names.push_back(one.name);
      throw Error(ErrorKind::usage, name,
                  say("plan.entry.unknown_field", {{"names", listed(names)}}));
    }
    if (texts.size() > 1 && !field->repeats) refuse(name, "plan.entry.twice", texts.back());
    for (const std::string& text : texts) check_text(*field, text);
  }
  for (const Field& field : fields) {
    if (field.required && all_of(entries, field.name).empty())
      throw Error(ErrorKind::usage, "--" + field.name, say("plan.entry.required"));
  }
}

const std::vector<Question>& questions() {
  static const std::vector<Question> list = gathered_questions();
  return list;
}

const std::vector<Note>& notes() {
  static const std::vector<Note> list = gathered_notes();
  return list;
}

const Question& question(const std::string& name) {
  return named(questions(), name);
}

const Note& note(const std::string& name) {
  return named(notes(), name);
}

}  // namespace wildling::plan
