#include "store/geopackage.hpp"

#include <fmt/format.h>

#include "base/error.hpp"

namespace wildling::store {
namespace {

// OGC 12-128r18, clause 1.1.3.1.1, table 3 onwards, and annex C for the table definitions.
constexpr const char* kCore = R"sql(
PRAGMA application_id=1196444487;
PRAGMA user_version=10300;
CREATE TABLE gpkg_spatial_ref_sys (
  srs_name TEXT NOT NULL, srs_id INTEGER NOT NULL PRIMARY KEY, organization TEXT NOT NULL,
  organization_coordsys_id INTEGER NOT NULL, definition TEXT NOT NULL, description TEXT);
CREATE TABLE gpkg_contents (
  table_name TEXT NOT NULL PRIMARY KEY, data_type TEXT NOT NULL, identifier TEXT UNIQUE,
  description TEXT DEFAULT '', last_change DATETIME NOT NULL DEFAULT (strftime('%Y-%m-%dT%H:%M:%fZ','now')),
  min_x DOUBLE, min_y DOUBLE, max_x DOUBLE, max_y DOUBLE, srs_id INTEGER,
  CONSTRAINT fk_gc_r_srs_id FOREIGN KEY (srs_id) REFERENCES gpkg_spatial_ref_sys(srs_id));
CREATE TABLE gpkg_geometry_columns (
  table_name TEXT NOT NULL, column_name TEXT NOT NULL, geometry_type_name TEXT NOT NULL, srs_id INTEGER NOT NULL,
  z TINYINT NOT NULL, m TINYINT NOT NULL,
  CONSTRAINT pk_geom_cols PRIMARY KEY (table_name, column_name),
  CONSTRAINT uk_gc_table_name UNIQUE (table_name),
  CONSTRAINT fk_gc_tn FOREIGN KEY (table_name) REFERENCES gpkg_contents(table_name),
  CONSTRAINT fk_gc_srs FOREIGN KEY (srs_id) REFERENCES gpkg_spatial_ref_sys (srs_id));
CREATE TABLE gpkg_extensions (
  table_name TEXT, column_name TEXT, extension_name TEXT NOT NULL, definition TEXT NOT NULL, scope TEXT NOT NULL,
  CONSTRAINT ge_tce UNIQUE (table_name, column_name, extension_name));
CREATE TABLE gpkg_data_columns (
  table_name TEXT NOT NULL, column_name TEXT NOT NULL, name TEXT, title TEXT, description TEXT, mime_type TEXT,
  constraint_name TEXT, CONSTRAINT pk_gdc PRIMARY KEY (table_name, column_name),
  CONSTRAINT gdc_tn UNIQUE (table_name, name));
CREATE TABLE gpkg_data_column_constraints (
  constraint_name TEXT NOT NULL, constraint_type TEXT NOT NULL, value TEXT, min NUMERIC, min_is_inclusive BOOLEAN,
  max NUMERIC, max_is_inclusive BOOLEAN, description TEXT,
  CONSTRAINT gdcc_ntv UNIQUE (constraint_name, constraint_type, value));
INSERT INTO gpkg_extensions VALUES
  ('gpkg_data_columns', NULL, 'gpkg_schema', 'http://www.geopackage.org/spec121/#extension_schema', 'read-write'),
  ('gpkg_data_column_constraints', NULL, 'gpkg_schema', 'http://www.geopackage.org/spec121/#extension_schema',
   'read-write');
INSERT INTO gpkg_spatial_ref_sys VALUES
  ('Undefined Cartesian SRS', -1, 'NONE', -1, 'undefined', 'undefined Cartesian coordinate reference system'),
  ('Undefined geographic SRS', 0, 'NONE', 0, 'undefined', 'undefined geographic coordinate reference system'),
  ('WGS 84 geodetic', 4326, 'EPSG', 4326, 'GEOGCS["WGS 84",DATUM["WGS_1984",SPHEROID["WGS 84",6378137,298.257223563,AUTHORITY["EPSG","7030"]],AUTHORITY["EPSG","6326"]],PRIMEM["Greenwich",0,AUTHORITY["EPSG","8901"]],UNIT["degree",0.0174532925199433,AUTHORITY["EPSG","9122"]],AXIS["Latitude",NORTH],AXIS["Longitude",EAST],AUTHORITY["EPSG","4326"]]', 'longitude and latitude in degrees on the WGS 84 spheroid');
)sql";

const char* geometry_name(GeometryType type) {
  switch (type) {
    case GeometryType::point:
      return "POINT";
    case GeometryType::line_string:
      return "LINESTRING";
    default:
      return "MULTIPOLYGON";
  }
}

const char* sql_type(const Column& column, GeometryType geometry) {
  switch (column.type) {
    case ColumnType::integer:
      return "INTEGER";
    case ColumnType::real:
      return "REAL";
    case ColumnType::text:
      return "TEXT";
    case ColumnType::blob:
      return "BLOB";
    case ColumnType::boolean:
      return "BOOLEAN";
    case ColumnType::date:
      return "DATE";
    case ColumnType::utc:
      return "DATETIME";
    case ColumnType::geometry:
      return geometry_name(geometry);
  }
  return "TEXT";
}

std::string meaning_of(const Column& column) {
  return column.unit.empty() ? column.meaning : fmt::format("{} ({})", column.meaning, column.unit);
}

void explain(Connection& connection, const std::string& table, const Column& column) {
  connection.run("INSERT INTO gpkg_data_columns VALUES (?, ?, NULL, NULL, ?, NULL, NULL)",
                 {table, column.name, meaning_of(column)});
}

std::string declared(const Column& column, GeometryType geometry) {
  if (column.name == "id") return "\"id\" INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL";
  return fmt::format("\"{}\" {}{}{}", column.name, sql_type(column, geometry),
                     column.nullable ? "" : " NOT NULL", column.name == "uid" ? " UNIQUE" : "");
}

void create_indexes(Connection& connection, const TableDef& table) {
  auto indexes = table.indexes;
  if (is_editable(table) && !table.logged) indexes.push_back({{"import_uid"}});
  int number = 0;
  for (const Index& index : indexes) {
    connection.run(fmt::format("CREATE {} INDEX \"{}_{}\" ON \"{}\" (\"{}\")",
                               index.unique ? "UNIQUE" : "", table.name, ++number, table.name,
                               fmt::join(index.columns, "\", \"")));
  }
}

}  // namespace

void make_geopackage(Connection& connection) {
  connection.run(kCore);
}

void create_table(Connection& connection, const TableDef& table, const std::string& now_utc) {
  std::string columns;
  for (const Column& column : all_columns(table)) {
    columns += (columns.empty() ? "" : ", ") + declared(column, table.geometry);
  }
  connection.run(fmt::format("CREATE TABLE \"{}\" ({})", table.name, columns));
  create_indexes(connection, table);
  const bool shaped = table.geometry != GeometryType::none;
  connection.run(
      "INSERT INTO gpkg_contents (table_name, data_type, identifier, description, last_change, "
      "srs_id) "
      "VALUES (?, ?, ?, ?, ?, ?)",
      {table.name, shaped ? "features" : "attributes", table.title, "Written by: " + table.writer,
       now_utc, shaped ? Value(std::int64_t{4326}) : Value()});
  if (shaped) {
    connection.run("INSERT INTO gpkg_geometry_columns VALUES (?, 'geom', ?, 4326, 0, 0)",
                   {table.name, geometry_name(table.geometry)});
  }
  for (const Column& column : all_columns(table)) explain(connection, table.name, column);
}

void add_column(Connection& connection, const std::string& table, const Column& column) {
  connection.run(
      fmt::format("ALTER TABLE \"{}\" ADD COLUMN {}", table, declared(column, GeometryType::none)));
  explain(connection, table, column);
}

void migrate(Connection& connection, const Schema& schema, int from_version,
             const std::string& now_utc) {
  for (const Migration& migration : schema) {
    if (migration.version <= from_version) continue;
    for (const Operation& operation : migration.operations) {
      if (const auto* added = std::get_if<AddTable>(&operation)) {
        create_table(connection, added->table, now_utc);
      } else {
        const auto& column = std::get<AddColumn>(operation);
        add_column(connection, column.table, column.column);
      }
    }
    connection.run("INSERT INTO schema_versions (version, made_utc, what) VALUES (?, ?, ?)",
                   {static_cast<std::int64_t>(migration.version), now_utc, migration.what});
  }
}

}  // namespace wildling::store
