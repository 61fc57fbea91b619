#include "store/schema/rooms.hpp"

namespace wildling::store::schema {
namespace {

using enum ColumnType;

TableDef change_sets() {
  return {"change_sets",
          "Log: acts",
          "the store, with every change",
          TableKind::log,
          GeometryType::none,
          {{"uid", text, "", "of the act", false},
           {"who", text, "", "who did it", false},
           {"made_utc", utc, "", "when", false},
           {"why", text, "", "what it was for", false},
           {"face", text, "", "where it was done: command line, page", false},
           {"source_file", text, "", "file that was taken in"},
           {"import_uid", text, "", "row of imports that belongs to it"},
           {"undoes", text, "", "uid of the act that this one takes back"}},
          {{{"uid"}, true}, {{"undoes"}}}};
}

TableDef changes() {
  return {"changes",
          "Log: changed rows",
          "the store, with every change",
          TableKind::log,
          GeometryType::none,
          {{"set_number", integer, "", "id in change_sets", false},
           {"table_name", text, "", "table that changed", false},
           {"row_uid", text, "", "row that changed; empty when rows are only counted"},
           {"action", text, "", "insert, update, remove, counted insert, counted remove, derived",
            false},
           {"row_count", integer, "", "number of rows", false},
           {"before", text, "",
            "JSON of the row before: all of it, or for an update the columns that changed"},
           {"after", text, "", "JSON of the row after, likewise"}},
          {{{"set_number"}}, {{"table_name", "row_uid"}}}};
}

TableDef schema_versions() {
  return {
      "schema_versions",
      "Versions of the tables",
      "the store, when it makes or renews the file",
      TableKind::log,
      GeometryType::none,
      {{"version", integer, "", "version of the tables from then on; the highest counts", false},
       {"made_utc", utc, "", "when", false},
       {"what", text, "", "what it brought", false}},
      {{{"version"}, true}}};
}

TableDef programme_state() {
  return {"programme_state",
          "Counters",
          "the store, with every change",
          TableKind::log,
          GeometryType::none,
          {{"name", text, "", "data_version: number of committed changes", false},
           {"value", integer, "", "count", false}},
          {{{"name"}, true}}};
}

}  // namespace

std::vector<TableDef> log_tables() {
  return {schema_versions(), programme_state(), change_sets(), changes()};
}

}  // namespace wildling::store::schema
