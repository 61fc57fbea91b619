#include "store/describe.hpp"

#include <fmt/format.h>

namespace wildling::store {
namespace {

constexpr const char* kOpening = R"md(# The programme file

This page is written by a test from the declarations in `src/store/schema/`; run the tests with `UPDATE_GOLDEN=1` to renew it.

A programme is one file: an OGC GeoPackage 1.3 (OGC 12-128r18), that is an SQLite database with spatial layers, which any GIS
opens. All tables are listed in `gpkg_contents`, the meaning of each column in `gpkg_data_columns`.

* Reals are SI units with the unit in the name, days `2026-11-25` without zone, moments `2026-11-25T04:37:13.123Z`.
  An empty cell (NULL) is "not known"; NaN is stored as NULL.
* Shapes are WGS 84 (EPSG 4326), longitude before latitude, two dimensions, in the column `geom`; a shape may be missing.
* `id` numbers the rows of one table, is never used again after a removal, and means nothing outside the file. References between
  tables (`site_uid`, `plan_uid`, ...) hold the `uid`, 32 hexadecimal digits. Codes that people read may change.
* `application_id` and `user_version` belong to GeoPackage (GPKG, 10300). The version of the tables is the highest `version`
  in `schema_versions`. A program that knows a lower version opens the file for reading only; one that knows a higher version keeps
  a copy beside the file (`NAME.before-version-N.gpkg`) and then brings it up to date.
* While it is open for writing: SQLite's write-ahead log with synchronous FULL, and a lock on `NAME.lock` that holds machine and process
  number. A clean close leaves one file in journal mode DELETE, which opens from a write-protected stick. Copy an open file only with
  the program's own copy command.
* Entries (tables of people's entries) are logged: one row in `change_sets` per act, one in `changes` per changed row with what was before
  and after. Undo is an act of its own, refused when a later act that is still in force touched the rows. Rows that an import brings
  into a table marked "logged by count" are logged once by their number and found by `import_uid`.
* Results (tables of computed rows) are replaced as a whole, never edited, and only noted in the log.
* `before` and `after` are JSON objects from column to value; bytes and shapes are `{"hex": "..."}`. An update names only the
  columns that changed, with `id`, `row_version` and `import_uid`.
* A GIS may read the file at any time and add a spatial index. What a GIS changes is not in the log and does not raise `row_version`:
  make changes in the program, or in a copy that is then taken in.
)md";

const char* type_name(ColumnType type) {
  switch (type) {
    case ColumnType::integer:
      return "whole number";
    case ColumnType::real:
      return "real number";
    case ColumnType::text:
      return "text";
    case ColumnType::blob:
      return "bytes";
    case ColumnType::boolean:
      return "0 or 1";
    case ColumnType::date:
      return "day";
    case ColumnType::utc:
      return "moment";
    case ColumnType::geometry:
      return "shape";
  }
  return "text";
}

std::string kind_of(const TableDef& table) {
  std::string text;
  switch (table.kind) {
    case TableKind::features:
    case TableKind::attributes:
      text = table.logged ? "entries, logged" : "entries, logged by count when imported";
      break;
    case TableKind::derived:
      text = "results";
      break;
    case TableKind::log:
      text = "kept by the store";
      break;
  }
  switch (table.geometry) {
    case GeometryType::none:
      return text;
    case GeometryType::point:
      return text + "; layer of points";
    case GeometryType::line_string:
      return text + "; layer of lines";
    case GeometryType::multi_polygon:
      return text + "; layer of areas";
  }
  return text;
}

std::string column_lines(const std::vector<Column>& columns) {
  std::string text = "| column | type | unit | may be empty | meaning |\n|---|---|---|---|---|\n";
  for (const Column& column : columns) {
    const std::string stays =
        column.sensitive.empty() ? "" : "; stays in the office (" + column.sensitive + ")";
    text += fmt::format("| `{}` | {} | {} | {} | {}{} |\n", column.name, type_name(column.type),
                        column.unit, column.nullable ? "yes" : "no", column.meaning, stays);
  }
  return text;
}

std::string index_line(const TableDef& table) {
  std::string text;
  for (const Index& index : table.indexes) {
    if (index.unique)
      text += fmt::format("{}`{}`", text.empty() ? "" : "; ", fmt::join(index.columns, "`, `"));
  }
  return text.empty() ? "" : "Unique: " + text + ".\n";
}

std::string section(const TableDef& table) {
  return fmt::format("\n## {}\n\n{}: {}. Written by: {}.\n{}\n{}", table.name, table.title,
                     kind_of(table), table.writer, index_line(table), column_lines(table.columns));
}

}  // namespace

std::string file_format_page(const Schema& schema) {
  std::string page = kOpening;
  page += fmt::format("\nVersion of the tables: {}.\n", newest_version(schema));
  page +=
      "\n## Columns of every table\n\n`id`, whole number, the primary key; `geom` where the table "
      "is a layer. Entries also have:\n\n";
  page += column_lines(kept_columns());
  for (const TableDef& table : tables_of(schema, newest_version(schema))) page += section(table);
  return page;
}

}  // namespace wildling::store
