#include "store/schema/rooms.hpp"

namespace wildling::store::schema {
namespace {

using enum ColumnType;

TableDef sites() {
  return {"sites",
          "Sites",
          "taking in a boundary; the user",
          TableKind::features,
          GeometryType::multi_polygon,
          {{"code", text, "", "short name that people read", false},
           {"name", text, "", "full name"},
           {"vertex_error_m", real, "m", "standard error of a boundary point"},
           {"note", text, "", "anything else"}},
          {{{"code"}, true}}};
}

TableDef blocks() {
  return {"blocks",
          "Blocks",
          "dividing a site; the user",
          TableKind::features,
          GeometryType::multi_polygon,
          {{"code", text, "", "short name that people read: B3", false},
           {"site_uid", text, "", "site it lies in", false},
           {"ground_type", text, "", "the user's word: slope, river bank, wet foot"},
           {"cover", text, "",
            "cleared, running_grass, tussock_grass, fern, climbers, shrubs, under_trees"},
           {"slope_deg", real, "deg", "mean slope of the ground; empty = not known"},
           {"vertex_error_m", real, "m", "standard error of a boundary point"},
           {"note", text, "", "anything else"}},
          {{{"code"}, true}, {{"site_uid"}}}};
}

TableDef water_lines() {
  return {"water_lines",
          "Water lines",
          "taking in a boundary; the user",
          TableKind::features,
          GeometryType::line_string,
          {{"site_uid", text, "", "site it runs through"},
           {"name", text, "", "name of the water"},
           {"kind", text, "", "stream, ditch, shore"}},
          {{{"site_uid"}}}};
}

TableDef gate_answers() {
  return {
      "gate_answers",
      "Gates before planting",
      "the user",
      TableKind::attributes,
      GeometryType::none,
      {{"block_uid", text, "", "block it is about", false},
       {"gate", text, "", "consent, fire_and_cattle, natural_trees_counted, drained_peat", false},
       {"answer", text, "", "not_asked, yes, no", false},
       {"natural_trees_per_ha", real, "1/ha",
        "counted young trees that came by themselves; natural_trees_counted only"},
       {"answered_by", text, "", "who gave the answer"},
       {"day", date, "", "day of the answer"},
       {"note", text, "", "agreement, witness, place of the paper"}},
      {{{"block_uid", "gate"}, true}}};
}

}  // namespace

std::vector<TableDef> ground_tables() {
  return {sites(), blocks(), water_lines(), gate_answers()};
}

}  // namespace wildling::store::schema
