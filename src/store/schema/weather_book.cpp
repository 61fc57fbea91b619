#include "store/schema/rooms.hpp"

namespace wildling::store::schema {
namespace {

using enum ColumnType;

TableDef rain_totals() {
  return {"rain_totals",
          "Rain of several days in one reading",
          "taking in a weather log; the user",
          TableKind::attributes,
          GeometryType::none,
          {{"station_uid", text, "", "station", false},
           {"first_day", date, "", "first day the reading covers", false},
           {"last_day", date, "", "last day it covers", false},
           {"rain_mm", real, "mm", "rain of all those days together; never divided", false}},
          {{{"station_uid", "last_day"}, true}}};
}

TableDef block_looks() {
  return {"block_looks",
          "Looked at before planting",
          "the user, block by block",
          TableKind::attributes,
          GeometryType::none,
          {{"block_uid", text, "", "block", false},
           {"day", date, "", "day somebody looked", false},
           {"strip_cleared", boolean, "", "1 = the planting strip is cleared"},
           {"pits_dug", boolean, "", "1 = the pits are dug"},
           {"stock_ready", boolean, "", "1 = seedlings at size and hardened"},
           {"soil", text, "", "moist_to_bottom or dry, poked by hand to the bottom of the pit"},
           {"pit_drains", boolean, "", "1 = water poured into a pit is gone next morning"},
           {"river_not_rising", boolean, "", "1 = the river is not rising"},
           {"crew_and_way_in", boolean, "", "1 = crew, transport and a way in"},
           {"water_falling", boolean, "", "flooded ground: 1 = staff gauge or dip well falls"},
           {"rewetted", boolean, "", "peat: 1 = drains are blocked, the ground is wet again"},
           {"water_below_m", real, "m", "peat: depth of the water table below the ground"},
           {"note", text, "", "in the reader's words"}},
          {{{"block_uid", "day"}}}};
}

TableDef fire_words() {
  return {"fire_words",
          "Fire class as the manager raised it",
          "the user",
          TableKind::attributes,
          GeometryType::none,
          {{"day", date, "", "day it holds for", false},
           {"class", text, "", "high, very_high or extreme", false},
           {"why", text, "", "smoke seen, neighbours burning ...", false}},
          {{{"day"}}}};
}

TableDef wet_months() {
  return {"wet_months",
          "Wet months as told",
          "the user",
          TableKind::attributes,
          GeometryType::none,
          {{"months", text, "", "numbers of the wet months, 11 12 1 2", false},
           {"told_by", text, "", "who told it", false},
           {"day", date, "", "when it was told", false}},
          {{{"day"}}}};
}

}  // namespace

std::vector<TableDef> weather_book_tables() {
  return {rain_totals(), block_looks(), fire_words(), wet_months()};
}

}  // namespace wildling::store::schema
