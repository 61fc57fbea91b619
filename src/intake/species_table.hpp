#pragma once
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "base/error.hpp"
#include "species/candidate.hpp"
#include "species/library.hpp"

namespace wildling::intake {

struct SpeciesFile {
  std::vector<species::Candidate> candidates = {};  ///< in the order of the rows
  Findings findings = {};
  std::string sha256 = {};
  std::size_t bytes = 0;
  std::size_t rows_read = 0;
  std::size_t set_aside = 0;  ///< rows of which nothing is used
  std::size_t added = 0;      ///< rows of another nursery, added to an earlier row of the species
                              ///< rows_read = candidates.size() + set_aside + added
};

/// Reads the programme's own species table, a row per species: CSV or XLSX. Columns, in any order,
/// English or Indonesian: scientific_name or local_name (nama_lokal), seedlings_ready, can_raise,
/// mother_trees, price_per_seedling, nursery, survival_open_pct, survival_shade_pct, use (yes, no),
/// and any column of the starter library (data/species/README.md).
///
/// A species the library knows gets the library's fields where the row says nothing; own cells win
/// and have origin told. A row is set aside, with "did you mean", when no species has its name or
/// several have; one of an unknown name stays when it states its successional_group, with all it
/// does not state unknown. Spellings of one name, hybrid signs included, are one species; the
/// second row of a species is set aside, unless both rows name their nurseries and these differ:
/// then their stocks are added and the highest price stands. A cell that cannot be (negative
/// stock, survival above 100 % or written as a share) is set aside and unknown; its row stays.
/// @throws Error{input} when the file is empty, no table, has no column of names or no rows
SpeciesFile read_species_table(const std::string& path, const species::Library& library);

/// The same from bytes; `name` serves the findings.
SpeciesFile read_species_table_bytes(std::string_view bytes, const std::string& name,
                                     const species::Library& library);

}  // namespace wildling::intake
