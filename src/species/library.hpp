#pragma once
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "species/species.hpp"
#include "species/survival.hpp"

namespace wildling::species {

/// A species library: finds a species by any of its names.
class Library {
 public:
  /// The starter library inside the program (data/species/*.csv), parsed once per call (about 5
  /// ms).
  static Library shipped();

  /// From three CSV texts: the species table, its provenance (scientific_name, field, value,
  /// as_stated, source, basis, tier ...; may be empty) and published survival (may be empty).
  /// @throws Error{input} with file and line when a row cannot be read or a name appears twice
  static Library from_csv(std::string_view table, std::string_view sources,
                          std::string_view survival);

  [[nodiscard]] const std::vector<Species>& all() const { return species_; }

  /// The species of that name: scientific name (authority allowed), synonym or local name, in any
  /// spelling that name_key makes equal. Null when no species has it, and when a local name means
  /// several species: then see find_all. The pointer lives as long as the library.
  [[nodiscard]] const Species* find(std::string_view any_name) const;

  /// All species of that name, in library order. A scientific name or synonym wins over local
  /// names.
  [[nodiscard]] std::vector<const Species*> find_all(std::string_view any_name) const;

  /// Names that differ by at most two letters, nearest first (at most `most`), for "did you mean".
  [[nodiscard]] std::vector<std::string> similar_names(std::string_view name,
                                                       std::size_t most = 3) const;

  /// Published survival of species, by accepted name.
  [[nodiscard]] const std::vector<PublishedSurvival>& survival() const { return survival_; }

 private:
  void index();
  void index_names(std::size_t place);
  std::vector<Species> species_;
  std::vector<PublishedSurvival> survival_;
  std::map<std::string, std::vector<std::size_t>, std::less<>> scientific_;
  std::map<std::string, std::vector<std::size_t>, std::less<>> local_;
};

}  // namespace wildling::species
