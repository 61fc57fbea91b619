#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "species/species.hpp"

namespace wildling::species {

/// How one column of the species table is read.
struct Field {
  std::string_view column;
  /// Sets the field from trimmed, non-empty text; returns what was expected when it cannot
  /// (then the species is unchanged).
  std::optional<std::string> (*read)(Species& species, std::string_view text);
};

const std::vector<Field>& fields();

/// By column name, also "local_name" and "nama_lokal"; null when there is none.
const Field* find_field(std::string_view column);

}  // namespace wildling::species
