#pragma once

struct sqlite3;

namespace wildling::store {

/// ST_MinX, ST_MaxX, ST_MinY, ST_MaxY and ST_IsEmpty, which the triggers of a GeoPackage spatial
/// index call: a GIS may have added one to our file, and without them every INSERT and UPDATE of
/// that table would fail.
void register_st_functions(sqlite3* database);

}  // namespace wildling::store
