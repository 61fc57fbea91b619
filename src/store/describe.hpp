#pragma once
#include <string>

#include "store/table.hpp"

namespace wildling::store {

/// docs/file-format.md: every table and column of the newest version, in Markdown. A test holds the
/// page against this.
std::string file_format_page(const Schema& schema);

}  // namespace wildling::store
