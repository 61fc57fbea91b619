#pragma once
// An invented programme of the field year: two small fields, planned and open, and helpers that
// type notes as a person would.
#include <filesystem>

#include <unistd.h>

#include "invented_programme.hpp"
#include "plan/ask.hpp"
#include "plan/field/facts.hpp"
#include "plan/field/questions.hpp"
#include "plan/fill_sheets.hpp"
#include "plan/keep.hpp"

namespace wildling::plan {

inline const Date kPlanDay = make_date(2025, 2, 1);
inline const Date kPlantDay = make_date(2025, 10, 6);

inline const Note& field_note(const std::string& name) {
  static const std::vector<Note> all = field_notes();
  for (const Note& note : all) {
    if (note.name == name) return note;
  }
  throw std::runtime_error("no note " + name);
}

inline Message write(store::Store& store, const std::string& note, const Entries& entries,
                     Date today = kPlantDay) {
  check_entries(field_note(note).fields, entries);
  return field_note(note).keep(store, entries, today, kTester);
}

inline Reply ask(const store::Store& store, const std::string& name, const Entries& entries,
                 Date today = kPlantDay) {
  static const std::vector<Question> all = field_questions();
  for (const Question& question : all) {
    if (question.name == name) return question.reply(store, entries, today, Progress{});
  }
  throw std::runtime_error("no question " + name);
}

/// Planned once for all tests of a program, then opened from a copy: a plan takes seconds.
/// @param open  all gates are answered; false: the small field has no consent
class FieldYear {
 public:
  explicit FieldYear(bool open = true) {
    static int copies = 0;
    const std::filesystem::path from = template_of(open);
    path_ = from.string() + "." + std::to_string(++copies);
    std::filesystem::copy_file(from, path_, std::filesystem::copy_options::overwrite_existing);
    store = store::open_file(path_, store::OpenMode::read_write, machine_);
  }

  FieldYear(const FieldYear&) = delete;
  FieldYear& operator=(const FieldYear&) = delete;

  ~FieldYear() {
    store.reset();
    std::error_code ignored;
    std::filesystem::remove(path_, ignored);
    std::filesystem::remove(path_ + ".lock", ignored);
  }

  std::unique_ptr<store::Store> store = {};

 private:
  static std::filesystem::path template_of(bool open) {
    static std::map<bool, std::filesystem::path> made;
    std::filesystem::path& path = made[open];
    if (!path.empty()) return path;
    path = std::filesystem::temp_directory_path() /
           ("wildling_field_" + std::to_string(::getpid()) + (open ? "_open" : "_hold") + ".gpkg");
    Rehearsal machine{Seed{1}};
    const auto store = invented_programme(machine);
    take_answers(*store, open ? "" : "Big field", all_open(), kTester);
    PlanOptions options;
    options.seed = Seed{5};
    options.today = kPlanDay;
    options.program_version = "test";
    keep_plan(*store, options, kTester);
    store->backup_to(path.string(), true);
    return path;
  }

  Machine machine_ = {};
  std::string path_ = {};
};

/// The first block with seedlings, and the first of its species.
struct FirstBlock {
  std::string code = {}, species = {};
  CrewSheet sheet = {};
};

inline FirstBlock first_block(const store::Store& store) {
  const PlanResult plan = load_plan(store);
  const Parameters parameters = Parameters::shipped();
  for (const BlockPart& part : plan.blocks) {
    if (part.planted == 0) continue;
    FirstBlock first;
    first.code = part.block.code;
    first.sheet = *crew_sheet(plan, parameters, first.code);
    first.species = first.sheet.species.front().scientific_name;
    return first;
  }
  throw std::runtime_error("nothing is planted");
}

}  // namespace wildling::plan
