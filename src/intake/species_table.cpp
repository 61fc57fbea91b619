#include "intake/species_table.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <filesystem>
#include <set>

#include "base/files.hpp"
#include "base/hash.hpp"
#include "intake/alike.hpp"
#include "intake/number_reading.hpp"
#include "intake/species_columns.hpp"
#include "intake/table_file.hpp"
#include "species/taxon_name.hpp"

namespace wildling::intake {
namespace {

using species::Candidate;
using species::Species;

constexpr double kMostSeedlings = 1e9;  // fits an int

std::string joined(const std::vector<std::string>& names) {
  std::string text;
  for (const std::string& name : names) {
    if (!name.empty()) text += (text.empty() ? "" : ", ") + name;
  }
  return text;
}

std::string lower(std::string_view text) {
  std::string result(text);
  for (char& c : result) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return result;
}

// The library's word of a successional group; text that is none stays as it is.
std::string group_word(const std::string& text) {
  constexpr std::array<std::pair<std::string_view, std::string_view>, 11> kWords = {{
      {"pioneer", "pioneer"},
      {"pionir", "pioneer"},
      {"perintis", "pioneer"},
      {"early", "early"},
      {"suksesi awal", "early"},
      {"sekunder awal", "early"},
      {"late", "late"},
      {"suksesi akhir", "late"},
      {"sekunder akhir", "late"},
      {"klimaks", "late"},
      {"climax", "late"},
  }};
  const std::string word = lower(text);
  for (const auto& pair : kWords) {
    if (word == pair.first) return std::string(pair.second);
  }
  return text;
}

std::string without_currency(const std::string& text) {
  const std::string word = lower(trimmed(text));
  for (const std::string_view sign : {"rp.", "rp", "idr", "rm", "usd", "$"}) {
    if (word.compare(0, sign.size(), sign) == 0)
      return std::string(trimmed(std::string_view(word).substr(sign.size())));
  }
  return text;
}

// Reads the rows of one table into candidates.
class Rows {
 public:
  Rows(const TableFile& table, const SpeciesColumns& columns, std::string name,
       const species::Library& library)
      : table_(table), columns_(columns), name_(std::move(name)), library_(library) {
    settle_price_sign();
  }

  void read(const CsvRow& row, SpeciesFile& file) {
    ++file.rows_read;
    row_ = &row;
    Candidate candidate;
    if (!name_species(candidate)) {
      ++file.set_aside;
      return;
    }
    read_stock(candidate);
    const std::string key = species::name_key(candidate.name());
    const auto [first, fresh] = places_.emplace(key, file.candidates.size());
    if (!fresh) {
      again(file.candidates[first->second], candidate, file);
      return;
    }
    candidate.own_open = survival("survival_open_pct");
    candidate.own_cover = survival("survival_shade_pct");
    candidate.use = used();
    lines_.push_back(row_->line);
    fresh_nursery(candidate.name(), candidate.stock.nursery);
    file.candidates.push_back(std::move(candidate));
  }

  AlikeFindings findings;

 private:
  const TableFile& table_;
  const SpeciesColumns& columns_;
  std::string name_;
  const species::Library& library_;
  const CsvRow* row_ = nullptr;
  std::optional<char> price_sign_;
  std::map<std::string, std::size_t> places_;                // key of a species -> its candidate
  std::vector<std::size_t> lines_;                           // of the candidates
  std::set<std::pair<std::string, std::string>> nurseries_;  // species and nursery seen

  // A dash or a question mark says as little as an empty cell.
  [[nodiscard]] std::string cell(std::string_view column) const {
    const auto at = columns_.at.find(column);
    if (at == columns_.at.end()) return "";
    std::string text = species::single_spaced(row_->cells[at->second]);
    if (text == "-" || text == "--" || text == "?") text.clear();
    return column == "successional_group" ? group_word(text) : text;
  }

  [[nodiscard]] std::string line() const { return name_ + ":" + std::to_string(row_->line); }

  [[nodiscard]] std::string where(std::string_view column) const {
    const auto at = columns_.at.find(column);
    return at == columns_.at.end() ? line() : line() + ", column " + table_.header[at->second];
  }

  void aside(std::string_view column, Message message) {
    findings.add(Severity::set_aside, where(column), std::move(message), std::string(column));
  }

  void settle_price_sign() {
    const auto at = columns_.at.find("price_per_seedling");
    if (at == columns_.at.end()) return;
    std::set<DecimalSign> signs;
    for (const CsvRow& row : table_.rows)
      signs.insert(decimal_sign(without_currency(row.cells[at->second])));
    const bool dot = signs.contains(DecimalSign::dot);
    const bool comma = signs.contains(DecimalSign::comma);
    if (dot != comma) price_sign_ = dot ? '.' : ',';
  }

  // The row's species from the library, or as its own; false when it is set aside.
  bool name_species(Candidate& candidate) {
    const std::string scientific = cell("scientific_name");
    const std::string local = cell("local_name");
    const std::string& written = scientific.empty() ? local : scientific;
    const std::string_view column = scientific.empty() ? "local_name" : "scientific_name";
    candidate.stock.name_as_written = written;
    candidate.stock.source = line();
    if (species::name_key(written).empty()) {
      aside(column, say("intake.species_without_name"));
      return false;
    }
    const auto found = library_.find_all(written);
    if (found.size() > 1) {
      std::vector<std::string> names;
      for (const Species* each : found) names.push_back(each->scientific_name);
      aside(column,
            say("intake.local_name_of_several", {{"name", written}, {"species", joined(names)}}));
      return false;
    }
    if (found.empty() && !own_group()) {
      refuse_unknown(column, written, local);
      return false;
    }
    own_fields(candidate.species);
    if (found.empty()) {
      name_unknown(candidate, scientific, local);
    } else {
      take_known(candidate, *found.front(), scientific, local);
    }
    return true;
  }

  [[nodiscard]] bool own_group() const {
    return species::parse_group(cell("successional_group")).has_value();
  }

  void refuse_unknown(std::string_view column, const std::string& written,
                      const std::string& local) {
    std::vector<std::string> near = library_.similar_names(written);
    for (const Species* each : library_.find_all(local)) near.push_back(each->scientific_name);
    std::vector<std::string> shown;
    for (const std::string& name : near) {
      if (std::find(shown.begin(), shown.end(), name) == shown.end()) shown.push_back(name);
    }
    if (shown.empty()) {
      aside(column, say("intake.species_unknown", {{"name", written}}));
    } else {
      aside(column,
            say("intake.species_unknown_near", {{"name", written}, {"near", joined(shown)}}));
    }
  }

  void name_unknown(Candidate& candidate, const std::string& scientific, const std::string& local) {
    Species& own = candidate.species;
    const species::TaxonName taxon = species::parse_taxon(scientific);
    set(own, "scientific_name", taxon.epithet.empty() ? scientific : taxon.canonical);
    if (!own.bases.contains("authority")) set(own, "authority", taxon.authority);
    set(own, "local_name", local);
    candidate.unknowns.push_back(
        say("intake.species_not_in_library", {{"name", candidate.name()}}));
    findings.add(Severity::note, line(),
                 say("intake.species_not_in_library", {{"name", candidate.name()}}));
  }

  void take_known(Candidate& candidate, const Species& known, const std::string& scientific,
                  const std::string& local) {
    Species& own = candidate.species;
    species::fill_blanks(own, known);
    candidate.stock.species = known.scientific_name;
    if (!scientific.empty() && !local.empty()) {
      const auto others = library_.find_all(local);
      if (!others.empty() && std::find(others.begin(), others.end(), &known) == others.end()) {
        findings.add(
            Severity::note, where("local_name"),
            say("intake.local_name_of_another", {{"local", local},
                                                 {"other", others.front()->scientific_name},
                                                 {"taken", known.scientific_name}}));
      }
    }
    const auto same = [&local](const std::string& name) {
      return species::name_key(name) == species::name_key(local);
    };
    const bool fresh = std::none_of(own.local_names.begin(), own.local_names.end(), same);
    if (!scientific.empty() && !local.empty() && fresh) own.local_names.push_back(local);
    if (scientific.empty() ||
        species::name_key(scientific) == species::name_key(known.scientific_name))
      return;
    const species::TaxonName taxon = species::parse_taxon(scientific);
    if (species::name_key(taxon.canonical) == species::name_key(known.scientific_name)) return;
    findings.add(
        Severity::note, where("scientific_name"),
        say("intake.species_synonym", {{"name", scientific}, {"taken", known.scientific_name}}));
  }

  void set(Species& own, std::string_view column, const std::string& text) {
    const std::string place = where(column);
    const species::Basis basis{Origin::told, {}, place, {}, {}};
    auto fault = species::set_field(own, column, text, basis);
    if (fault && decimal_sign(text) == DecimalSign::comma) {
      const auto number = read_number(text, ',');
      if (number) fault = species::set_field(own, column, number_text(*number), basis);
    }
    if (fault) aside(column, *fault);
  }

  // The columns of the starter library that the row fills in itself.
  void own_fields(Species& own) {
    for (const auto& [column, at] : columns_.at) {
      if (column == "scientific_name" || column == "local_name") continue;
      if (species::is_column(column)) set(own, column, cell(column));
    }
  }

  // A further row of a species that stands already.
  void again(Candidate& first, const Candidate& other, SpeciesFile& file) {
    species::StockLine& stock = first.stock;
    const std::string& nursery = other.stock.nursery;
    if (!nursery.empty() && !stock.nursery.empty() && fresh_nursery(first.name(), nursery)) {
      add_stock(stock, other.stock);
      ++file.added;
      findings.add(
          Severity::changed, line(),
          say("intake.nurseries_added", {{"name", first.name()}, {"nurseries", stock.nursery}}));
      return;
    }
    ++file.set_aside;
    const std::size_t place = static_cast<std::size_t>(&first - file.candidates.data());
    findings.add(Severity::set_aside, line(),
                 say("intake.species_twice",
                     {{"name", first.name()}, {"line", static_cast<std::int64_t>(lines_[place])}}));
  }

  bool fresh_nursery(const std::string& species, const std::string& nursery) {
    return nurseries_.emplace(species, species::name_key(nursery)).second;
  }

  static void add_stock(species::StockLine& stock, const species::StockLine& other) {
    const auto add = [](std::optional<int>& sum, const std::optional<int>& more) {
      if (more)
        sum = static_cast<int>(
            std::min(sum.value_or(0) + static_cast<double>(*more), kMostSeedlings));
    };
    add(stock.seedlings_ready, other.seedlings_ready);
    add(stock.can_raise, other.can_raise);
    add(stock.mother_trees, other.mother_trees);
    if (other.price_per_seedling) {
      stock.price_per_seedling =
          std::max(stock.price_per_seedling.value_or(0), *other.price_per_seedling);
    }
    stock.nursery += " + " + other.nursery;
    stock.source += ", " + other.source;
  }

  // A count cannot have decimals: 1.400 and 1,400 are both fourteen hundred.
  std::optional<int> count(std::string_view column) {
    const std::string text = cell(column);
    if (text.empty()) return {};
    const bool dot = text.find('.') != std::string::npos;
    const auto number = read_number(text, dot ? ',' : '.');
    if (number && *number < 0) {
      aside(column, say("intake.stock_negative", {{"value", *number}}));
      return {};
    }
    if (!number || *number != std::floor(*number) || *number > kMostSeedlings) {
      aside(column, say("intake.stock_not_whole", {{"value", text}}));
      return {};
    }
    return static_cast<int>(*number);
  }

  void read_stock(Candidate& candidate) {
    species::StockLine& stock = candidate.stock;
    stock.seedlings_ready = count("seedlings_ready");
    stock.can_raise = count("can_raise");
    stock.mother_trees = count("mother_trees");
    stock.nursery = cell("nursery");
    const std::string text = without_currency(cell("price_per_seedling"));
    if (text.empty()) return;
    const auto price = read_number(text, price_sign_);
    if (!price && decimal_sign(text) == DecimalSign::unclear) {
      aside("price_per_seedling", say("intake.price_unclear", {{"value", text}}));
    } else if (!price || *price < 0) {
      aside("price_per_seedling", say("intake.price_bad", {{"value", text}}));
    } else {
      stock.price_per_seedling = price;
    }
  }

  std::optional<species::OwnSurvival> survival(std::string_view column) {
    const std::string text = cell(column);
    if (text.empty()) return {};
    const auto number = read_number(text, text.find(',') == std::string::npos ? '.' : ',');
    if (!number || *number < 0 || *number > 100) {
      aside(column, say("intake.survival_bad", {{"value", text}}));
      return {};
    }
    if (*number > 0 && *number <= 1 && text.find('%') == std::string::npos) {
      aside(column, say("intake.survival_as_share", {{"value", *number}}));
      return {};
    }
    return species::OwnSurvival{*number, {}, Origin::told, where(column)};
  }

  bool used() {
    const std::string word = lower(cell("use"));
    constexpr std::string_view kYes = "||yes|y|ya|true|1|x|";
    constexpr std::string_view kNo = "|no|n|tidak|tdk|false|0|";
    if (kNo.find("|" + word + "|") != std::string_view::npos && !word.empty()) return false;
    if (kYes.find("|" + word + "|") == std::string_view::npos) {
      aside("use", say("intake.use_bad", {{"value", cell("use")}}));
    }
    return true;
  }
};

}  // namespace

SpeciesFile read_species_table(const std::string& path, const species::Library& library) {
  return read_species_table_bytes(read_file(path), std::filesystem::path(path).filename().string(),
                                  library);
}

SpeciesFile read_species_table_bytes(std::string_view bytes, const std::string& name,
                                     const species::Library& library) {
  const TableFile table = read_table_file(bytes, name, [](const std::vector<std::string>& header) {
    const SpeciesColumns columns = species_columns(header);
    return columns.named() ? columns.at.size() : 0U;
  });
  const SpeciesColumns columns = species_columns(table.header);
  if (!columns.named()) {
    throw Error(ErrorKind::input, name,
                say("intake.no_name_column", {{"columns", joined(table.header)}}));
  }
  if (table.rows.empty()) throw Error(ErrorKind::input, name, say("intake.only_header"));
  SpeciesFile file;
  file.sha256 = sha256_hex(bytes);
  file.bytes = bytes.size();
  file.findings = table.findings;
  if (!columns.left.empty()) {
    file.findings.push_back(
        {Severity::note, name, say("intake.columns_left", {{"columns", joined(columns.left)}})});
  }
  Rows rows(table, columns, name, library);
  for (const CsvRow& row : table.rows) rows.read(row, file);
  const Findings told = rows.findings.all(name);
  file.findings.insert(file.findings.end(), told.begin(), told.end());
  return file;
}

}  // namespace wildling::intake
