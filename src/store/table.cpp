#include "store/table.hpp"

#include <algorithm>

#include "base/error.hpp"
#include "store/schema/rooms.hpp"

namespace wildling::store {
namespace {

[[noreturn]] void faulty(const std::string& table) {
  throw Error(ErrorKind::internal, table, say("store.schema_faulty", {{"table", table}}));
}

std::vector<TableDef>::iterator named(std::vector<TableDef>& tables, const std::string& name) {
  return std::find_if(tables.begin(), tables.end(),
                      [&](const TableDef& table) { return table.name == name; });
}

void carry_out(const Operation& operation, std::vector<TableDef>& tables) {
  if (const auto* added = std::get_if<AddTable>(&operation)) {
    if (named(tables, added->table.name) != tables.end()) faulty(added->table.name);
    tables.push_back(added->table);
    return;
  }
  const auto& column = std::get<AddColumn>(operation);
  const auto table = named(tables, column.table);
  if (table == tables.end() || !column.column.nullable) faulty(column.table);
  for (const Column& old : all_columns(*table)) {
    if (old.name == column.column.name) faulty(column.table);
  }
  table->columns.push_back(column.column);
}

Schema gathered() {
  Migration first{1, "The first tables"};
  for (const auto& tables :
       {schema::log_tables(), schema::programme_tables(), schema::import_tables(),
        schema::ground_tables(), schema::climate_tables(), schema::species_tables(),
        schema::plan_tables()}) {
    for (const TableDef& table : tables) first.operations.push_back(AddTable{table});
  }
  Migration second{2, "The weather book, the field book and the page"};
  for (const auto& tables : {schema::weather_book_tables(), schema::field_book_tables(),
                             schema::year_book_tables(), schema::page_tables()}) {
    for (const TableDef& table : tables) second.operations.push_back(AddTable{table});
  }
  return {first, second};
}

}  // namespace

const Schema& shipped_schema() {
  static const Schema schema = gathered();
  return schema;
}

int newest_version(const Schema& schema) {
  return schema.empty() ? 0 : schema.back().version;
}

std::vector<TableDef> tables_of(const Schema& schema, int version) {
  std::vector<TableDef> tables;
  for (const Migration& migration : schema) {
    if (migration.version > version) break;
    for (const Operation& operation : migration.operations) carry_out(operation, tables);
  }
  return tables;
}

const std::vector<Column>& kept_columns() {
  static const std::vector<Column> columns = {
      {"uid", ColumnType::text, "", "128 random bits as 32 hexadecimal digits, never used again",
       false},
      {"row_version", ColumnType::integer, "", "1 when made, one more with every change", false},
      {"who", ColumnType::text, "", "who made the last change", false},
      {"changed_utc", ColumnType::utc, "", "when the last change was made", false},
      {"source_file", ColumnType::text, "",
       "name of the file the values came from; empty = entered by hand", true},
      {"import_uid", ColumnType::text, "",
       "uid of the row of imports that brought it; empty = entered by hand", true},
  };
  return columns;
}

std::vector<Column> all_columns(const TableDef& table) {
  std::vector<Column> columns = {
      {"id", ColumnType::integer, "", "number of the row in this table", false}};
  if (is_editable(table)) {
    columns.insert(columns.end(), kept_columns().begin(), kept_columns().end());
  }
  if (table.geometry != GeometryType::none) {
    columns.push_back(
        {"geom", ColumnType::geometry, "deg", "shape on WGS 84, longitude before latitude", true});
  }
  columns.insert(columns.end(), table.columns.begin(), table.columns.end());
  return columns;
}

bool is_editable(const TableDef& table) {
  return table.kind == TableKind::features || table.kind == TableKind::attributes;
}

}  // namespace wildling::store
