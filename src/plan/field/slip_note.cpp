#include <algorithm>

#include "layout/assign.hpp"
#include "plan/field/facts.hpp"
#include "plan/field/note_parts.hpp"
#include "plan/field/notes.hpp"
#include "plan/field/typed.hpp"
#include "plan/fill_parts.hpp"
#include "plan/fill_sheets.hpp"
#include "plan/keep.hpp"
#include "plan/message_json.hpp"

namespace wildling::plan {
namespace {

using store::from;
using store::Row;
using store::RowChange;
using store::Value;

std::vector<std::string> species_names(const Programme& programme) {
  std::vector<std::string> names;
  for (const species::Candidate& candidate : programme.candidates)
    names.push_back(candidate.name());
  return names;
}

/// The plan whose codes the sheet has: the newest unless another is named.
std::optional<PlanResult> plan_of(const store::Store& store, const FieldBook& book,
                                  const Entries& entries) {
  const auto number = whole_of(entries, "plan");
  if (!number || (book.plan && book.plan->head.number == *number)) return book.plan;
  return load_plan(store, static_cast<int>(*number));
}

/// The scientific name, or as written where nothing fits: the slip is then set aside.
std::string species_of(const SpeciesBook& species, const std::string& written) {
  return species.find(written).value_or(written);
}

/// Rows that are planted as printed: the plan's species in each.
void add_rows_done(tending::Slip& slip, const std::vector<int>& rows,
                   const std::optional<PlanResult>& plan) {
  const BlockPart* part = nullptr;
  if (plan) {
    for (const BlockPart& one : plan->blocks) {
      if (one.block.code == slip.block) part = &one;
    }
  }
  if (part == nullptr)
    throw Error(ErrorKind::input, slip.block,
                say("fieldbook.no_plan_of_block", {{"block", slip.block}}));
  const auto laid = layout_of(*part, frame_of(*plan, *part));
  for (const int row : rows) {
    const bool known =
        laid && row >= 1 && static_cast<std::size_t>(row) <= laid->places.rows.size();
    if (!known) {  // kept as written; the ledger says that there is no such row
      slip.lines.push_back({row, plan->species.front().name, 0});
      continue;
    }
    const layout::Row& places = laid->places.rows[static_cast<std::size_t>(row) - 1];
    std::map<std::uint8_t, long long> counts;
    for (std::uint32_t i = places.first; i < places.first + places.count; ++i) {
      if (laid->species[i] != layout::kEmptyPlace) ++counts[laid->species[i]];
    }
    for (const auto& [index, count] : counts)
      slip.lines.push_back({row, plan->species[index].name, count});
  }
}

void read_lines(tending::Slip& slip, const Entries& entries, const SpeciesBook& species,
                const std::optional<PlanResult>& plan) {
  for (const std::string& text : all_of(entries, "row")) {
    const RowCounts row = read_row("row", text);
    for (const auto& [written, count] : row.counts)
      slip.lines.push_back({row.row, species_of(species, written), count});
  }
  for (const std::string& text : all_of(entries, "planted")) {
    for (const auto& [written, count] : read_counts("planted", text))
      slip.lines.push_back({0, species_of(species, written), count});
  }
  for (const std::string& text : all_of(entries, "rows-done"))
    add_rows_done(slip, read_rows("rows-done", text), plan);
  for (const std::string& text : all_of(entries, "dead")) {
    for (const auto& [written, count] : read_counts("dead", text))
      slip.dead[species_of(species, written)] += count;
  }
  for (const std::string& text : all_of(entries, "returned")) {
    for (const auto& [written, count] : read_counts("returned", text))
      slip.returned[species_of(species, written)] += count;
  }
}

SlipNote read_slip(const store::Store& store, const FieldBook& book, const Entries& entries,
                   Date today) {
  SlipNote note;
  note.slip.number = *text_of(entries, "number");
  note.slip.block = *text_of(entries, "block");
  note.slip.day = day_of(entries, "day").value_or(today);
  note.slip.people = static_cast<int>(whole_of(entries, "people").value_or(0));
  note.slip.hours = number_of(entries, "hours").value_or(0);
  note.slip.faults = static_cast<int>(whole_of(entries, "faults").value_or(0));
  if (const auto job = text_of(entries, "job"); job && *job != "plant")
    note.slip.tending_round = tending::parse_job(*job);
  if (const auto checked = whole_of(entries, "checked")) note.checked = static_cast<int>(*checked);
  note.leader = text_of(entries, "leader").value_or("");
  note.note = text_of(entries, "note").value_or("");
  const auto plan = plan_of(store, book, entries);
  if (plan) note.plan_number = plan->head.number;
  read_lines(note.slip, entries, SpeciesBook(species_names(book.programme), plan), plan);
  return note;
}

Row slip_row(const SlipNote& note, const std::optional<Message>& fault) {
  const tending::Slip& slip = note.slip;
  return {
      {"number", slip.number},
      {"plan_number", from(note.plan_number)},
      {"block", slip.block},
      {"day", from(slip.day)},
      {"leader", text_or_null(note.leader)},
      {"people", from(slip.people)},
      {"hours", from(slip.hours)},
      {"faults", from(slip.faults)},
      {"checked", from(note.checked)},
      {"round_job",
       slip.tending_round ? Value{std::string(tending::job_name(*slip.tending_round))} : Value{}},
      {"state", std::string(fault ? "aside" : "kept")},
      {"finding", fault ? Value{nlohmann::json(*fault).dump()} : Value{}},
      {"note", text_or_null(note.note)}};
}

void add_line(store::ChangeSet& act, const std::string& slip_uid, const char* kind, int row,
              const std::string& species, long long count) {
  act.rows.push_back(
      RowChange::insert("slip_lines", {{"slip_uid", slip_uid},
                                       {"kind", std::string(kind)},
                                       {"row_number", row == 0 ? Value{} : from(row)},
                                       {"species", species},
                                       {"seedlings", from(static_cast<std::int64_t>(count))}}));
}

void add_lines(store::ChangeSet& act, const std::string& slip_uid, const tending::Slip& slip) {
  for (const tending::SlipLine& line : slip.lines)
    add_line(act, slip_uid, "planted", line.row, line.species, line.planted);
  for (const auto& [species, count] : slip.dead) add_line(act, slip_uid, "dead", 0, species, count);
  for (const auto& [species, count] : slip.returned)
    add_line(act, slip_uid, "returned", 0, species, count);
}

void drop_lines(store::ChangeSet& act, const store::Store& store, const std::string& slip_uid) {
  for (const Row& row :
       store.rows("slip_lines", store::Filter{}.with("slip_uid", Value{slip_uid}))) {
    act.rows.push_back(RowChange::remove("slip_lines", store::text_of(row, "uid"),
                                         *store::integer_of(row, "row_version")));
  }
}

/// Why each slip is set aside, in the order of the book; empty = it stands.
std::vector<std::optional<Message>> faults_of(const SettledBook& settled) {
  std::vector<std::optional<Message>> faults(settled.slips.size());
  std::size_t next = 0;
  for (const std::size_t i : settled.ledger.set_aside) {
    while (next < settled.ledger.findings.size() &&
           (settled.ledger.findings[next].severity != Severity::set_aside ||
            settled.ledger.findings[next].where != settled.slips[i].number))
      ++next;
    if (next < settled.ledger.findings.size()) faults[i] = settled.ledger.findings[next++].message;
  }
  return faults;
}

/// Puts the slip in its place by day; one with the same number goes.
std::size_t put_into(FieldBook& book, const SlipNote& note) {
  std::erase_if(book.slips, [&](const SlipNote& n) { return n.slip.number == note.slip.number; });
  const auto place = std::upper_bound(
      book.slips.begin(), book.slips.end(), note,
      [](const SlipNote& a, const SlipNote& b) { return a.slip.day < b.slip.day; });
  const auto index = static_cast<std::size_t>(place - book.slips.begin());
  book.slips.insert(place, note);
  return index;
}

/// Other slips may stand or fall with a new one or a new dispatch.
void update_others(store::ChangeSet& act, const FieldBook& book,
                   const std::vector<std::optional<Message>>& faults, const std::string& but) {
  for (std::size_t i = 0; i < book.slips.size(); ++i) {
    const SlipNote& note = book.slips[i];
    const std::string finding = faults[i] ? nlohmann::json(*faults[i]).dump() : std::string();
    if (note.uid == but || (note.kept == !faults[i] && note.finding == finding)) continue;
    act.rows.push_back(RowChange::update("slips", note.uid, note.row_version,
                                         {{"state", std::string(faults[i] ? "aside" : "kept")},
                                          {"finding", text_or_null(finding)}}));
  }
}

Message keep_slip(store::Store& store, const Entries& entries, Date today, const Actor& actor) {
  FieldBook book = load_field_book(store);
  SlipNote note = read_slip(store, book, entries, today);
  const std::string& number = note.slip.number;
  const auto there = std::find_if(book.slips.begin(), book.slips.end(),
                                  [&](const SlipNote& n) { return n.slip.number == number; });
  store::ChangeSet act = act_of(actor, "return slip " + number);
  if (there != book.slips.end()) {
    if (there->kept && !yes_no_of(entries, "correct").value_or(false))
      throw Error(ErrorKind::conflict, number, say("fieldbook.slip_there", {{"number", number}}));
    note.uid = there->uid;
    note.row_version = there->row_version;
    drop_lines(act, store, note.uid);
  }
  const bool is_new = note.uid.empty();
  if (is_new) note.uid = store.new_uid();
  const std::size_t place = put_into(book, note);
  const auto faults = faults_of(settle_book(book));
  const Row row = slip_row(note, faults[place]);
  act.rows.push_back(is_new ? RowChange::insert("slips", row, note.uid)
                            : RowChange::update("slips", note.uid, note.row_version, row));
  add_lines(act, note.uid, note.slip);
  update_others(act, book, faults, note.uid);
  store.apply(act);
  if (faults[place]) return said_of(*faults[place], "fieldbook.aside.", {{"number", number}});
  std::int64_t planted = 0;
  for (const tending::SlipLine& line : note.slip.lines) planted += line.planted;
  return say("fieldbook.kept.slip",
             {{"number", number}, {"block", note.slip.block}, {"planted", planted}});
}

/// What was written, and with --as-printed all that the block's sheet says to load.
Counts sent_of(const FieldBook& book, const Entries& entries, const SpeciesBook& species,
               const std::optional<PlanResult>& plan, const std::string& block) {
  Counts sent;
  if (yes_no_of(entries, "as-printed").value_or(false)) {
    const auto sheet =
        plan ? crew_sheet(*plan, book.programme.parameters, block) : std::optional<CrewSheet>{};
    if (!sheet)
      throw Error(ErrorKind::input, block, say("fieldbook.no_plan_of_block", {{"block", block}}));
    for (const SheetSpecies& one : sheet->species)
      sent.emplace_back(one.scientific_name, one.to_load);
  }
  for (const std::string& text : all_of(entries, "species")) {
    for (const auto& [written, count] : read_counts("species", text)) {
      const auto name = species.find(written);
      if (!name)
        throw Error(ErrorKind::input, "--species",
                    say("fieldbook.slip.species_unknown", {{"species", written}}));
      if (count < 1) throw Error(ErrorKind::input, "--species", say("tending.slip.negative"));
      sent.emplace_back(*name, count);
    }
  }
  if (sent.empty()) throw Error(ErrorKind::usage, "--species", say("fieldbook.nothing_sent"));
  return sent;
}

Message keep_dispatch(store::Store& store, const Entries& entries, Date today, const Actor& actor) {
  FieldBook book = load_field_book(store);
  const ground::Block& block = known_block(book.programme, entries);
  const Date day = day_of(entries, "day").value_or(today);
  const auto plan = plan_of(store, book, entries);
  const SpeciesBook species(species_names(book.programme), plan);
  const auto number = text_of(entries, "number");
  store::ChangeSet act = act_of(actor, "seedlings sent to " + block.code);
  std::int64_t sum = 0;
  for (const auto& [name, count] : sent_of(book, entries, species, plan, block.code)) {
    act.rows.push_back(
        RowChange::insert("dispatches", {{"number", text_or_null(number)},
                                         {"block", block.code},
                                         {"day", from(day)},
                                         {"species", name},
                                         {"seedlings", from(count)},
                                         {"note", text_or_null(text_of(entries, "note"))}}));
    book.dispatches.push_back({block.code, name, day, count, number.value_or("")});
    sum += count;
  }
  update_others(act, book, faults_of(settle_book(book)), "");
  store.apply(act);
  return say(block.gates.consent.answer == ground::Answer::yes
                 ? "fieldbook.kept.dispatch"
                 : "fieldbook.kept.dispatch_no_consent",
             {{"block", block.code}, {"seedlings", sum}, {"day", day}});
}

Field repeated(Field field) {
  field.repeats = true;
  return field;
}

}  // namespace

Note slip_note() {
  Note note;
  note.name = "slip";
  note.help = "A return slip, typed back. The same number again corrects one that is set aside.";
  note.fields = {
      note_field("number", FieldKind::text, "number of the slip", true),
      note_field("block", FieldKind::text, "code of the block", true),
      note_field("day", FieldKind::day, "day of the work; without it today"),
      note_field("people", FieldKind::whole, "how many worked", true),
      note_field("hours", FieldKind::number, "hours of the day, from begin to end", true),
      choice_field("job", "what was done; without it planting",
                   {"plant", "ring", "line", "whole", "pressing", "climber_cutting", "refill"}),
      repeated(note_field("row", FieldKind::text,
                          "planted in a row: 3:A=12,B=4 with codes of the sheet or names")),
      repeated(note_field("rows-done", FieldKind::text, "rows planted as printed: 1-12,15")),
      repeated(note_field("planted", FieldKind::text, "planted where rows were not written: A=12")),
      repeated(note_field("dead", FieldKind::text, "dead of those sent: A=2,B=1")),
      repeated(note_field("returned", FieldKind::text, "brought back to the nursery: A=5")),
      note_field("checked", FieldKind::whole, "plants checked by hand, one in fifty"),
      note_field("faults", FieldKind::whole, "faults found among them"),
      note_field("leader", FieldKind::text, "crew leader"),
      note_field("plan", FieldKind::whole,
                 "number of the plan on the sheet; without it the newest"),
      note_field("note", FieldKind::text, "remarks"),
      note_field("correct", FieldKind::yes_no, "write over a slip that is kept already")};
  note.keep = keep_slip;
  return note;
}

Note dispatch_note() {
  Note note;
  note.name = "dispatch";
  note.help = "Seedlings that leave the nursery for a block.";
  Field species = repeated(note_field("species", FieldKind::text,
                                      "species and how many: A=120,B=80 with codes or names"));
  note.fields = {
      note_field("block", FieldKind::text, "code of the block", true),
      species,
      note_field("as-printed", FieldKind::yes_no, "all that the block's sheet says to load"),
      note_field("day", FieldKind::day, "day they left; without it today"),
      note_field("number", FieldKind::text, "number of the dispatch note"),
      note_field("plan", FieldKind::whole,
                 "number of the plan on the sheet; without it the newest"),
      note_field("note", FieldKind::text, "nursery, vehicle, condition")};
  note.keep = keep_dispatch;
  return note;
}

}  // namespace wildling::plan
