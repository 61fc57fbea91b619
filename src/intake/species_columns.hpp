#pragma once
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace wildling::intake {

/// Our name of a column of a species table ("bibit siap" -> "seedlings_ready"); empty: not known.
std::string species_column(std::string_view header);

struct SpeciesColumns {
  std::map<std::string, std::size_t, std::less<>> at = {};  ///< our name -> place
  std::vector<std::string> left = {};                       ///< headers not known, or there twice

  [[nodiscard]] bool named() const {
    return at.contains("scientific_name") || at.contains("local_name");
  }
};

SpeciesColumns species_columns(const std::vector<std::string>& header);

}  // namespace wildling::intake
