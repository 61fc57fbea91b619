#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace wildling {

/// A file that was put into the program at build time; names are paths below data/
/// ("words/base.en.json", "parameters/nursery.csv"). Empty when there is no such file.
std::optional<std::string_view> embedded_file(std::string_view name);

/// Names of all embedded files that start with `prefix`, sorted.
std::vector<std::string> embedded_names(std::string_view prefix);

namespace embedded_detail {
struct Entry {
  const char* name;
  const char* begin;
  const char* end;
};
}  // namespace embedded_detail
}  // namespace wildling
