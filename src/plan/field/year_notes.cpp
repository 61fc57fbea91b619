#include <algorithm>

#include "intake/boundaries.hpp"
#include "plan/field/year.hpp"
#include "plan/field/year_book.hpp"
#include "plan/geometry.hpp"

namespace wildling::plan {
namespace {

using store::from;
using store::Row;
using store::RowChange;
using store::Value;

constexpr double kMostMoney = 1e15;

Value text_value(const Entries& entries, const std::string& field) {
  const auto text = text_of(entries, field);
  return text && !text->empty() ? Value{*text} : Value{};
}

std::string joined(const std::vector<std::string>& codes) {
  std::string text;
  for (const std::string& code : codes) text += (text.empty() ? "" : ", ") + code;
  return text;
}

void check_block(const store::Store& store, const std::string& code) {
  if (store.count("blocks", store::Filter{}.with("code", Value{code})) == 0)
    throw Error(ErrorKind::input, "--block", say("year.no_block", {{"block", code}}));
}

/// The blocks named, each of which must exist; null when none is named.
Value blocks_value(const store::Store& store, const Entries& entries) {
  const auto codes = all_of(entries, "block");
  for (const std::string& code : codes) check_block(store, code);
  return codes.empty() ? Value{} : Value{joined(codes)};
}

void not_after_today(Date day, Date today, const char* field) {
  if (day > today)
    throw Error(ErrorKind::input, std::string("--") + field,
                say("year.day_ahead", {{"day", day}, {"today", today}}));
}

void insert(store::Store& store, const char* table, Row row, const std::string& why,
            const Actor& actor) {
  store::ChangeSet act;
  act.who = actor.who;
  act.why = why;
  act.face = actor.face;
  act.rows.push_back(RowChange::insert(table, std::move(row)));
  store.apply(act);
}

Message keep_income(store::Store& store, const Entries& entries, Date today, const Actor& actor) {
  const std::string kind = *text_of(entries, "money");
  const bool opening = kind == "opening";
  const std::string state = text_of(entries, "state").value_or(opening ? "received" : "agreed");
  const Date day = day_of(entries, "day").value_or(today);
  if (opening || state == "received") not_after_today(day, today, "day");
  const double amount = *number_of(entries, "amount");
  insert(store, "incomes",
         {{"kind", kind},
          {"state", opening ? "received" : state},
          {"day", from(day)},
          {"amount", from(amount)},
          {"giver", text_value(entries, "giver")},
          {"note", text_value(entries, "note")}},
         opening ? "money counted" : "money in", actor);
  return say(opening ? "year.kept.opening" : "year.kept.payment",
             {{"amount", amount}, {"day", day}, {"state", state}});
}

Message keep_price(store::Store& store, const Entries& entries, Date today, const Actor& actor) {
  const std::string item = *text_of(entries, "item");
  const Date day = day_of(entries, "from").value_or(today);
  const double price = *number_of(entries, "price");
  insert(store, "prices",
         {{"item", item},
          {"from_day", from(day)},
          {"price", from(price)},
          {"note", text_value(entries, "note")}},
         "price of " + item, actor);
  return say("year.kept.price", {{"item", item}, {"price", price}, {"day", day}});
}

Message keep_told(store::Store& store, const Entries& entries, Date today, const Actor& actor) {
  const std::string who = *text_of(entries, "who");
  const auto day = day_of(entries, "day");
  if (day) not_after_today(*day, today, "day");
  insert(store, "neighbours",
         {{"neighbour", who}, {"told_on", from(day)}, {"agreed", text_value(entries, "agreed")}},
         day ? "neighbour told" : "neighbour to be told", actor);
  if (!day) return say("year.kept.to_tell", {{"who", who}});
  return say("year.kept.told", {{"who", who}, {"day", *day}});
}

/// The walked edge as one shape.
ground::Shape edge_of(const std::string& path) {
  intake::BoundaryOptions options;
  options.close_lines = true;
  const intake::BoundaryFile file = intake::read_boundaries(path, options);
  ground::Shape shape;
  for (const intake::SiteShape& site : file.sites)
    shape.parts.insert(shape.parts.end(), site.shape.parts.begin(), site.shape.parts.end());
  return shape;
}

Message keep_burn(store::Store& store, const Entries& entries, Date today, const Actor& actor) {
  const Date day = *day_of(entries, "day");
  not_after_today(day, today, "day");
  const auto path = text_of(entries, "track");
  const auto words = text_of(entries, "edge");
  if (!path && !words && all_of(entries, "block").empty())
    throw Error(ErrorKind::usage, "--track", say("year.burn_where"));
  Row row = {{"day", from(day)},
             {"blocks", blocks_value(store, entries)},
             {"edge", text_value(entries, "edge")},
             {"note", text_value(entries, "note")}};
  double area_ha = 0;
  if (path) {
    const ground::Shape edge = edge_of(*path);
    area_ha = ground::area_m2(edge) / 10000;
    row["geom"] = store::encode(to_geometry(edge));
  }
  insert(store, "fires", std::move(row), "fire", actor);
  if (!path) return say("year.kept.burn", {{"day", day}});
  return say("year.kept.burn_area", {{"day", day}, {"area", area_ha}});
}

Message keep_access(store::Store& store, const Entries& entries, Date today, const Actor& actor) {
  const Date first = day_of(entries, "from").value_or(today);
  const auto last = day_of(entries, "to");
  if (last && *last < first)
    throw Error(ErrorKind::input, "--to",
                say("year.days_turned", {{"first", first}, {"last", *last}}));
  const std::string way = *text_of(entries, "way");
  insert(store, "shut_ways",
         {{"kind", *text_of(entries, "shut")},
          {"way", way},
          {"from_day", from(first)},
          {"to_day", from(last)},
          {"blocks", blocks_value(store, entries)},
          {"note", text_value(entries, "note")}},
         "way shut", actor);
  if (!last) return say("year.kept.shut", {{"way", way}, {"first", first}});
  return say("year.kept.shut_until", {{"way", way}, {"first", first}, {"last", *last}});
}

Message keep_depot(store::Store& store, const Entries& entries, Date, const Actor& actor) {
  const std::string name = *text_of(entries, "depot");
  const auto lon = number_of(entries, "lon");
  const auto lat = number_of(entries, "lat");
  if (lon.has_value() != lat.has_value())
    throw Error(ErrorKind::usage, lon ? "--lat" : "--lon", say("year.both_coordinates"));
  const auto yes_no = [&](const char* field) {
    const auto said = yes_no_of(entries, field);
    return said ? store::from_flag(*said) : Value{};
  };
  Row row = {{"depot", name},
             {"blocks", blocks_value(store, entries)},
             {"crates", from(whole_of(entries, "crates"))},
             {"water", yes_no("water")},
             {"shade", yes_no("shade")},
             {"note", text_value(entries, "note")}};
  if (lon) row["geom"] = store::encode(store::Position{*lon, *lat});
  insert(store, "depots", std::move(row), "depot", actor);
  return say("year.kept.depot", {{"depot", name}});
}

Message keep_firebreak(store::Store& store, const Entries& entries, Date today,
                       const Actor& actor) {
  const std::string block = *text_of(entries, "block");
  check_block(store, block);
  const Date day = day_of(entries, "day").value_or(today);
  not_after_today(day, today, "day");
  const double metres = *number_of(entries, "metres");
  insert(store, "firebreak_days",
         {{"block", block},
          {"day", from(day)},
          {"length_m", from(metres)},
          {"width_m", from(number_of(entries, "width"))},
          {"note", text_value(entries, "note")}},
         "firebreak cut", actor);
  return say("year.kept.firebreak", {{"block", block}, {"day", day}, {"metres", metres}});
}

void check_dead(const Entries& entries, std::int64_t dead, std::int64_t counted) {
  const auto text = text_of(entries, "dead-places");
  if (!text) return;
  const auto places = parse_places(*text, static_cast<int>(counted));
  if (!places)
    throw Error(ErrorKind::input, "--dead-places",
                say("year.count_places", {{"text", *text}, {"counted", counted}}));
  if (static_cast<std::int64_t>(places->size()) != dead)
    throw Error(ErrorKind::input, "--dead-places",
                say("year.count_differs",
                    {{"written", static_cast<std::int64_t>(places->size())}, {"dead", dead}}));
}

Message keep_count(store::Store& store, const Entries& entries, Date today, const Actor& actor) {
  const std::string block = *text_of(entries, "block");
  check_block(store, block);
  const Date day = day_of(entries, "day").value_or(today);
  not_after_today(day, today, "day");
  const std::int64_t alive = *whole_of(entries, "alive");
  const std::int64_t counted = *whole_of(entries, "counted");
  if (alive > counted)
    throw Error(ErrorKind::input, "--alive",
                say("year.count_more", {{"alive", alive}, {"counted", counted}}));
  check_dead(entries, counted - alive, counted);
  const std::int64_t row = *whole_of(entries, "row-number");
  insert(store, "row_counts",
         {{"block", block},
          {"row_number", from(row)},
          {"day", from(day)},
          {"cohort", text_of(entries, "cohort").value_or("first")},
          {"alive", from(alive)},
          {"counted", from(counted)},
          {"dead_places", text_value(entries, "dead-places")},
          {"note", text_value(entries, "note")}},
         "trees counted", actor);
  return say("year.kept.count",
             {{"block", block}, {"row", row}, {"alive", alive}, {"counted", counted}});
}

Field field(std::string name, FieldKind kind, std::string help, bool required = false) {
  Field one;
  one.name = std::move(name);
  one.kind = kind;
  one.help = std::move(help);
  one.required = required;
  return one;
}

Field number(std::string name, FieldKind kind, std::string help, bool required, double low,
             double high) {
  Field one = field(std::move(name), kind, std::move(help), required);
  one.low = low;
  one.high = high;
  return one;
}

Field choice(std::string name, std::string help, bool required, std::vector<std::string> choices) {
  Field one = field(std::move(name), FieldKind::choice, std::move(help), required);
  one.choices = std::move(choices);
  return one;
}

Field several(Field one) {
  one.repeats = true;
  return one;
}

Field note_field() {
  return field("note", FieldKind::text, "anything else, in your own words");
}

std::vector<Field> income_fields() {
  return {choice("money", "opening: what is there on that day; payment: what comes in", true,
                 {"opening", "payment"}),
          number("amount", FieldKind::number, "amount, 0 or more", true, 0, kMostMoney),
          field("day", FieldKind::day, "day it was counted, came, or is due; today when left out"),
          choice("state",
                 "received; agreed: signed, counted when due; hoped: shown, never counted. "
                 "Agreed when left out",
                 false, {"received", "agreed", "hoped"}),
          field("giver", FieldKind::text, "who pays"),
          note_field()};
}

std::vector<Field> price_fields() {
  return {choice("item",
                 "wage: a person-day; stake; refill_seedling: one; trip: of the vehicle; month: "
                 "running costs of a month",
                 true, {"wage", "stake", "refill_seedling", "trip", "month"}),
          number("price", FieldKind::number, "price, 0 or more", true, 0, kMostMoney),
          field("from", FieldKind::day, "holds from this day; today when left out"), note_field()};
}

std::vector<Field> burn_fields() {
  return {field("day", FieldKind::day, "day it burned", true),
          several(field("block", FieldKind::text, "code of a block it touched; several times")),
          field("track", FieldKind::text, "file with the walked edge: GPX, GeoJSON, KML ..."),
          field("edge", FieldKind::text, "the edge in words, where nobody has a track"),
          note_field()};
}

std::vector<Field> access_fields() {
  return {choice("shut", "what is shut", true, {"river", "road", "bridge", "path"}),
          field("way", FieldKind::text, "its name", true),
          field("from", FieldKind::day, "first day; today when left out"),
          field("to", FieldKind::day, "last day; open when left out"),
          several(field("block", FieldKind::text, "code of a block behind it; several times")),
          note_field()};
}

std::vector<Field> depot_fields() {
  return {field("depot", FieldKind::text, "its name", true),
          number("lon", FieldKind::number, "longitude in degrees", false, -180, 180),
          number("lat", FieldKind::number, "latitude in degrees", false, -90, 90),
          several(field("block", FieldKind::text, "code of a block it serves; several times")),
          number("crates", FieldKind::whole, "crates that stand in its shade", false, 0, 100000),
          field("water", FieldKind::yes_no, "water near by"),
          field("shade", FieldKind::yes_no, "shade"),
          note_field()};
}

std::vector<Field> count_fields() {
  return {field("block", FieldKind::text, "code of the block", true),
          number("row-number", FieldKind::whole, "row of the crew sheet", true, 1, 100000),
          number("alive", FieldKind::whole, "living trees", true, 0, 100000),
          number("counted", FieldKind::whole, "places looked at", true, 1, 100000),
          field("dead-places", FieldKind::text,
                "which places are dead, counted from the row's start: "
                "3, 4, 9-12"),
          choice("cohort",
                 "first: the first planting; refill_1, refill_2; resprout: after a fire. First "
                 "when left out",
                 false, {"first", "refill_1", "refill_2", "resprout"}),
          field("day", FieldKind::day, "day of the count; today when left out"),
          note_field()};
}

}  // namespace

std::vector<Note> year_notes() {
  return {{"income", "Write down money that is there or comes in.", income_fields(), keep_income},
          {"price", "Write down a wage or a price.", price_fields(), keep_price},
          {"told",
           "Write down a neighbour who was told of the dry season, or must be.",
           {field("who", FieldKind::text, "person, village or estate", true),
            field("day", FieldKind::day, "day they were told; left out: still to be told"),
            field("agreed", FieldKind::text, "what was agreed")},
           keep_told},
          {"burn", "Write down a fire.", burn_fields(), keep_burn},
          {"access", "Write down a river, road, bridge or path that is shut.", access_fields(),
           keep_access},
          {"depot", "Write down a seedling depot.", depot_fields(), keep_depot},
          {"firebreak",
           "Write down metres of firebreak that were cut.",
           {field("block", FieldKind::text, "code of the block", true),
            number("metres", FieldKind::number, "length cut and raked out", true, 0.1, 1000000),
            number("width", FieldKind::number, "width in metres", false, 0.5, 100),
            field("day", FieldKind::day, "day of the work; today when left out"), note_field()},
           keep_firebreak},
          {"count", "Write down living trees of a row.", count_fields(), keep_count}};
}

}  // namespace wildling::plan
