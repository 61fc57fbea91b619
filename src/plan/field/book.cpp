#include "plan/field/book.hpp"

#include <algorithm>

#include "plan/keep.hpp"

namespace wildling::plan {
namespace {

using store::date_of;
using store::Filter;
using store::integer_of;
using store::real_of;
using store::Row;
using store::text_of;

std::optional<int> small(const Row& row, const char* column) {
  const auto value = integer_of(row, column);
  return value ? std::optional<int>(static_cast<int>(*value)) : std::nullopt;
}

tending::Job job_of(const Row& row, const char* column) {
  return tending::parse_job(text_of(row, column)).value_or(tending::Job::ring);
}

void load_walks(const store::Store& store, FieldBook& book) {
  std::map<std::string, std::string> codes;
  for (const ground::Block& block : book.programme.blocks) codes[block.uid] = block.code;
  for (const Row& row : store.rows("walks", Filter{}.by("day"))) {
    WalkNote walk;
    walk.block = codes[text_of(row, "block_uid")];
    walk.day = date_of(row, "day").value_or(Date{});
    walk.cover = ground::parse_cover(text_of(row, "cover")).value_or(ground::Cover::running_grass);
    walk.picture = small(row, "picture");
    walk.cover_m = real_of(row, "cover_m");
    walk.tree_m = real_of(row, "tree_m");
    walk.climbed_share = real_of(row, "climbed_share");
    walk.cured_share = real_of(row, "cured_share");
    walk.animal_signs = text_of(row, "animal_signs");
    walk.note = text_of(row, "note");
    book.walks.push_back(std::move(walk));
  }
}

void load_diary(const store::Store& store, FieldBook& book) {
  for (const Row& row : store.rows("diary_lines", Filter{}.by("day"))) {
    tending::DiaryLine line;
    line.who = text_of(row, "worker");
    const std::string sex = text_of(row, "sex");
    using Sex = tending::DiaryLine::Sex;
    line.sex = sex == "woman" ? Sex::woman : sex == "man" ? Sex::man : Sex::not_said;
    line.day = date_of(row, "day").value_or(Date{});
    line.block = text_of(row, "block");
    line.job = job_of(row, "job");
    line.hours = real_of(row, "hours").value_or(0);
    line.quantity = real_of(row, "quantity");
    line.where = line.who + ", " + iso_date(line.day) + ", " + line.block;
    book.diary.push_back(std::move(line));
  }
  for (const Row& row : store.rows("wages", Filter{}.by("first_day"))) {
    book.wages.push_back({text_of(row, "worker"), real_of(row, "per_day").value_or(0),
                          date_of(row, "first_day").value_or(Date{})});
  }
}

// A wage among the prices pays everybody who has no wage of their own.
void load_wage_prices(const store::Store& store, FieldBook& book) {
  const Filter wage = Filter{}.with("item", store::Value{std::string("wage")}).by("from_day");
  for (const Row& row : store.rows("prices", wage)) {
    book.wages.push_back(
        {"", real_of(row, "price").value_or(0), date_of(row, "from_day").value_or(Date{})});
  }
  std::stable_sort(book.wages.begin(), book.wages.end(),
                   [](const WageNote& a, const WageNote& b) { return a.from < b.from; });
}

void put_line(tending::Slip& slip, const Row& row) {
  const std::string kind = text_of(row, "kind");
  const std::string species = text_of(row, "species");
  const std::int64_t count = integer_of(row, "seedlings").value_or(0);
  if (kind == "dead") {
    slip.dead[species] += count;
  } else if (kind == "returned") {
    slip.returned[species] += count;
  } else {
    slip.lines.push_back({small(row, "row_number").value_or(0), species, count});
  }
}

void load_slips(const store::Store& store, FieldBook& book) {
  std::map<std::string, std::size_t> place;
  for (const Row& row : store.rows("slips", Filter{}.by("day"))) {
    SlipNote note;
    note.uid = text_of(row, "uid");
    note.row_version = integer_of(row, "row_version").value_or(0);
    note.slip.number = text_of(row, "number");
    note.slip.block = text_of(row, "block");
    note.slip.day = date_of(row, "day").value_or(Date{});
    note.slip.hours = real_of(row, "hours").value_or(0);
    note.slip.people = small(row, "people").value_or(0);
    note.slip.faults = small(row, "faults").value_or(0);
    if (const std::string job = text_of(row, "round_job"); !job.empty())
      note.slip.tending_round = tending::parse_job(job);
    note.plan_number = small(row, "plan_number");
    note.leader = text_of(row, "leader");
    note.checked = small(row, "checked");
    note.kept = text_of(row, "state") == "kept";
    note.finding = text_of(row, "finding");
    note.note = text_of(row, "note");
    place[note.uid] = book.slips.size();
    book.slips.push_back(std::move(note));
  }
  for (const Row& row : store.rows("slip_lines")) {
    const auto found = place.find(text_of(row, "slip_uid"));
    if (found != place.end()) put_line(book.slips[found->second].slip, row);
  }
}

void load_dispatches(const store::Store& store, FieldBook& book) {
  for (const Row& row : store.rows("dispatches", Filter{}.by("day"))) {
    const Date day = date_of(row, "day").value_or(Date{});
    book.dispatches.push_back(
        {text_of(row, "block"), text_of(row, "species"), day,
         integer_of(row, "seedlings").value_or(0),
         text_of(row, "number").empty() ? iso_date(day) : text_of(row, "number")});
  }
}

void load_orders(const store::Store& store, FieldBook& book) {
  for (const Row& row : store.rows("crew_orders", Filter{}.by("day"))) {
    CrewOrder order;
    order.leader = text_of(row, "leader");
    order.day = date_of(row, "day").value_or(Date{});
    order.block = text_of(row, "block");
    order.job = job_of(row, "job");
    order.people = small(row, "people");
    order.meeting_place = text_of(row, "meeting_place");
    order.meeting_hour = text_of(row, "meeting_hour");
    order.help = text_of(row, "help");
    order.note = text_of(row, "note");
    book.orders.push_back(std::move(order));
  }
  for (const Row& row : store.rows("tool_counts", Filter{}.by("day"))) {
    book.tools.push_back({date_of(row, "day").value_or(Date{}), text_of(row, "block"),
                          text_of(row, "tool"), real_of(row, "needed"), real_of(row, "there")});
  }
}

}  // namespace

FieldBook load_land(const store::Store& store) {
  FieldBook book;
  book.programme = load_programme(store);
  if (store.count("plans") > 0) book.plan = load_plan(store);
  return book;
}

FieldBook load_field_book(const store::Store& store) {
  FieldBook book = load_land(store);
  load_walks(store, book);
  load_diary(store, book);
  load_wage_prices(store, book);
  load_dispatches(store, book);
  load_slips(store, book);
  load_orders(store, book);
  book.troubles = store.count("troubles");
  return book;
}

const ground::Block* block_of(const Programme& programme, const std::string& code) {
  const auto found = std::find_if(programme.blocks.begin(), programme.blocks.end(),
                                  [&](const ground::Block& block) { return block.code == code; });
  return found == programme.blocks.end() ? nullptr : &*found;
}

const BlockPart* part_of(const FieldBook& book, const std::string& code) {
  if (!book.plan) return nullptr;
  const auto found = std::find_if(book.plan->blocks.begin(), book.plan->blocks.end(),
                                  [&](const BlockPart& part) { return part.block.code == code; });
  return found == book.plan->blocks.end() ? nullptr : &*found;
}

std::string block_list(const Programme& programme) {
  constexpr std::size_t kMost = 12;
  std::string list;
  for (std::size_t i = 0; i < programme.blocks.size() && i < kMost; ++i)
    list += (list.empty() ? "" : ", ") + programme.blocks[i].code;
  return programme.blocks.size() > kMost ? list + " ..." : list;
}

}  // namespace wildling::plan
