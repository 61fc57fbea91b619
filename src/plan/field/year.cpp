#include "plan/field/year.hpp"

#include "plan/field/year_replies.hpp"

namespace wildling::plan {
namespace {

Field years_field() {
  Field field;
  field.name = "years-ahead";
  field.kind = FieldKind::number;
  field.help = "years from planting to look at, 1 to 10; 5 when left out";
  field.low = 1;
  field.high = 10;
  return field;
}

Field plain_field(const char* name, FieldKind kind, const char* help) {
  Field field;
  field.name = name;
  field.kind = kind;
  field.help = help;
  return field;
}

Reply ask_money(const store::Store& store, const Entries& entries, Date today, const Progress&) {
  return money_reply(load_year(store, today), number_of(entries, "years-ahead").value_or(5));
}

Reply ask_crew(const store::Store& store, const Entries&, Date today, const Progress&) {
  return crew_reply(load_year(store, today));
}

Reply ask_calendar(const store::Store& store, const Entries&, Date today, const Progress&) {
  return calendar_reply(load_year(store, today));
}

Reply ask_refill(const store::Store& store, const Entries& entries, Date today, const Progress&) {
  return refill_reply(load_year(store, today), text_of(entries, "block").value_or(""));
}

Reply ask_burnt(const store::Store& store, const Entries& entries, Date today, const Progress&) {
  return burnt_reply(load_year(store, today), day_of(entries, "day"));
}

}  // namespace

std::vector<Question> year_questions() {
  return {
      {"calendar", "Fire calendar: firebreaks, patrol, neighbours.", {}, false, ask_calendar},
      {"money",
       "Money by month and block, and the month in which it runs out.",
       {years_field()},
       false,
       ask_money},
      {"crew", "Crew, crates and trips for the good weeks of planting.", {}, false, ask_crew},
      {"refill",
       "Whether to refill dead places, and where.",
       {plain_field("block", FieldKind::text, "code of a block; all with counts when left out")},
       false,
       ask_refill},
      {"burnt",
       "What to do after a fire, and when.",
       {plain_field("day", FieldKind::day, "day of the fire; the newest when left out")},
       false,
       ask_burnt}};
}

}  // namespace wildling::plan
