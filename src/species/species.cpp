#include "species/species.hpp"

#include <algorithm>
#include <array>

#include "base/csv.hpp"
#include "species/fields.hpp"

namespace wildling::species {
namespace {

constexpr std::array<std::string_view, 3> kGroups = {"pioneer", "early", "late"};

bool holds(const std::vector<std::string>& list, std::string_view word) {
  return std::find(list.begin(), list.end(), word) != list.end();
}

}  // namespace

const Basis* Species::basis(std::string_view column) const {
  const auto found = bases.find(column);
  return found == bases.end() ? nullptr : &found->second;
}

bool Species::has_tag(std::string_view tag) const {
  return holds(tags, tag);
}

bool Species::grows_in(std::string_view habitat_word) const {
  return holds(habitat, habitat_word);
}

const std::string& Species::name() const {
  if (!scientific_name.empty() || local_names.empty()) return scientific_name;
  return local_names.front();
}

const std::vector<std::string>& columns() {
  static const std::vector<std::string> names = [] {
    std::vector<std::string> list;
    for (const Field& field : fields()) list.emplace_back(field.column);
    return list;
  }();
  return names;
}

bool is_column(std::string_view column) {
  return find_field(column) != nullptr;
}

std::optional<Message> set_field(Species& species, std::string_view column, std::string_view text,
                                 Basis basis) {
  const Field* field = find_field(column);
  if (field == nullptr) return say("species.unknown_column", {{"column", std::string(column)}});
  text = trimmed(text);
  if (text.empty()) return {};
  if (const auto expected = field->read(species, text)) {
    return say("species.bad_value", {{"column", std::string(field->column)},
                                     {"value", std::string(text)},
                                     {"expected", *expected}});
  }
  basis.text = std::string(text);
  species.bases.insert_or_assign(std::string(field->column), std::move(basis));
  return {};
}

void fill_blanks(Species& species, const Species& library) {
  for (const auto& [column, basis] : library.bases) {
    if (species.bases.find(column) == species.bases.end()) {
      set_field(species, column, basis.text, basis);
    }
  }
}

std::string_view group_name(Group group) {
  return kGroups[static_cast<std::size_t>(group)];
}

std::optional<Group> parse_group(std::string_view text) {
  const auto found = std::find(kGroups.begin(), kGroups.end(), text);
  if (found == kGroups.end()) return {};
  return static_cast<Group>(found - kGroups.begin());
}

Answer stands_flood(const Species& species) {
  if (species.flood_tolerance)
    return *species.flood_tolerance == Level::low ? Answer::no : Answer::yes;
  const bool wet = species.grows_in("riparian") || species.grows_in("swamp") ||
                   species.grows_in("peat") || species.has_tag("swamp_tolerant") ||
                   species.has_tag("riparian");
  return wet ? Answer::yes : Answer::unknown;
}

}  // namespace wildling::species
