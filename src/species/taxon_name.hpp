#pragma once
#include <string>
#include <string_view>

namespace wildling::species {

/// A scientific name taken apart. `Citrus x limon (L.) Osbeck` gives genus Citrus, epithet limon,
/// hybrid, authority "(L.) Osbeck", canonical "Citrus × limon".
struct TaxonName {
  std::string genus;      ///< as written, without hybrid sign
  std::string epithet;    ///< species epithet, lower case; empty for a genus alone or "sp."
  std::string infra;      ///< "var. alba"; empty when there is none
  std::string authority;  ///< what follows the name, as written
  bool hybrid = false;
  std::string canonical;  ///< "Genus epithet", "Genus × epithet", with `infra`; without authority

  bool operator==(const TaxonName&) const = default;
};

/// Takes a scientific name apart. Never throws; text that is no name gives what can be read.
///
/// The hybrid sign is U+00D7, alone or glued to the following word, or a lone letter x or X that
/// stands before a word. A letter x inside a word is a letter: Xylopia frutescens and Cox sp. stay
/// as they are (International Code of Nomenclature, Shenzhen 2018, article H.3 and recommendation
/// H.3A: a lower-case x may stand for the sign; from memory). No-break spaces count as spaces.
TaxonName parse_taxon(std::string_view text);

/// The form in which any two spellings of one name are equal: case folded (Unicode NFKC), hybrid
/// sign, white space, hyphens, apostrophes and dots dropped: "Mahang-Gajah" = "mahang gajah".
std::string name_key(std::string_view text);

/// UTF-8 text with each run of white space (also no-break and other Unicode spaces) as one space.
std::string single_spaced(std::string_view text);

}  // namespace wildling::species
