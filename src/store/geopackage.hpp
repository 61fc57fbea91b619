#pragma once
#include <string>

#include "store/sqlite.hpp"
#include "store/table.hpp"

namespace wildling::store {

/// Turns an empty database into an empty GeoPackage 1.3 (OGC 12-128r18): application id, version,
/// the core tables, the three required coordinate systems, and the schema extension that says what
/// each column means.
void make_geopackage(Connection& connection);

/// Creates a table of ours and lists it, its shape column and its columns' meanings where a GIS
/// looks for them.
void create_table(Connection& connection, const TableDef& table, const std::string& now_utc);

void add_column(Connection& connection, const std::string& table, const Column& column);

/// Runs the migrations above `from_version` and notes them in schema_versions; the caller holds the
/// transaction.
void migrate(Connection& connection, const Schema& schema, int from_version,
             const std::string& now_utc);

}  // namespace wildling::store
