#include "plan/field/year_book.hpp"

#include <algorithm>
#include <charconv>
#include <map>

#include "plan/geometry.hpp"

namespace wildling::plan {
namespace {

using store::Filter;
using store::Row;
using store::text_of;

std::string trimmed(const std::string& text) {
  const auto first = text.find_first_not_of(" \t");
  if (first == std::string::npos) return {};
  return text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

std::vector<std::string> pieces(const std::string& text) {
  std::vector<std::string> list;
  std::size_t from = 0;
  while (from <= text.size()) {
    const std::size_t comma = std::min(text.find_first_of(",;", from), text.size());
    std::string piece = trimmed(text.substr(from, comma - from));
    if (!piece.empty()) list.push_back(std::move(piece));
    from = comma + 1;
  }
  return list;
}

std::optional<int> whole(const std::string& text) {
  int value = 0;
  const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (fault != std::errc{} || end != text.data() + text.size()) return {};
  return value;
}

int small(const Row& row, const char* column) {
  return static_cast<int>(store::integer_of(row, column).value_or(0));
}

MoneyState state_of(const std::string& text) {
  if (text == "received") return MoneyState::received;
  return text == "agreed" ? MoneyState::agreed : MoneyState::hoped;
}

void read_money(const store::Store& store, YearBook& book) {
  for (const Row& row : store.rows("incomes", Filter{}.by("day"))) {
    book.incomes.push_back({text_of(row, "kind") == "opening", state_of(text_of(row, "state")),
                            *store::date_of(row, "day"), *store::real_of(row, "amount"),
                            text_of(row, "giver"), text_of(row, "note")});
  }
  for (const Row& row : store.rows("prices", Filter{}.by("from_day"))) {
    book.prices.push_back({text_of(row, "item"), *store::date_of(row, "from_day"),
                           *store::real_of(row, "price"), text_of(row, "note")});
  }
  for (const Row& row : store.rows("wages", Filter{}.by("first_day"))) {
    if (!text_of(row, "worker").empty()) continue;
    book.prices.push_back({"wage", *store::date_of(row, "first_day"),
                           *store::real_of(row, "per_day"), text_of(row, "note")});
  }
  std::stable_sort(book.prices.begin(), book.prices.end(),
                   [](const PriceStep& a, const PriceStep& b) { return a.from < b.from; });
}

void read_fire(const store::Store& store, YearBook& book) {
  std::map<std::string, Neighbour> told;
  for (const Row& row : store.rows("neighbours", Filter{}.by("told_on"))) {
    Neighbour& one = told[text_of(row, "neighbour")];
    one.name = text_of(row, "neighbour");
    if (const auto day = store::date_of(row, "told_on")) one.told_on = day;
    if (!text_of(row, "agreed").empty()) one.agreed = text_of(row, "agreed");
  }
  for (auto& [name, one] : told) book.neighbours.push_back(std::move(one));
  for (const Row& row : store.rows("fires", Filter{}.by("day"))) {
    Fire fire;
    fire.day = *store::date_of(row, "day");
    fire.blocks = parse_codes(text_of(row, "blocks"));
    if (!store::is_null(row, "geom"))
      fire.edge = to_shape(store::decode(store::blob_of(row, "geom")));
    fire.edge_words = text_of(row, "edge");
    fire.note = text_of(row, "note");
    book.fires.push_back(std::move(fire));
  }
  for (const Row& row : store.rows("firebreak_days", Filter{}.by("day"))) {
    book.firebreaks.push_back({text_of(row, "block"), *store::date_of(row, "day"),
                               *store::real_of(row, "length_m"), store::real_of(row, "width_m")});
  }
}

void read_counts(const store::Store& store, YearBook& book) {
  for (const Row& row : store.rows("row_counts", Filter{}.by("day"))) {
    RowCount count;
    count.block = text_of(row, "block");
    count.row = small(row, "row_number");
    count.day = *store::date_of(row, "day");
    count.cohort = text_of(row, "cohort");
    count.alive = small(row, "alive");
    count.counted = small(row, "counted");
    if (!store::is_null(row, "dead_places"))
      count.dead_places = parse_places(text_of(row, "dead_places"), count.counted);
    book.counts.push_back(std::move(count));
  }
}

void read_diary(const store::Store& store, YearBook& book) {
  for (const Row& row : store.rows("diary_lines", Filter{}.by("day"))) {
    const auto job = tending::parse_job(text_of(row, "job"));
    if (!job) continue;
    tending::DiaryLine line;
    line.who = text_of(row, "worker");
    line.day = *store::date_of(row, "day");
    line.block = text_of(row, "block");
    line.job = *job;
    line.hours = *store::real_of(row, "hours");
    line.quantity = store::real_of(row, "quantity");
    if (line.hours > 0 && line.hours <= 24) book.diary.push_back(std::move(line));
  }
}

void read_walks(const store::Store& store, YearBook& book) {
  std::map<std::string, std::string> codes;
  for (const Row& row : store.rows("blocks", Filter{}.only({"uid", "code"})))
    codes[text_of(row, "uid")] = text_of(row, "code");
  std::map<std::string, tending::WalkLine> newest;
  for (const Row& row : store.rows("walks", Filter{}.by("day"))) {
    const auto cover = ground::parse_cover(text_of(row, "cover"));
    const auto height = store::real_of(row, "cover_m");
    if (!cover || !height) continue;
    tending::WalkLine line;
    line.block = codes[text_of(row, "block_uid")];
    line.day = *store::date_of(row, "day");
    line.cover = *cover;
    line.cover_m = *height;
    newest[line.block] = std::move(line);
  }
  for (auto& [block, line] : newest) book.walks.push_back(std::move(line));
}

}  // namespace

YearBook read_year_book(const store::Store& store) {
  YearBook book;
  read_money(store, book);
  read_fire(store, book);
  read_counts(store, book);
  read_diary(store, book);
  read_walks(store, book);
  return book;
}

std::optional<std::vector<int>> parse_places(const std::string& text, int places) {
  std::vector<int> list;
  for (const std::string& piece : pieces(text)) {
    const std::size_t dash = piece.find('-');
    const auto first = whole(trimmed(piece.substr(0, dash)));
    const auto last = dash == std::string::npos ? first : whole(trimmed(piece.substr(dash + 1)));
    if (!first || !last || *first < 1 || *last < *first || *last > places) return {};
    for (int place = *first; place <= *last; ++place) list.push_back(place);
  }
  std::sort(list.begin(), list.end());
  if (std::adjacent_find(list.begin(), list.end()) != list.end()) return {};
  return list;
}

std::vector<std::string> parse_codes(const std::string& text) {
  return pieces(text);
}

}  // namespace wildling::plan
