#include "plan/weather/questions.hpp"

#include "plan/weather/fire_today.hpp"
#include "plan/weather/heat_today.hpp"
#include "plan/weather/notes.hpp"
#include "plan/weather/replies.hpp"
#include "plan/weather/today.hpp"
#include "plan/weather/water_today.hpp"

namespace wildling::plan {
namespace {

Field text(const char* name, const char* help, bool required = false) {
  return {name, FieldKind::text, help, required, false, {}, {}, {}};
}

Field day(const char* name, const char* help) {
  return {name, FieldKind::day, help, false, false, {}, {}, {}};
}

Field number(const char* name, const char* help, double low, double high) {
  return {name, FieldKind::number, help, false, false, {}, low, high};
}

Field whole(const char* name, const char* help, double low, double high) {
  return {name, FieldKind::whole, help, false, false, {}, low, high};
}

Field yes_no(const char* name, const char* help) {
  return {name, FieldKind::yes_no, help, false, false, {}, {}, {}};
}

Field choice(const char* name, const char* help, std::vector<std::string> choices, bool required) {
  return {name, FieldKind::choice, help, required, false, std::move(choices), {}, {}};
}

Field station() {
  return text("station", "name of the weather station, where there are several");
}

Field block() {
  return text("block", "code of a block or name of a site; without it all blocks");
}

std::vector<Field> reading_fields() {
  return {
      day("day", "day of the readings; without it today"),
      station(),
      number("rain", "rain in mm", 0, 1828.8),
      day("rain-since", "first day that the rain reading covers, when the gauge was not emptied"),
      number("tmax", "highest temperature in degrees C", -40, 57.7),
      number("tmin", "lowest temperature in degrees C", -40, 57.7),
      number("rh-max", "highest humidity in per cent", 0, 100),
      number("rh-min", "lowest humidity in per cent", 0, 100),
      number("rh-mean", "mean humidity in per cent", 0, 100),
      number("wind", "mean wind in m/s at 2 m", 0, 75),
      number("sun", "hours of sunshine", 0, 24)};
}

std::vector<Field> look_fields() {
  Field blocks =
      text("block", "code of a block or name of a site; may be given several times", true);
  blocks.repeats = true;
  return {blocks,
          day("day", "day somebody looked; without it today"),
          choice("soil", "soil poked by hand to the bottom of the pit", {"moist", "dry"}, false),
          yes_no("strip-cleared", "is the strip cleared"),
          yes_no("pits-dug", "are the pits dug"),
          yes_no("stock-ready", "are the seedlings at size and hardened"),
          yes_no("pit-drains", "is water poured into a pit gone next morning"),
          yes_no("river-not-rising", "yes when the river is not rising"),
          yes_no("crew-and-way-in", "are there crew, transport and a way in"),
          yes_no("water-falling", "flooded ground: does the staff gauge or dip well fall"),
          yes_no("rewetted", "peat: are the drains blocked and the ground wet again"),
          number("water-below", "peat: depth of the water table below the ground in m", -3, 10),
          text("note", "in your words")};
}

}  // namespace

std::vector<Question> weather_questions() {
  using namespace weather;
  return {
      {"today",
       "Is today a planting day, how is the fire danger, how to work in the heat.",
       {block(), station()},
       false,
       today_reply},
      {"season",
       "When do the rains begin and end, and which weeks are good for planting.",
       {station()},
       false,
       season_reply},
      {"water",
       "Water in a seedling's root ball over the last weeks.",
       {whole("days", "how many days, without it 30", 7, 366), station()},
       false,
       water_reply},
      {"spells",
       "Dry spells, and planting today, in 3, 7 and 14 days.",
       {whole("seed", "of the invented continuations, without it 1", 0, 2147483647), station()},
       true,
       spells_reply},
      {"hindcast",
       "Would the advice have been right in the past.",
       {station()},
       true,
       hindcast_reply},
      {"quality", "Readings worth a second look.", {station()}, false, quality_reply},
      {"fire", "Fire danger today.", {station()}, false, fire_reply},
      {"heat", "Work in today's heat, hour by hour.", {station()}, false, heat_reply},
      {"trend", "Does the climate here change; drought indices.", {station()}, true, trend_reply},
      {"pair",
       "Is the forest cooling the air: two stations side by side.",
       {text("open-station", "name of the station in the open", true),
        text("forest-station", "name of the station under trees", true)},
       false,
       pair_reply},
      {"simulate",
       "Invented days that behave like the log.",
       {whole("years", "how many years, without it 30", 1, 1000),
        whole("seed", "without it 1", 0, 2147483647), station()},
       true,
       simulate_reply}};
}

std::vector<Note> weather_notes() {
  using namespace weather;
  return {{"day", "A day's readings; written again it corrects them.", reading_fields(), keep_day},
          {"look", "What was seen at blocks before planting.", look_fields(), keep_look},
          {"fire-word",
           "The manager raises the fire class of a day.",
           {day("day", "day it holds for; without it today"),
            choice("class", "the class", {"high", "very-high", "extreme"}, true),
            text("why", "smoke seen, neighbours burning ...", true)},
           keep_fire_word},
          {"wet-months",
           "Wet months as elders or neighbours tell them.",
           {text("months", "numbers of the months, as 11 12 1 2", true),
            text("told-by", "who told it", true), day("day", "day it was told; without it today")},
           keep_wet_months}};
}

}  // namespace wildling::plan
