#pragma once
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace wildling::store {

/// What a column holds, and how the file declares it.
enum class ColumnType {
  integer,  ///< INTEGER, 64 bits with sign
  real,     ///< REAL, finite; NaN is stored as null
  text,     ///< TEXT, valid UTF-8 without NUL
  blob,     ///< BLOB
  boolean,  ///< BOOLEAN, 0 or 1
  date,     ///< DATE, a local day without zone, "2026-11-25"
  utc,      ///< DATETIME, a moment, "2026-11-25T04:37:13.123Z"
  geometry  ///< GeoPackage geometry blob, WGS 84 (geometry.hpp)
};

struct Column {
  std::string name;  ///< with its unit as suffix where it has one: rain_mm
  ColumnType type = ColumnType::text;
  std::string unit;     ///< "mm", "deg"; empty = none
  std::string meaning;  ///< one plain English clause for docs/file-format.md and the file itself
  bool nullable = true;
  /// What of it stays in the office unless an export is told otherwise: "names", "incident_places"
  /// (export/rules.hpp); empty = nothing.
  std::string sensitive = {};
};

enum class TableKind {
  features,    ///< people's entries with a geometry; logged, undoable, a layer in a GIS
  attributes,  ///< people's entries without geometry; logged, undoable
  derived,     ///< what the program computed; replaced in bulk, not logged row by row, may have a
               ///< geometry
  log          ///< kept by the store itself; read only for everybody else
};

enum class GeometryType { none, point, line_string, multi_polygon };

/// Columns that are found together or must be unique together.
struct Index {
  std::vector<std::string> columns;
  bool unique = false;
};

/// One table. Every table has `id` INTEGER PRIMARY KEY; features and attributes also have the
/// columns of kept_columns(); a table with a geometry type has the column `geom`. None of these is
/// listed in `columns`.
struct TableDef {
  std::string name;
  std::string title;   ///< what a GIS shows
  std::string writer;  ///< who writes it, for docs/file-format.md
  TableKind kind = TableKind::attributes;
  GeometryType geometry = GeometryType::none;
  std::vector<Column> columns = {};
  std::vector<Index> indexes = {};
  /// false: rows that an import brings are logged once by their count, not one by one (a weather
  /// log). Later edits of such rows are logged like any other.
  bool logged = true;
};

struct AddTable {
  TableDef table;
};

/// The new column must be nullable: old rows have nothing in it.
struct AddColumn {
  std::string table;
  Column column;
};

using Operation = std::variant<AddTable, AddColumn>;

struct Migration {
  int version = 1;
  std::string what;
  std::vector<Operation> operations = {};
};

/// Migrations by rising version, starting at 1. Never edit one that has been released: add another.
using Schema = std::vector<Migration>;

/// The tables of this program, gathered from schema/*.cpp.
const Schema& shipped_schema();

/// Version of the last migration.
int newest_version(const Schema& schema);

/// The tables as they are after all migrations up to `version`, in order of creation.
/// @throws Error{internal} when a migration adds a table twice or a column to a table that is not
/// there
std::vector<TableDef> tables_of(const Schema& schema, int version);

/// The columns every row of features and attributes has beside its own: uid, row_version, who,
/// changed_utc, source_file, import_uid.
const std::vector<Column>& kept_columns();

/// All columns in the file's order: id, kept columns, geom, own columns.
std::vector<Column> all_columns(const TableDef& table);

/// True for features and attributes: tables that change sets insert into, update and remove from.
bool is_editable(const TableDef& table);

}  // namespace wildling::store
