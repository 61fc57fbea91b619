#include "plan/weather/notes.hpp"

#include <algorithm>

#include "plan/weather/fire_today.hpp"
#include "plan/weather/words_of.hpp"

namespace wildling::plan::weather {
namespace {

using store::Row;
using store::RowChange;
using store::Value;

Value flag_value(const Entries& entries, const char* field) {
  const auto answer = yes_no_of(entries, field);
  return answer ? store::from_flag(*answer) : Value{};
}

Row look_values(const Entries& entries) {
  Row row = {{"strip_cleared", flag_value(entries, "strip-cleared")},
             {"pits_dug", flag_value(entries, "pits-dug")},
             {"stock_ready", flag_value(entries, "stock-ready")},
             {"pit_drains", flag_value(entries, "pit-drains")},
             {"river_not_rising", flag_value(entries, "river-not-rising")},
             {"crew_and_way_in", flag_value(entries, "crew-and-way-in")},
             {"water_falling", flag_value(entries, "water-falling")},
             {"rewetted", flag_value(entries, "rewetted")},
             {"water_below_m", store::from(number_of(entries, "water-below"))}};
  if (const auto soil = text_of(entries, "soil"))
    row["soil"] = *soil == "moist" ? std::string("moist_to_bottom") : *soil;
  std::erase_if(
      row, [](const auto& entry) { return std::holds_alternative<std::monostate>(entry.second); });
  return row;
}

Date day_not_after(const Entries& entries, Date today) {
  const Date day = day_of(entries, "day").value_or(today);
  if (day > today)
    throw Error(ErrorKind::input, "--day",
                say("weather.day.future", {{"day", day}, {"today", today}}));
  return day;
}

store::ChangeSet act_of(const Actor& actor, std::string why) {
  store::ChangeSet act;
  act.who = actor.who;
  act.face = actor.face;
  act.why = std::move(why);
  return act;
}

// Blocks by code or by site, each once.
std::vector<const ground::Block*> named_blocks(const Programme& programme, const Entries& entries) {
  std::vector<const ground::Block*> blocks;
  for (const std::string& name : all_of(entries, "block")) {
    bool found = false;
    for (const ground::Block& block : programme.blocks) {
      if (block.code != name && block.site != name) continue;
      found = true;
      if (std::find(blocks.begin(), blocks.end(), &block) == blocks.end()) blocks.push_back(&block);
    }
    if (!found) throw Error(ErrorKind::input, name, say("plan.no_such_block", {{"name", name}}));
  }
  return blocks;
}

}  // namespace

Message keep_look(store::Store& store, const Entries& entries, Date today, const Actor& actor) {
  const Date day = day_not_after(entries, today);
  const Row answers = look_values(entries);
  const auto note = text_of(entries, "note");
  if (answers.empty() && !note) throw Error(ErrorKind::usage, "", say("weather.look.nothing"));
  const Programme programme = load_programme(store);
  const auto blocks = named_blocks(programme, entries);
  store::ChangeSet act = act_of(actor, "looked at blocks on " + iso_date(day));
  for (const ground::Block* block : blocks) {
    Row row = answers;
    row["block_uid"] = block->uid;
    row["day"] = store::from(day);
    if (note) row["note"] = *note;
    act.rows.push_back(RowChange::insert("block_looks", std::move(row)));
  }
  store.apply(act);
  return say("weather.look.kept", {{"blocks", static_cast<std::int64_t>(blocks.size())},
                                   {"answers", static_cast<std::int64_t>(answers.size())},
                                   {"day", day}});
}

Message keep_fire_word(store::Store& store, const Entries& entries, Date today,
                       const Actor& actor) {
  const Date day = day_not_after(entries, today);
  std::string value = text_of(entries, "class").value_or("");
  if (value == "very-high") value = "very_high";
  if (!parse_fire_class(value) || value == "not_high")
    throw Error(ErrorKind::usage, "--class", say("weather.fire.only_raise"));
  const std::string why = text_of(entries, "why").value_or("");
  store::ChangeSet act = act_of(actor, "fire class of " + iso_date(day));
  act.rows.push_back(
      RowChange::insert("fire_words", {{"day", store::from(day)}, {"class", value}, {"why", why}}));
  store.apply(act);
  const FireToday fire = fire_today(scene(store, {}, day));
  return say(fire.result.raised ? "weather.fire.kept" : "weather.fire.kept_below",
             {{"class", value},
              {"day", day},
              {"why", why},
              {"rule", fire.result.value ? fire_class_name(*fire.result.value) : std::string()}});
}

Message keep_wet_months(store::Store& store, const Entries& entries, Date today,
                        const Actor& actor) {
  const Date day = day_not_after(entries, today);
  const std::vector<int> months = parse_months(text_of(entries, "months").value_or(""));
  if (months.empty()) throw Error(ErrorKind::usage, "--months", say("weather.wet_months.which"));
  std::string list;
  for (const int month : months) list += (list.empty() ? "" : " ") + std::to_string(month);
  const std::string who = text_of(entries, "told-by").value_or("");
  store::ChangeSet act = act_of(actor, "wet months as told");
  act.rows.push_back(RowChange::insert(
      "wet_months", {{"months", list}, {"told_by", who}, {"day", store::from(day)}}));
  store.apply(act);
  return say("weather.wet_months.kept", {{"months", list}, {"who", who}});
}

}  // namespace wildling::plan::weather
