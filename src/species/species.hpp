#pragma once
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/message.hpp"
#include "base/workings.hpp"

/// The room `species` answers: which tree is meant by this name, what is known about it and from
/// where, and how many of 100 planted are expected to live. Inputs: the shipped starter library
/// (data/species: 89 native trees of lowland Sundaland, each cell with its source), the programme's
/// own table, parameters. An empty field is unknown; it never means zero, "no" or "medium".
namespace wildling::species {

enum class Group { pioneer, early, late };  ///< successional group
enum class Level { low, medium, high };     ///< relative within the library
enum class Storage { orthodox, intermediate, recalcitrant };

/// What the field `fruiting_months` says.
enum class Fruiting {
  unknown,
  months,    ///< `fruiting_months` lists them
  all_year,  ///< every month
  annual,    ///< each year, month not stated
  mast,      ///< general flowering every few years; see ripe_months_in_mast_years
  irregular
};

/// Where the value of one field comes from.
struct Basis {
  Origin origin = Origin::documented;  ///< documented, assumed (from memory), computed, told ...
  std::string text;                    ///< the field as written in its table
  std::string source;                  ///< publication and place; person and day
  std::string as_stated;               ///< what the source says, where it was classed or converted
  std::string tier;  ///< A flora, handbook, paper; B curated page; C blog or seller; M memory

  bool operator==(const Basis&) const = default;
};

/// A species. Optional numbers and empty lists are unknown. Units are in the names.
struct Species {
  std::string scientific_name;  ///< "Macaranga gigantea"; empty if known by a local name only
  std::string authority;
  std::string family;
  std::vector<std::string> synonyms;
  std::vector<std::string> local_names;  ///< Malay and Indonesian
  std::vector<std::string> native_in;    ///< Borneo, Sumatra, Peninsular Malaysia
  std::vector<std::string> tags;         ///< nurse_pioneer, dipterocarp, fig, wildlife_fruit ...
  std::optional<Group> group;
  std::optional<double> wood_density_g_cm3;
  std::string wood_density_basis;
  std::optional<double> wood_density_n;
  std::optional<double> max_height_m;
  std::optional<double> max_dbh_cm;
  std::optional<Level> drought_tolerance;
  std::optional<Level> flood_tolerance;
  std::optional<Level> fire_tolerance;
  std::optional<bool> resprouts;
  std::optional<Level> shade_tolerance;
  std::optional<double> years_to_first_fruit_min;
  std::optional<double> years_to_first_fruit_max;
  Fruiting fruiting = Fruiting::unknown;
  std::vector<int> fruiting_months;  ///< 1 to 12, sorted; all twelve when all_year
  std::optional<double> mast_interval_years_min;
  std::optional<double> mast_interval_years_max;
  std::vector<int> ripe_months_in_mast_years;  ///< 1 to 12
  std::vector<std::string> dispersal;          ///< bird, bat, primate, wind ...
  std::optional<Storage> seed_storage;
  std::optional<double> seeds_per_kg;
  std::optional<double> germination_low_pct;
  std::optional<double> germination_high_pct;
  std::optional<double> days_to_germinate_first;
  std::optional<double> days_to_germinate_last;
  std::optional<double> nursery_months_min;
  std::optional<double> nursery_months_max;
  std::vector<std::string> propagation;  ///< seed, wildling, cutting
  std::optional<double> juvenile_height_growth_m_per_year_low;
  std::optional<double> juvenile_height_growth_m_per_year_high;
  std::string conservation_status;   ///< IUCN category as printed on the page seen; several are old
  std::vector<std::string> habitat;  ///< lowland, swamp, riparian, ridge, peat ...
  std::string notes;
  std::map<std::string, Basis, std::less<>> bases;  ///< by column name; one for each known field

  /// Origin and source of a field by its column name ("seeds_per_kg"); null when it is unknown.
  [[nodiscard]] const Basis* basis(std::string_view column) const;
  [[nodiscard]] bool has_tag(std::string_view tag) const;
  [[nodiscard]] bool grows_in(std::string_view habitat_word) const;
  /// What to call it: scientific name, else the first local name, else empty.
  [[nodiscard]] const std::string& name() const;
};

/// Column names of the species table in their order (data/species/README.md), `scientific_name`
/// first.
const std::vector<std::string>& columns();
bool is_column(std::string_view column);

/// Reads one cell into its field and notes the basis (whose `text` is set here).
/// An empty cell changes nothing. `local_name` and `nama_lokal` are read as `local_name_ms_id`.
/// @return empty when it was read; else what is wrong, with the value and what is expected
///         (unknown column, not a number, outside its range, not a word of the list); then nothing
///         changed
std::optional<Message> set_field(Species& species, std::string_view column, std::string_view text,
                                 Basis basis);

/// Copies each field that `species` does not have from `library`, with its basis. Own values stay.
void fill_blanks(Species& species, const Species& library);

std::string_view group_name(Group group);  ///< "pioneer", "early", "late"
std::optional<Group> parse_group(std::string_view text);

/// Can it stand in ground that floods?
enum class Answer { no, yes, unknown };

/// flood_tolerance medium or high: yes; low: no; blank: yes when its habitat is riparian, swamp or
/// peat, else unknown (never "no").
Answer stands_flood(const Species& species);

}  // namespace wildling::species
