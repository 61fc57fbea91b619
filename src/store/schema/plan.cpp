#include "store/schema/rooms.hpp"

namespace wildling::store::schema {
namespace {

using enum ColumnType;

TableDef parameter_overrides() {
  return {"parameter_overrides",
          "Changed parameters",
          "the user",
          TableKind::attributes,
          GeometryType::none,
          {{"key", text, "", "name of the parameter", false},
           {"value", real, "that of the parameter", "value used instead of the shipped one", false},
           {"origin", text, "", "measured, told, documented, assumed", false},
           {"source", text, "", "publication and place, person and day, or why"}},
          {{{"key"}, true}}};
}

TableDef plans() {
  return {"plans",
          "Plans",
          "planning",
          TableKind::attributes,
          GeometryType::none,
          {{"number", integer, "", "rises with every plan, never used again", false},
           {"fingerprint", text, "", "hash over all inputs, 64 hexadecimal digits", false},
           {"seed", text, "", "seed of all random draws, unsigned decimal number", false},
           {"program_version", text, "", "program that made it", false},
           {"today", date, "", "day the plan takes as today", false},
           {"draft", boolean, "", "1 = a gate is closed: draft, not for crews", false},
           {"title", text, "", "what the user calls it"},
           {"options", text, "", "JSON of what the user asked for: target, budget, gap, pattern"}},
          {{{"number"}, true}}};
}

TableDef plan_results() {
  return {
      "plan_results",
      "Results of plans",
      "planning",
      TableKind::derived,
      GeometryType::none,
      {{"plan_uid", text, "", "plan", false},
       {"name", text, "", "part of the result: verdict, windows, mix, collection, tending", false},
       {"content", text, "", "JSON of the result struct", false}},
      {{{"plan_uid", "name"}, true}}};
}

TableDef plan_blocks() {
  return {"plan_blocks",
          "Planting places by block",
          "planning",
          TableKind::derived,
          GeometryType::none,
          {{"plan_uid", text, "", "plan", false},
           {"block_uid", text, "", "block", false},
           {"block_code", text, "", "its code when the plan was made", false},
           {"grid", text, "",
            "JSON of the grid: pattern, spacing, bearing, setbacks; positions are computed from it",
            false},
           {"species", text, "",
            "JSON list of scientific names; a species byte is an index into it", false},
           {"places", integer, "", "number of planting places", false},
           {"species_bytes", blob, "",
            "one byte per place in the order of the rows; 255 = left empty", false}},
          {{{"plan_uid", "block_uid"}, true}}};
}

TableDef workings() {
  return {"workings",
          "Where the numbers come from",
          "planning",
          TableKind::derived,
          GeometryType::none,
          {{"plan_uid", text, "", "plan", false},
           {"key", text, "", "name of the number within the plan", false},
           {"label", text, "", "JSON: word key and arguments", false},
           {"value", real, "column unit", "the number"},
           {"unit", text, "", "its unit"},
           {"origin", text, "", "measured, told, documented, assumed, computed, chosen", false},
           {"formula", text, "", "id of the formula; empty for an input"},
           {"source", text, "", "publication and place, person and day, or file and lines"},
           {"note", text, "", "why this value, for what is assumed"},
           {"inputs", text, "", "JSON list of keys in the order the formula takes them"}},
          {{{"plan_uid", "key"}, true}}};
}

TableDef prints() {
  return {"prints",
          "Printed sheets",
          "printing",
          TableKind::attributes,
          GeometryType::none,
          {{"plan_uid", text, "", "plan; a plan with a printed sheet stays", false},
           {"sheet", text, "", "kind of sheet: crew, rain, summary, map", false},
           {"block_code", text, "", "block, for a sheet of one block"},
           {"language", text, "", "en, id", false},
           {"pages", integer, "", "number of pages"},
           {"file_name", text, "", "file it was written to, without folder"}},
          {{{"plan_uid"}}}};
}

TableDef seedlings() {
  return {"seedlings",
          "Seedlings of the newest plan",
          "planning; replaced with every plan",
          TableKind::derived,
          GeometryType::point,
          {{"plan_number", integer, "", "plan", false},
           {"block_code", text, "", "block", false},
           {"row", integer, "", "row in the block, from 1", false},
           {"number", integer, "", "place in the row, from 1", false},
           {"species", text, "", "scientific name", false}}};
}

}  // namespace

std::vector<TableDef> plan_tables() {
  return {parameter_overrides(),
          plans(),
          plan_results(),
          plan_blocks(),
          workings(),
          prints(),
          seedlings()};
}

}  // namespace wildling::store::schema
