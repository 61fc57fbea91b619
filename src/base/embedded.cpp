#include "base/embedded.hpp"

#include <algorithm>

namespace wildling {
namespace embedded_detail {
extern const Entry kEntries[];
extern const unsigned kCount;
}  // namespace embedded_detail

std::optional<std::string_view> embedded_file(std::string_view name) {
  for (unsigned i = 0; i < embedded_detail::kCount; ++i) {
    const auto& entry = embedded_detail::kEntries[i];
    if (name == entry.name) {
      return std::string_view(entry.begin, static_cast<std::size_t>(entry.end - entry.begin));
    }
  }
  return {};
}

std::vector<std::string> embedded_names(std::string_view prefix) {
  std::vector<std::string> names;
  for (unsigned i = 0; i < embedded_detail::kCount; ++i) {
    const std::string_view name = embedded_detail::kEntries[i].name;
    if (name.substr(0, prefix.size()) == prefix) names.emplace_back(name);
  }
  std::sort(names.begin(), names.end());
  return names;
}

}  // namespace wildling
