#pragma once
#include <string>
#include <string_view>

namespace wildling {

/// The whole file as bytes. @throws Error{input} when it is missing, a folder, unreadable or larger
/// than `limit_bytes`.
std::string read_file(const std::string& path, std::size_t limit_bytes = 512U << 20U);

/// Writes to a temporary name in the same folder, flushes it to the disk and renames it over
/// `path`; on failure the old file is untouched and the temporary one is removed.
/// @throws Error{io} with the system's reason (disk full, read-only folder ...);
///         Error{usage} when `path` exists and `overwrite` is false
void write_file(const std::string& path, std::string_view bytes, bool overwrite = true);

}  // namespace wildling
