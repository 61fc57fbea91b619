#include "species/fields.hpp"

#include <algorithm>
#include <array>
#include <numeric>

#include <fmt/format.h>

#include "base/csv.hpp"
#include "species/taxon_name.hpp"

namespace wildling::species {
namespace {

using Fault = std::optional<std::string>;  // what was expected

template <std::size_t N>
std::optional<std::size_t> word_index(std::string_view text,
                                      const std::array<std::string_view, N>& words) {
  const auto found = std::find(words.begin(), words.end(), text);
  if (found == words.end()) return {};
  return static_cast<std::size_t>(found - words.begin());
}

template <std::size_t N>
std::string choices(const std::array<std::string_view, N>& words) {
  return fmt::format("{}", fmt::join(words, " / "));
}

std::vector<std::string> list_of(std::string_view text) {
  std::vector<std::string> items;
  while (true) {
    const std::size_t end = text.find(';');
    const std::string item = single_spaced(text.substr(0, end));
    if (!item.empty()) items.push_back(item);
    if (end == std::string_view::npos) return items;
    text.remove_prefix(end + 1);
  }
}

template <auto Member>
Fault read_text(Species& species, std::string_view text) {
  species.*Member = single_spaced(text);
  return {};
}

template <auto Member>
Fault read_list(Species& species, std::string_view text) {
  species.*Member = list_of(text);
  return {};
}

// Low and high in units of 1/100, since C++20 of clang 14 takes no double as template argument.
template <auto Member, int LowHundredths, long HighHundredths>
Fault read_number(Species& species, std::string_view text) {
  const auto value = parse_number(text);
  const double low = LowHundredths / 100.0;
  const double high = static_cast<double>(HighHundredths) / 100.0;
  if (!value || !(*value >= low && *value <= high)) return fmt::format("{} - {}", low, high);
  species.*Member = *value;
  return {};
}

constexpr std::array<std::string_view, 3> kLevels = {"low", "medium", "high"};

template <auto Member>
Fault read_level(Species& species, std::string_view text) {
  const auto level = word_index(text, kLevels);
  if (!level) return choices(kLevels);
  species.*Member = static_cast<Level>(*level);
  return {};
}

Fault read_group(Species& species, std::string_view text) {
  const auto group = parse_group(text);
  if (!group) return "pioneer / early / late";
  species.group = group;
  return {};
}

Fault read_resprouts(Species& species, std::string_view text) {
  if (text != "yes" && text != "no") return "yes / no";
  species.resprouts = text == "yes";
  return {};
}

Fault read_storage(Species& species, std::string_view text) {
  constexpr std::array<std::string_view, 3> words = {"orthodox", "intermediate", "recalcitrant"};
  const auto storage = word_index(text, words);
  if (!storage) return choices(words);
  species.seed_storage = static_cast<Storage>(*storage);
  return {};
}

std::optional<std::vector<int>> months_of(std::string_view text) {
  std::vector<int> months;
  for (const std::string& item : list_of(text)) {
    const auto month = parse_integer(item);
    if (!month || *month < 1 || *month > 12) return {};
    months.push_back(static_cast<int>(*month));
  }
  std::sort(months.begin(), months.end());
  months.erase(std::unique(months.begin(), months.end()), months.end());
  if (months.empty()) return {};
  return months;
}

Fault read_fruiting(Species& species, std::string_view text) {
  constexpr std::array<std::string_view, 4> words = {"all year", "annual", "mast", "irregular"};
  constexpr std::array<Fruiting, 4> kinds = {Fruiting::all_year, Fruiting::annual, Fruiting::mast,
                                             Fruiting::irregular};
  if (const auto kind = word_index(text, words)) {
    species.fruiting = kinds[*kind];
    species.fruiting_months.clear();
    if (species.fruiting == Fruiting::all_year) {
      species.fruiting_months.resize(12);
      std::iota(species.fruiting_months.begin(), species.fruiting_months.end(), 1);
    }
    return {};
  }
  auto months = months_of(text);
  if (!months) return "1;2;12 / " + choices(words);
  species.fruiting = Fruiting::months;
  species.fruiting_months = std::move(*months);
  return {};
}

Fault read_ripe_months(Species& species, std::string_view text) {
  auto months = months_of(text);
  if (!months) return "1;2;12";
  species.ripe_months_in_mast_years = std::move(*months);
  return {};
}

Fault read_mast_interval(Species& species, std::string_view text) {
  const std::size_t dash = text.find('-');
  const auto low = parse_number(text.substr(0, dash));
  const auto high = dash == std::string_view::npos ? low : parse_number(text.substr(dash + 1));
  if (!low || !high || !(*low >= 1 && *low <= *high && *high <= 60)) return "3-7";
  species.mast_interval_years_min = low;
  species.mast_interval_years_max = high;
  return {};
}

}  // namespace

// Ranges as in the checker that came with the table: what lies outside is a slip of the pen.
const std::vector<Field>& fields() {
  using S = Species;
  static const std::vector<Field> list = {
      {"scientific_name", read_text<&S::scientific_name>},
      {"authority", read_text<&S::authority>},
      {"family", read_text<&S::family>},
      {"synonyms", read_list<&S::synonyms>},
      {"local_name_ms_id", read_list<&S::local_names>},
      {"native_in", read_list<&S::native_in>},
      {"group_tags", read_list<&S::tags>},
      {"successional_group", read_group},
      {"wood_density_g_cm3", read_number<&S::wood_density_g_cm3, 10, 130>},
      {"wood_density_basis", read_text<&S::wood_density_basis>},
      {"wood_density_n", read_number<&S::wood_density_n, 100, 1'000'00>},
      {"max_height_m", read_number<&S::max_height_m, 100, 120'00>},
      {"max_dbh_cm", read_number<&S::max_dbh_cm, 100, 1'000'00>},
      {"drought_tolerance", read_level<&S::drought_tolerance>},
      {"flood_tolerance", read_level<&S::flood_tolerance>},
      {"fire_tolerance", read_level<&S::fire_tolerance>},
      {"resprouts", read_resprouts},
      {"shade_tolerance", read_level<&S::shade_tolerance>},
      {"years_to_first_fruit_min", read_number<&S::years_to_first_fruit_min, 50, 100'00>},
      {"years_to_first_fruit_max", read_number<&S::years_to_first_fruit_max, 50, 100'00>},
      {"fruiting_months", read_fruiting},
      {"mast_interval_years", read_mast_interval},
      {"ripe_months_in_mast_years", read_ripe_months},
      {"dispersal_mode", read_list<&S::dispersal>},
      {"seed_storage", read_storage},
      {"seeds_per_kg", read_number<&S::seeds_per_kg, 10, 20'000'000'00>},
      {"germination_percent_low", read_number<&S::germination_low_pct, 0, 100'00>},
      {"germination_percent_high", read_number<&S::germination_high_pct, 0, 100'00>},
      {"days_to_germinate_first", read_number<&S::days_to_germinate_first, 0, 1'000'00>},
      {"days_to_germinate_last", read_number<&S::days_to_germinate_last, 0, 1'000'00>},
      {"nursery_months_to_plantable_min", read_number<&S::nursery_months_min, 0, 60'00>},
      {"nursery_months_to_plantable_max", read_number<&S::nursery_months_max, 0, 60'00>},
      {"propagation", read_list<&S::propagation>},
      {"juvenile_height_growth_m_per_year_low",
       read_number<&S::juvenile_height_growth_m_per_year_low, 0, 10'00>},
      {"juvenile_height_growth_m_per_year_high",
       read_number<&S::juvenile_height_growth_m_per_year_high, 0, 10'00>},
      {"conservation_status", read_text<&S::conservation_status>},
      {"habitat", read_list<&S::habitat>},
      {"notes", read_text<&S::notes>},
  };
  return list;
}

const Field* find_field(std::string_view column) {
  if (column == "local_name" || column == "nama_lokal") column = "local_name_ms_id";
  const auto found = std::find_if(fields().begin(), fields().end(),
                                  [&](const Field& field) { return field.column == column; });
  return found == fields().end() ? nullptr : &*found;
}

}  // namespace wildling::species
