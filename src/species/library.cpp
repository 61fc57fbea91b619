#include "species/library.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "base/csv.hpp"
#include "base/embedded.hpp"
#include "base/error.hpp"
#include "species/taxon_name.hpp"

namespace wildling::species {
namespace {

using BasisOf = std::map<std::pair<std::string, std::string>, Basis>;  // (species, column)

[[noreturn]] void refuse(const std::string& file, std::size_t line, Message message) {
  throw Error(ErrorKind::input, fmt::format("{}:{}", file, line), std::move(message));
}

std::size_t need_column(const CsvTable& table, const std::string& file, std::string_view name) {
  const auto place = table.column(name);
  if (!place) refuse(file, 1, say("species.no_column", {{"column", std::string(name)}}));
  return *place;
}

Origin origin_of(const std::string& basis, const std::string& key) {
  if (key == "RULE") return Origin::computed;
  return basis == "from_memory" ? Origin::assumed : Origin::documented;
}

BasisOf read_sources(std::string_view text) {
  BasisOf result;
  const CsvTable table = parse_csv_table(text);
  if (table.rows.empty()) return result;
  const auto at = [&](std::string_view name) { return need_column(table, "sources.csv", name); };
  const std::size_t name = at("scientific_name");
  const std::size_t field = at("field");
  const std::size_t source = at("source");
  const std::size_t stated = at("as_stated");
  const std::size_t basis = at("basis");
  const std::size_t tier = at("tier");
  const std::size_t key = at("source_key");
  for (const CsvRow& row : table.rows) {
    result[{row.cells[name], row.cells[field]}] = {
        .origin = origin_of(row.cells[basis], row.cells[key]),
        .text = {},
        .source = row.cells[source],
        .as_stated = row.cells[stated],
        .tier = row.cells[tier]};
  }
  return result;
}

// A cell without provenance is an assumption: nothing says where it comes from.
Basis basis_for(const BasisOf& bases, const std::string& species, const std::string& column) {
  const auto found = bases.find({species, column});
  if (found != bases.end()) return found->second;
  return {.origin = Origin::assumed, .text = {}, .source = {}, .as_stated = {}, .tier = {}};
}

std::vector<Species> read_table(std::string_view text, const BasisOf& bases) {
  const std::string file = "sundaland_trees.csv";
  const CsvTable table = parse_csv_table(text);
  const std::size_t name = need_column(table, file, "scientific_name");
  std::vector<Species> list;
  for (const CsvRow& row : table.rows) {
    if (row.cells.size() != table.header.size()) {
      refuse(file, row.line,
             say("species.cells", {{"found", static_cast<std::int64_t>(row.cells.size())},
                                   {"expected", static_cast<std::int64_t>(table.header.size())}}));
    }
    Species species;
    for (std::size_t i = 0; i < table.header.size(); ++i) {
      const Basis basis = basis_for(bases, row.cells[name], table.header[i]);
      if (const auto fault = set_field(species, table.header[i], row.cells[i], basis)) {
        refuse(file, row.line, *fault);
      }
    }
    if (species.scientific_name.empty()) refuse(file, row.line, say("species.no_name"));
    list.push_back(std::move(species));
  }
  return list;
}

PublishedSurvival survival_row(const CsvRow& row, const std::vector<std::size_t>& at) {
  const std::string file = "survival.csv";
  const auto age = parse_number(row.cells[at[3]]);
  const auto alive = parse_number(row.cells[at[4]]);
  const std::string& ground = row.cells[at[1]];
  if (ground != "open" && ground != "under_cover") {
    refuse(file, row.line,
           say("species.bad_value",
               {{"column", "ground"}, {"value", ground}, {"expected", "open / under_cover"}}));
  }
  if (!age || !(*age > 0) || !alive || !(*alive >= 0 && *alive <= 100)) {
    refuse(file, row.line,
           say("species.bad_value", {{"column", "age_months, alive_pct"},
                                     {"value", row.cells[at[3]] + ", " + row.cells[at[4]]},
                                     {"expected", "> 0, 0 - 100"}}));
  }
  return {.species = row.cells[at[0]],
          .under_cover = ground == "under_cover",
          .habitat = row.cells[at[2]],
          .age_months = *age,
          .alive_pct = *alive,
          .source = row.cells[at[5]]};
}

std::vector<PublishedSurvival> read_survival(std::string_view text) {
  std::vector<PublishedSurvival> list;
  const CsvTable table = parse_csv_table(text);
  if (table.rows.empty()) return list;
  std::vector<std::size_t> at;
  for (const char* column :
       {"scientific_name", "ground", "habitat", "age_months", "alive_pct", "source"}) {
    at.push_back(need_column(table, "survival.csv", column));
  }
  for (const CsvRow& row : table.rows) list.push_back(survival_row(row, at));
  return list;
}

// "Anthocephalus chinensis (misapplied)" is looked up without the remark.
std::string_view without_remark(std::string_view name) {
  return name.substr(0, name.find(" ("));
}

// Letters to change, add or drop to turn a into b; stops counting above `limit`.
std::size_t distance(std::string_view a, std::string_view b, std::size_t limit) {
  if (a.size() > b.size() + limit || b.size() > a.size() + limit) return limit + 1;
  std::vector<std::size_t> row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t above = row[j];
      row[j] = std::min({above + 1, row[j - 1] + 1, diagonal + (a[i - 1] == b[j - 1] ? 0U : 1U)});
      diagonal = above;
    }
  }
  return row[b.size()];
}

std::string_view embedded(std::string_view name) {
  const auto text = embedded_file(name);
  if (!text) throw Error(ErrorKind::internal, std::string(name), say("species.no_library"));
  return *text;
}

}  // namespace

Library Library::shipped() {
  return from_csv(embedded("species/sundaland_trees.csv"), embedded("species/sources.csv"),
                  embedded("species/survival.csv"));
}

Library Library::from_csv(std::string_view table, std::string_view sources,
                          std::string_view survival) {
  Library library;
  library.species_ = read_table(table, read_sources(sources));
  library.survival_ = read_survival(survival);
  library.index();
  for (PublishedSurvival& row : library.survival_) {
    if (const Species* species = library.find(row.species)) row.species = species->scientific_name;
  }
  return library;
}

void Library::index() {
  for (std::size_t i = 0; i < species_.size(); ++i) index_names(i);
}

void Library::index_names(std::size_t place) {
  const Species& species = species_[place];
  const auto add = [&](auto& map, std::string_view name) {
    auto& list = map[name_key(name)];
    if (list.empty() || list.back() != place) list.push_back(place);
  };
  const auto add_scientific = [&](std::string_view name) {
    add(scientific_, name);
    if (scientific_[name_key(name)].size() > 1) {
      throw Error(ErrorKind::input, "sundaland_trees.csv",
                  say("species.name_twice", {{"name", std::string(name)}}));
    }
  };
  add_scientific(species.scientific_name);
  for (const std::string& name : species.synonyms) add_scientific(without_remark(name));
  for (const std::string& name : species.local_names) add(local_, name);
}

std::vector<const Species*> Library::find_all(std::string_view any_name) const {
  std::vector<const Species*> found;
  const auto take = [&](const auto& map, const std::string& key) {
    const auto entry = map.find(key);
    if (key.empty() || !found.empty() || entry == map.end()) return;
    for (const std::size_t place : entry->second) found.push_back(&species_[place]);
  };
  const std::string key = name_key(any_name);
  take(scientific_, key);
  take(local_, key);
  const TaxonName taxon = parse_taxon(any_name);
  if (!taxon.epithet.empty()) take(scientific_, name_key(taxon.canonical));
  return found;
}

const Species* Library::find(std::string_view any_name) const {
  const auto found = find_all(any_name);
  return found.size() == 1 ? found.front() : nullptr;
}

std::vector<std::string> Library::similar_names(std::string_view name, std::size_t most) const {
  constexpr std::size_t kLimit = 2;
  const std::string key = name_key(name);
  std::vector<std::pair<std::size_t, std::string>> near;
  for (const Species& species : species_) {
    std::vector<std::string> names = {species.scientific_name};
    names.insert(names.end(), species.synonyms.begin(), species.synonyms.end());
    names.insert(names.end(), species.local_names.begin(), species.local_names.end());
    for (const std::string& candidate : names) {
      const std::size_t d = distance(key, name_key(without_remark(candidate)), kLimit);
      if (d <= kLimit && 2 * d < key.size()) near.emplace_back(d, candidate);
    }
  }
  std::sort(near.begin(), near.end());
  near.erase(std::unique(near.begin(), near.end()), near.end());
  std::vector<std::string> result;
  for (const auto& entry : near) {
    if (result.size() < most) result.push_back(entry.second);
  }
  return result;
}

}  // namespace wildling::species
