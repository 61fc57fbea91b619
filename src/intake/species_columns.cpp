#include "intake/species_columns.hpp"

#include <algorithm>
#include <array>

#include "base/csv.hpp"
#include "intake/table_file.hpp"
#include "species/species.hpp"

namespace wildling::intake {
namespace {

struct Known {
  std::string_view column;
  std::string_view names;  // header keys between bars
};

constexpr std::array<Known, 11> kKnown = {{
    {"scientific_name", "|scientific name|species|nama ilmiah|nama latin|latin name|spesies|"},
    {"local_name",
     "|local name|local name ms id|nama lokal|nama daerah|nama pohon|jenis|nama|name|"},
    {"seedlings_ready", "|seedlings ready|ready|bibit siap|bibit siap tanam|stok bibit|stok|"},
    {"can_raise", "|can raise|bisa disemai|dapat disemai|bisa dibibitkan|dapat dibibitkan|"},
    {"mother_trees", "|mother trees|pohon induk|jumlah pohon induk|"},
    {"price_per_seedling", "|price per seedling|price|harga per bibit|harga bibit|harga|"},
    {"nursery", "|nursery|persemaian|"},
    {"survival_open_pct", "|survival open pct|survival open|hidup terbuka pct|hidup terbuka|"},
    {"survival_shade_pct", "|survival shade pct|survival shade|hidup naungan pct|hidup naungan|"},
    {"use", "|use|pakai|dipakai|"},
    {"successional_group", "|successional group|kelompok suksesi|kelompok|"},
}};

}  // namespace

std::string species_column(std::string_view header) {
  std::string key = header_key(header);
  if (key.empty()) return "";
  for (const Known& known : kKnown) {
    if (known.names.find("|" + key + "|") != std::string_view::npos) {
      return std::string(known.column);
    }
  }
  std::replace(key.begin(), key.end(), ' ', '_');
  return species::is_column(key) ? key : "";
}

SpeciesColumns species_columns(const std::vector<std::string>& header) {
  SpeciesColumns columns;
  for (std::size_t i = 0; i < header.size(); ++i) {
    const std::string column = species_column(header[i]);
    const bool fresh = !column.empty() && columns.at.emplace(column, i).second;
    if (!fresh && !trimmed(header[i]).empty()) columns.left.push_back(header[i]);
  }
  return columns;
}

}  // namespace wildling::intake
