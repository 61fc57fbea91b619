#include "store/schema/rooms.hpp"

// Paper that comes back. What people wrote is kept as they wrote it, also where it cannot be right:
// slips and diary lines name their block by the code on the sheet and are set aside until settled.
// Names of people and places of incidents are marked and stay in the office.
namespace wildling::store::schema {
namespace {

using enum ColumnType;

constexpr const char* kNames = "names";
constexpr const char* kIncidentPlaces = "incident_places";

TableDef walks() {
  return {"walks",
          "Smother walks",
          "the user, once a week and block",
          TableKind::attributes,
          GeometryType::none,
          {{"block_uid", text, "", "block", false},
           {"day", date, "", "day of the walk", false},
           {"cover", text, "",
            "running_grass, tussock_grass, fern, climbers, shrubs: what competes", false},
           {"picture", integer, "",
            "1 to 4: to the knee of the trees, half, as high, above; by the pictures"},
           {"cover_m", real, "m", "height of the cover, where it was measured"},
           {"tree_m", real, "m", "usual height of the trees, where it was measured"},
           {"climbed_share", real, "", "share of trees with climbers in the crown, 0 to 1"},
           {"cured_share", real, "", "share of dead grass, 0 to 1"},
           {"animal_signs", text, "", "what was seen"},
           {"note", text, "", "in the walker's words"}},
          {{{"block_uid", "day"}}}};
}

TableDef diary_lines() {
  return {"diary_lines",
          "Work diary",
          "the user, one line a person, day, block and job",
          TableKind::attributes,
          GeometryType::none,
          {{"worker", text, "", "who worked", false, kNames},
           {"sex", text, "", "woman, man, or empty = not said"},
           {"day", date, "", "day of the work", false},
           {"block", text, "", "code of the block as written", false},
           {"job", text, "",
            "clear, mark_places, dig_pits, carry, plant, ring, line, whole, pressing, "
            "climber_cutting, firebreak, refill",
            false},
           {"hours", real, "h", "hours as written, also where they cannot be right", false},
           {"quantity", real, "unit of the job", "done: m2, trees or m"},
           {"note", text, "", "in the writer's words", true, kNames}},
          {{{"worker", "day"}}, {{"day"}}}};
}

TableDef wages() {
  return {"wages",
          "Wages",
          "the user",
          TableKind::attributes,
          GeometryType::none,
          {{"worker", text, "", "for whom; empty = everybody without a wage of their own", true,
            kNames},
           {"per_day", real, "currency of the programme", "pay of a full day", false},
           {"first_day", date, "", "holds from this day on", false},
           {"note", text, "", "agreement"}},
          {{{"worker", "first_day"}}}};
}

TableDef crew_orders() {
  return {"crew_orders",
          "Who goes where",
          "the user, in the afternoon for the next day",
          TableKind::attributes,
          GeometryType::none,
          {{"leader", text, "", "crew leader; empty = written by hand", true, kNames},
           {"day", date, "", "day of the work", false},
           {"block", text, "", "code of the block", false},
           {"job", text, "", "as in diary_lines", false},
           {"people", integer, "", "people of the crew"},
           {"meeting_place", text, "", "where they meet"},
           {"meeting_hour", text, "", "when, as people say it"},
           {"help", text, "", "where help is: name and telephone", true, kNames},
           {"note", text, "", "anything the leader must know"}},
          {{{"day"}}}};
}

TableDef dispatches() {
  return {"dispatches",
          "Seedlings sent to a block",
          "the user, with each dispatch note of the nursery",
          TableKind::attributes,
          GeometryType::none,
          {{"number", text, "", "number of the dispatch note"},
           {"block", text, "", "code of the block", false},
           {"day", date, "", "day they left", false},
           {"species", text, "", "scientific name", false},
           {"seedlings", integer, "", "how many", false},
           {"note", text, "", "nursery, vehicle, condition"}},
          {{{"block", "species"}}}};
}

TableDef slips() {
  return {"slips",
          "Return slips",
          "the user, the same evening",
          TableKind::attributes,
          GeometryType::none,
          {{"number", text, "", "number written on the slip", false},
           {"plan_number", integer, "", "plan whose species codes the sheet has"},
           {"block", text, "", "code of the block as written", false},
           {"day", date, "", "day of the work", false},
           {"leader", text, "", "crew leader", true, kNames},
           {"people", integer, "", "people at work"},
           {"hours", real, "h", "hours of the crew's day, as written"},
           {"faults", integer, "", "faults found among the plants checked"},
           {"checked", integer, "", "plants checked by hand, one in fifty"},
           {"round_job", text, "", "tending job that the slip reports; empty = planting"},
           {"state", text, "", "kept or aside: aside = not counted until settled", false},
           {"finding", text, "", "JSON of the sentence that says why it is aside"},
           {"note", text, "", "remarks and incidents in the leader's words", true, kNames}},
          {{{"number"}, true}, {{"block"}}}};
}

TableDef slip_lines() {
  return {"slip_lines",
          "Lines of return slips",
          "the user, the same evening",
          TableKind::attributes,
          GeometryType::none,
          {{"slip_uid", text, "", "slip", false},
           {"kind", text, "", "planted, dead, returned", false},
           {"row_number", integer, "", "row of the crew sheet; planted only"},
           {"species", text, "", "scientific name, or as written where it is not known", false},
           {"seedlings", integer, "", "how many, as written", false}},
          {{{"slip_uid"}}}};
}

TableDef troubles() {
  return {"troubles",
          "Incidents and near misses",
          "the user, one line a day",
          TableKind::attributes,
          GeometryType::none,
          {{"day", date, "", "day", false},
           {"kind", text, "", "near_miss, injury, illness, animals, fire, theft, dispute, other",
            false},
           {"what", text, "", "one line, in the words of who tells it", false, kNames},
           {"done", text, "", "what was done about it", true, kNames}},
          {{{"day"}}}};
}

// Kept apart from what happened, so that the list can be read by many and the places by few.
TableDef trouble_places() {
  return {"trouble_places",
          "Places of incidents",
          "the user",
          TableKind::attributes,
          GeometryType::none,
          {{"trouble_uid", text, "", "incident", false},
           {"place", text, "", "block, path or position in words", false, kIncidentPlaces}},
          {{{"trouble_uid"}}}};
}

TableDef tool_counts() {
  return {
      "tool_counts",
      "Tools and water",
      "the user, before a day's work",
      TableKind::attributes,
      GeometryType::none,
      {{"day", date, "", "day they are needed", false},
       {"block", text, "", "code of the block; empty = all"},
       {"tool", text, "", "machete, hoe, file, board, water, crate ... in the user's word", false},
       {"needed", real, "", "how many (litres for water)"},
       {"there", real, "", "how many are there"},
       {"note", text, "", "anything else"}},
      {{{"day"}}}};
}

}  // namespace

std::vector<TableDef> field_book_tables() {
  return {walks(), diary_lines(), wages(),    crew_orders(),    dispatches(),
          slips(), slip_lines(),  troubles(), trouble_places(), tool_counts()};
}

}  // namespace wildling::store::schema
