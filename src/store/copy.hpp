#pragma once
#include <functional>
#include <string>

#include "store/backend.hpp"
#include "store/sqlite.hpp"

namespace wildling::store {

/// Lets `fill` make a database under a temporary name in the same folder and gives it its own name
/// when it is complete, closed and on the disk. On failure the temporary file is removed and what
/// stood under `path` is untouched.
/// @throws Error{usage} when `path` exists and `overwrite` is false; Error{io}
void make_file(const std::string& path, bool overwrite,
               const std::function<void(Connection&)>& fill);

/// An empty programme at the newest version.
void build_programme(Connection& connection, const Schema& schema, const std::string& now_utc);

/// Writes everything that `from` holds as a programme file.
void write_copy(const std::string& path, bool overwrite, const Schema& schema, Backend& from);

}  // namespace wildling::store
