#include "store/schema/rooms.hpp"

// What the year ahead is reckoned from: money that comes in, what things cost, who was told of the
// dry season, fires, ways shut, depots, firebreaks cut, and trees counted by row.
namespace wildling::store::schema {
namespace {

using enum ColumnType;

TableDef incomes() {
  return {"incomes",
          "Money in",
          "the user",
          TableKind::attributes,
          GeometryType::none,
          {{"kind", text, "",
            "opening = what is in the cash box on that day; payment = what comes in", false},
           {"state", text, "", "received, agreed (signed), hoped (not counted)", false},
           {"day", date, "", "day it was counted, came, or is due", false},
           {"amount", real, "currency of the programme", "0 or more", false},
           {"giver", text, "", "who pays"},
           {"note", text, "", "agreement, conditions"}},
          {{{"day"}}}};
}

TableDef prices() {
  return {"prices",
          "Prices and wage",
          "the user",
          TableKind::attributes,
          GeometryType::none,
          {{"item", text, "",
            "wage (a person-day), stake, refill_seedling (one), trip (of the vehicle), month "
            "(running costs of one month)",
            false},
           {"from_day", date, "", "holds from this day until the next line of the item", false},
           {"price", real, "currency of the programme", "0 or more", false},
           {"note", text, "", "who said it, where it was bought"}},
          {{{"item", "from_day"}}}};
}

TableDef neighbours() {
  return {"neighbours",
          "Neighbours told of the dry season",
          "the user, before each dry season",
          TableKind::attributes,
          GeometryType::none,
          {{"neighbour", text, "", "person, village or estate", false},
           {"told_on", date, "", "day they were told; empty = still to be told"},
           {"agreed", text, "", "what was agreed, in the words of who told them"}},
          {{{"neighbour", "told_on"}}}};
}

TableDef fires() {
  return {"fires",
          "Fires",
          "the user, after walking the edge",
          TableKind::features,
          GeometryType::multi_polygon,
          {{"day", date, "", "day it burned", false},
           {"blocks", text, "", "codes of the blocks it touched, with commas"},
           {"edge", text, "", "the edge in words or drawn by hand, where nobody has a track"},
           {"note", text, "", "where it came from, who fought it"}},
          {{{"day"}}}};
}

TableDef shut_ways() {
  return {"shut_ways",
          "Ways shut",
          "the user",
          TableKind::attributes,
          GeometryType::none,
          {{"kind", text, "", "river, road, bridge, path", false},
           {"way", text, "", "its name", false},
           {"from_day", date, "", "first day it is shut", false},
           {"to_day", date, "", "last day it is shut; empty = until somebody says otherwise"},
           {"blocks", text, "", "codes of the blocks behind it, with commas; empty = all"},
           {"note", text, "", "another way, who says so"}},
          {{{"from_day"}}}};
}

TableDef depots() {
  return {"depots",
          "Seedling depots",
          "the user",
          TableKind::features,
          GeometryType::point,
          {{"depot", text, "", "its name", false},
           {"blocks", text, "", "codes of the blocks it serves, with commas"},
           {"crates", integer, "", "crates that stand in its shade"},
           {"water", boolean, "", "1 = water near by"},
           {"shade", boolean, "", "1 = shade"},
           {"note", text, "", "how to get there"}},
          {{{"depot"}}}};
}

TableDef firebreak_days() {
  return {"firebreak_days",
          "Firebreaks cut",
          "the user, the same evening",
          TableKind::attributes,
          GeometryType::none,
          {{"block", text, "", "code of the block", false},
           {"day", date, "", "day of the work", false},
           {"length_m", real, "m", "length cut and raked out", false},
           {"width_m", real, "m", "its width"},
           {"note", text, "", "anything else"}},
          {{{"block", "day"}}}};
}

TableDef row_counts() {
  return {"row_counts",
          "Trees counted by row",
          "the user, at the end of the first dry season and later",
          TableKind::attributes,
          GeometryType::none,
          {{"block", text, "", "code of the block", false},
           {"row_number", integer, "", "row of the crew sheet", false},
           {"day", date, "", "day of the count", false},
           {"cohort", text, "", "first, refill_1, refill_2, resprout (after a fire)", false},
           {"alive", integer, "", "living trees of the cohort", false},
           {"counted", integer, "", "places looked at", false},
           {"dead_places", text, "", "which places are dead: 3, 4, 9-12; empty = not written"},
           {"note", text, "", "in the counter's words"}},
          {{{"block", "day"}}}};
}

}  // namespace

std::vector<TableDef> year_book_tables() {
  return {incomes(),   prices(), neighbours(),     fires(),
          shut_ways(), depots(), firebreak_days(), row_counts()};
}

}  // namespace wildling::store::schema
