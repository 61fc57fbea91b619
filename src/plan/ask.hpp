#pragma once
/// Questions a person may ask of a programme and notes a person may write into it, as lists: the
/// command line makes a command of each, the page a view or a form, from the same entry.
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/date.hpp"
#include "base/progress.hpp"
#include "plan/reply.hpp"
#include "plan/take.hpp"
#include "store/store.hpp"

namespace wildling::plan {

enum class FieldKind { text, day, number, whole, yes_no, choice };

/// One thing to fill in. Its label is the word key "field.NAME"; of a choice, "choice.VALUE".
struct Field {
  std::string name =
      {};  ///< lower case with hyphens: "fire-class"; on the command line --fire-class
  FieldKind kind = FieldKind::text;
  std::string help = {};  ///< English, for the command line
  bool required = false;
  bool repeats = false;                       ///< may be given several times
  std::vector<std::string> choices = {};      ///< of FieldKind::choice
  std::optional<double> low = {}, high = {};  ///< allowed numbers, both inside
};

/// What was filled in: name to texts, in the order given. A field left out has no entry.
using Entries = std::map<std::string, std::vector<std::string>>;

/// Readers. @throws Error{usage} that names the field, what was written and what is expected
std::optional<std::string> text_of(const Entries& entries, const std::string& field);
std::optional<Date> day_of(const Entries& entries, const std::string& field);
std::optional<double> number_of(const Entries& entries, const std::string& field);
std::optional<std::int64_t> whole_of(const Entries& entries, const std::string& field);
std::optional<bool> yes_no_of(const Entries& entries, const std::string& field);
std::vector<std::string> all_of(const Entries& entries, const std::string& field);

/// Holds the entries against the fields: unknown or missing names, wrong kinds, numbers outside
/// their range. @throws Error{usage}
void check_entries(const std::vector<Field>& fields, const Entries& entries);

/// A question: `wildling NAME FILE [--field ...]`. Heading on the page: word key "ask.NAME".
struct Question {
  std::string name = {};
  std::string help = {};  ///< English, one line
  std::vector<Field> fields = {};
  bool slow = false;  ///< more than half a second: the page runs it as a job
  std::function<Reply(const store::Store&, const Entries&, Date today, const Progress&)> reply = {};
};

/// A note: `wildling note NAME FILE [--field ...]`. Heading on the page: word key "note.NAME".
struct Note {
  std::string name = {};
  std::string help = {};
  std::vector<Field> fields = {};
  /// Keeps it in one act, or nothing. @return what was kept, as a sentence. @throws Error
  std::function<Message(store::Store&, const Entries&, Date today, const Actor&)> keep = {};
};

/// All of them, in the order people meet them. Filled by plan/weather and plan/field.
const std::vector<Question>& questions();
const std::vector<Note>& notes();

/// @throws Error{usage} that lists the names
const Question& question(const std::string& name);
const Note& note(const std::string& name);

}  // namespace wildling::plan
