#include "plan/field/notes.hpp"

#include <algorithm>
#include <set>

#include "plan/field/facts.hpp"
#include "plan/field/note_parts.hpp"
#include "plan/field/pay.hpp"

namespace wildling::plan {
namespace {

using store::from;
using store::RowChange;
using store::Value;

constexpr double kTen = 10;  // trees looked at on a walk; tenths of the cover
constexpr double kCmPerM = 100;

std::optional<double> tenths(const Entries& entries, const char* name) {
  const auto value = number_of(entries, name);
  return value ? std::optional<double>(*value / kTen) : std::nullopt;
}

std::optional<double> metres(const Entries& entries, const char* name) {
  const auto value = number_of(entries, name);
  return value ? std::optional<double>(*value / kCmPerM) : std::nullopt;
}

Message keep_walk(store::Store& store, const Entries& entries, Date today, const Actor& actor) {
  const Programme programme = load_programme(store);
  const ground::Block& block = known_block(programme, entries);
  const Date day = day_of(entries, "day").value_or(today);
  if (day > today)
    throw Error(ErrorKind::input, "--day", say("tending.walk_in_future", {{"day", day}}));
  const auto picture = whole_of(entries, "picture");
  const auto cover_m = metres(entries, "height");
  if (!picture && !cover_m)
    throw Error(ErrorKind::usage, "--picture", say("fieldbook.walk.no_height"));
  store::ChangeSet act = act_of(actor, "walk of " + block.code);
  const store::Row row = {
      {"block_uid", block.uid},
      {"day", from(day)},
      {"cover", text_of(entries, "cover").value_or(std::string(ground::cover_name(block.cover)))},
      {"picture", from(picture)},
      {"cover_m", from(cover_m)},
      {"tree_m", from(metres(entries, "trees"))},
      {"climbed_share", from(tenths(entries, "climbed"))},
      {"cured_share", from(tenths(entries, "dry"))},
      {"animal_signs", text_or_null(text_of(entries, "animals"))},
      {"note", text_or_null(text_of(entries, "note"))}};
  // The same block and day again corrects the line.
  const auto there = store.rows(
      "walks", store::Filter{}.with("block_uid", Value{block.uid}).with("day", from(day)));
  act.rows.push_back(
      there.empty() ? RowChange::insert("walks", row)
                    : RowChange::update("walks", store::text_of(there.front(), "uid"),
                                        *store::integer_of(there.front(), "row_version"), row));
  store.apply(act);
  return say(there.empty() ? "fieldbook.kept.walk" : "fieldbook.kept.walk_again",
             {{"block", block.code}, {"day", day}});
}

/// Why a line of the diary is not paid yet; empty when it is.
std::optional<Message> fault_of(const store::Store& store, const std::string& who, Date day,
                                const std::string& block, tending::Job job) {
  const PaidPeriod period = paid_period(load_field_book(store), day, day);
  for (std::size_t i = 0; i < period.aside.size(); ++i) {
    const tending::DiaryLine& line = period.aside[i];
    if (line.who == who && line.block == block && line.job == job)
      return period.findings[i].message;
  }
  return {};
}

std::string at_or_last(const std::vector<std::string>& list, std::size_t i) {
  return list.empty() ? std::string() : list[std::min(i, list.size() - 1)];
}

Message keep_work(store::Store& store, const Entries& entries, Date today, const Actor& actor) {
  const std::vector<std::string> people = all_of(entries, "who");
  const std::vector<std::string> sexes = all_of(entries, "sex");
  const Date day = day_of(entries, "day").value_or(today);
  const std::string block = *text_of(entries, "block"), job = *text_of(entries, "job");
  const bool correct = yes_no_of(entries, "correct").value_or(false);
  std::optional<double> quantity = number_of(entries, "quantity");
  if (quantity) *quantity /= static_cast<double>(people.size());
  store::ChangeSet act = act_of(actor, "work diary of " + iso_date(day));
  for (std::size_t i = 0; i < people.size(); ++i) {
    const std::string sex = at_or_last(sexes, i);
    const store::Row row = {{"worker", people[i]},
                            {"sex", text_or_null(sex)},
                            {"day", from(day)},
                            {"block", block},
                            {"job", job},
                            {"hours", from(number_of(entries, "hours").value_or(0))},
                            {"quantity", from(quantity)},
                            {"note", text_or_null(text_of(entries, "note"))}};
    const auto there = correct ? store.rows("diary_lines", store::Filter{}
                                                               .with("worker", Value{people[i]})
                                                               .with("day", from(day))
                                                               .with("block", Value{block})
                                                               .with("job", Value{job}))
                               : std::vector<store::Row>{};
    if (there.empty()) {
      act.rows.push_back(RowChange::insert("diary_lines", row));
      continue;
    }
    for (std::size_t k = 0; k < there.size(); ++k) {
      const std::string uid = store::text_of(there[k], "uid");
      const std::int64_t version = *store::integer_of(there[k], "row_version");
      act.rows.push_back(k == 0 ? RowChange::update("diary_lines", uid, version, row)
                                : RowChange::remove("diary_lines", uid, version));
    }
  }
  store.apply(act);
  const auto known_job = tending::parse_job(job).value_or(tending::Job::ring);
  for (const std::string& who : people) {
    if (const auto fault = fault_of(store, who, day, block, known_job))
      return said_of(*fault, "fieldbook.aside_line.", {{"person", who}});
  }
  return say(
      "fieldbook.kept.work",
      {{"people", static_cast<std::int64_t>(people.size())}, {"block", block}, {"day", day}});
}

Message keep_wage(store::Store& store, const Entries& entries, Date today, const Actor& actor) {
  const std::string who = text_of(entries, "who").value_or("");
  const double per_day = *number_of(entries, "per-day");
  const Date day = day_of(entries, "from").value_or(today);
  store::ChangeSet act = act_of(actor, "wage");
  act.rows.push_back(
      RowChange::insert("wages", {{"worker", text_or_null(who)},
                                  {"per_day", from(per_day)},
                                  {"first_day", from(day)},
                                  {"note", text_or_null(text_of(entries, "note"))}}));
  store.apply(act);
  return say(who.empty() ? "fieldbook.kept.wage_all" : "fieldbook.kept.wage",
             {{"who", who}, {"wage", per_day}, {"day", day}});
}

Message keep_order(store::Store& store, const Entries& entries, Date today, const Actor& actor) {
  const Programme programme = load_programme(store);
  const ground::Block& block = known_block(programme, entries);
  const Date day = day_of(entries, "day").value_or(today + std::chrono::days(1));
  const auto leader = text_of(entries, "leader");
  store::ChangeSet act = act_of(actor, "crew for " + block.code);
  act.rows.push_back(
      RowChange::insert("crew_orders", {{"leader", text_or_null(leader)},
                                        {"day", from(day)},
                                        {"block", block.code},
                                        {"job", *text_of(entries, "job")},
                                        {"people", from(whole_of(entries, "people"))},
                                        {"meeting_place", text_or_null(text_of(entries, "place"))},
                                        {"meeting_hour", text_or_null(text_of(entries, "hour"))},
                                        {"help", text_or_null(text_of(entries, "help-at"))},
                                        {"note", text_or_null(text_of(entries, "note"))}}));
  store.apply(act);
  return say("fieldbook.kept.order",
             {{"leader", leader.value_or("")}, {"block", block.code}, {"day", day}});
}

Message keep_trouble(store::Store& store, const Entries& entries, Date today, const Actor& actor) {
  const Date day = day_of(entries, "day").value_or(today);
  store::ChangeSet act = act_of(actor, "incident");
  const std::string uid = store.new_uid();
  act.rows.push_back(RowChange::insert("troubles",
                                       {{"day", from(day)},
                                        {"kind", *text_of(entries, "kind")},
                                        {"what", *text_of(entries, "what")},
                                        {"done", text_or_null(text_of(entries, "done"))}},
                                       uid));
  if (const auto place = text_of(entries, "place"); place && !place->empty()) {
    act.rows.push_back(
        RowChange::insert("trouble_places", {{"trouble_uid", uid}, {"place", *place}}));
  }
  store.apply(act);
  return say("fieldbook.kept.trouble", {{"day", day}, {"count", store.count("troubles")}});
}

Message keep_tool(store::Store& store, const Entries& entries, Date today, const Actor& actor) {
  const auto block = text_of(entries, "block");
  if (block) {
    const Programme programme = load_programme(store);
    known_block(programme, *block);
  }
  const Date day = day_of(entries, "day").value_or(today + std::chrono::days(1));
  const std::string tool = *text_of(entries, "tool");
  const double needed = *number_of(entries, "needed");
  const auto there = number_of(entries, "there");
  store::ChangeSet act = act_of(actor, "tools for " + iso_date(day));
  act.rows.push_back(
      RowChange::insert("tool_counts", {{"day", from(day)},
                                        {"block", text_or_null(block)},
                                        {"tool", tool},
                                        {"needed", from(needed)},
                                        {"there", from(there)},
                                        {"note", text_or_null(text_of(entries, "note"))}}));
  store.apply(act);
  const double missing = there ? std::max(0.0, needed - *there) : 0;
  return say("fieldbook.kept.tool", {{"tool", tool}, {"day", day}, {"missing", missing}});
}

Field between(Field field, double low, double high) {
  field.low = low;
  field.high = high;
  return field;
}

}  // namespace

Note walk_note() {
  Note note;
  note.name = "walk";
  note.help = "One line of the smother walk; the same block and day again corrects it.";
  note.fields = {
      note_field("block", FieldKind::text, "code of the block", true),
      note_field("day", FieldKind::day, "day of the walk; without it today"),
      choice_field("cover", "what competes with the trees; without it the cover of the block",
                   {"running_grass", "tussock_grass", "fern", "climbers", "shrubs", "under_trees",
                    "cleared"}),
      between(note_field("picture", FieldKind::whole, "which of the four pictures"), 1, 4),
      between(note_field("height", FieldKind::number, "height of the cover in cm"), 0, 1000),
      between(note_field("trees", FieldKind::number, "usual height of the trees in cm"), 1, 6000),
      between(note_field("climbed", FieldKind::number, "of ten trees, how many are climbed"), 0,
              10),
      between(note_field("dry", FieldKind::number, "tenths of the cover that are dead and dry"), 0,
              10),
      note_field("animals", FieldKind::text, "signs of animals"),
      note_field("note", FieldKind::text, "in the walker's words")};
  note.keep = keep_walk;
  return note;
}

Note work_note() {
  Note note;
  note.name = "work";
  note.help = "A line of the work diary: who worked where, on what, how long.";
  Field who = note_field("who", FieldKind::text, "name; may be given several times", true);
  who.repeats = true;
  Field sex = choice_field("sex", "in the order of the names, or one for all", {"woman", "man"});
  sex.repeats = true;
  note.fields = {who,
                 sex,
                 note_field("day", FieldKind::day, "day of the work; without it today"),
                 note_field("block", FieldKind::text, "code of the block", true),
                 choice_field("job", "what was done", job_choices(), true),
                 note_field("hours", FieldKind::number, "hours of each", true),
                 note_field("quantity", FieldKind::number,
                            "done by all of them together: m2, trees or m of the job"),
                 note_field("note", FieldKind::text, "remarks"),
                 note_field("correct", FieldKind::yes_no,
                            "write over the line of the same person, day, block and job")};
  note.keep = keep_work;
  return note;
}

Note wage_note() {
  Note note;
  note.name = "wage";
  note.help = "Pay of a full day, from a day on.";
  note.fields = {
      note_field("who", FieldKind::text, "name; without it everybody else"),
      between(note_field("per-day", FieldKind::number, "pay of a full day", true), 0, 1e9),
      note_field("from", FieldKind::day, "holds from this day on; without it today"),
      note_field("note", FieldKind::text, "agreement")};
  note.keep = keep_wage;
  return note;
}

Note send_note() {
  Note note;
  note.name = "send";
  note.help = "Who goes where: one block and job of one crew leader, for tomorrow's sheet.";
  note.fields = {note_field("leader", FieldKind::text, "crew leader; without it written by hand"),
                 note_field("day", FieldKind::day, "day of the work; without it tomorrow"),
                 note_field("block", FieldKind::text, "code of the block", true),
                 choice_field("job", "what is to be done", job_choices(), true),
                 between(note_field("people", FieldKind::whole, "people of the crew"), 1, 10000),
                 note_field("place", FieldKind::text, "where they meet"),
                 note_field("hour", FieldKind::text, "when they meet, like 06:30"),
                 note_field("help-at", FieldKind::text, "where help is: name and telephone"),
                 note_field("note", FieldKind::text, "what the leader must know")};
  note.keep = keep_order;
  return note;
}

Note trouble_note() {
  Note note;
  note.name = "trouble";
  note.help = "An incident or near miss, in one line. Its place is kept apart.";
  note.fields = {
      note_field("day", FieldKind::day, "day; without it today"),
      choice_field(
          "kind", "what kind",
          {"near_miss", "injury", "illness", "animals", "fire", "theft", "dispute", "other"}, true),
      note_field("what", FieldKind::text, "what happened, in one line", true),
      note_field("place", FieldKind::text, "where; stays in the office"),
      note_field("done", FieldKind::text, "what was done about it")};
  note.keep = keep_trouble;
  return note;
}

Note tool_note() {
  Note note;
  note.name = "tool";
  note.help = "Tools and water for a day: how many are needed, how many are there.";
  note.fields = {
      note_field("tool", FieldKind::text, "machete, hoe, board, water ...", true),
      between(note_field("needed", FieldKind::number, "how many; litres of water", true), 0, 1e6),
      between(note_field("there", FieldKind::number, "how many are there"), 0, 1e6),
      note_field("day", FieldKind::day, "day they are needed; without it tomorrow"),
      note_field("block", FieldKind::text, "code of the block; without it all"),
      note_field("note", FieldKind::text, "remarks")};
  note.keep = keep_tool;
  return note;
}

}  // namespace wildling::plan
