#include "intake/corner_table.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <optional>
#include <utility>

#include "base/csv.hpp"
#include "intake/angle_text.hpp"
#include "intake/vector_file.hpp"

namespace wildling::intake {
namespace {

std::string lower(std::string_view text) {
  std::string result(text);
  for (char& c : result) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return result;
}

char separator_of(std::string_view text) {
  const std::string_view first = text.substr(0, text.find_first_of("\r\n"));
  char best = ',';
  std::ptrdiff_t most = 0;
  for (const char c : {',', ';', '\t'}) {
    const auto count = std::count(first.begin(), first.end(), c);
    if (count > most) {
      best = c;
      most = count;
    }
  }
  return best;
}

template <std::size_t N>
std::optional<std::size_t> column_with(const CsvTable& table,
                                       const std::array<std::string_view, N>& words) {
  for (const std::string_view word : words) {
    for (std::size_t i = 0; i < table.header.size(); ++i) {
      const std::string cell = lower(trimmed(table.header[i]));
      const bool whole = cell.size() == word.size() ||
                         (cell.size() > word.size() &&
                          std::isalpha(static_cast<unsigned char>(cell[word.size()])) == 0);
      if (cell.compare(0, word.size(), word) == 0 && whole) return i;
    }
  }
  return {};
}

struct Columns {
  std::size_t north = 0;
  std::size_t east = 0;
  std::optional<std::size_t> site;
  bool degrees = false;
  std::optional<std::size_t> accuracy = {};
};

Columns columns_of(const CsvTable& table, const std::string& name) {
  constexpr std::array<std::string_view, 3> kLat = {"latitude", "lat", "lintang"};
  constexpr std::array<std::string_view, 4> kLon = {"longitude", "lon", "long", "bujur"};
  constexpr std::array<std::string_view, 4> kNorth = {"northing", "north", "utara", "y"};
  constexpr std::array<std::string_view, 4> kEast = {"easting", "east", "timur", "x"};
  constexpr std::array<std::string_view, 9> kSite = {"site", "name",   "nama", "petak", "block",
                                                     "blok", "lokasi", "code", "kode"};
  constexpr std::array<std::string_view, 3> kAccuracy = {"accuracy", "akurasi", "ketelitian"};
  const auto accuracy = column_with(table, kAccuracy);
  const auto lat = column_with(table, kLat);
  const auto lon = column_with(table, kLon);
  if (lat && lon) return {*lat, *lon, column_with(table, kSite), true, accuracy};
  const auto north = column_with(table, kNorth);
  const auto east = column_with(table, kEast);
  if (north && east) return {*north, *east, column_with(table, kSite), false, accuracy};
  throw Error(ErrorKind::input, name, say("intake.corner_table_columns"));
}

std::size_t digits_from(const std::string& text, std::size_t at) {
  std::size_t end = at;
  while (end < text.size() && std::isdigit(static_cast<unsigned char>(text[end])) != 0) ++end;
  return end;
}

// "EPSG:32647", or "UTM 47N" on WGS 84; empty when the header names no system.
std::string crs_in(const std::string& header) {
  const std::string text = lower(header);
  const std::size_t epsg = text.find("epsg:");
  if (epsg != std::string::npos) {
    const std::size_t end = digits_from(text, epsg + 5);
    if (end > epsg + 5) return "EPSG:" + text.substr(epsg + 5, end - epsg - 5);
  }
  const std::size_t utm = text.find("utm");
  if (utm == std::string::npos) return "";
  const std::size_t start = text.find_first_of("0123456789", utm);
  if (start == std::string::npos) return "";
  const std::size_t end = digits_from(text, start);
  const std::string zone = text.substr(start, end - start);
  const std::size_t letter = text.find_first_not_of(' ', end);
  if (zone.size() > 2 || letter == std::string::npos) return "";
  if (text[letter] != 'n' && text[letter] != 's') return "";
  const int number = std::stoi(zone);
  if (number < 1 || number > 60) return "";
  return "EPSG:" + std::to_string((text[letter] == 'n' ? 32600 : 32700) + number);
}

std::optional<double> number_in(std::string_view cell, char separator) {
  std::string text(trimmed(cell));
  if (separator != ',' && std::count(text.begin(), text.end(), ',') == 1) {
    std::replace(text.begin(), text.end(), ',', '.');
  }
  if (const auto number = parse_number(text)) return number;
  return read_angle(cell);
}

void settle_crs(const CsvTable& table, const Columns& columns, const std::string& name,
                RawFile& file) {
  if (columns.degrees) file.crs = file.crs_name = "EPSG:4326";
  if (file.crs.empty()) file.crs = file.crs_name = crs_in(table.header[columns.north]);
  if (file.crs.empty()) file.crs = file.crs_name = crs_in(table.header[columns.east]);
  if (!file.crs.empty() && !columns.degrees) {
    file.findings.push_back(
        {Severity::note, name, say("intake.crs_from_header", {{"crs", file.crs}})});
  }
}

RawFeature& site_named(const std::string& site, const std::string& where, RawFile& file) {
  for (RawFeature& feature : file.features) {
    const auto found = feature.attributes.find("name");
    if ((found == feature.attributes.end() ? "" : found->second) == site) return feature;
  }
  RawFeature feature;
  feature.number = file.features.size() + 1;
  feature.where = where;
  if (!site.empty()) feature.attributes["name"] = site;
  file.features.push_back(std::move(feature));
  return file.features.back();
}

}  // namespace

RawFile read_corner_table(std::string_view bytes, const std::string& name) {
  const std::string text = as_utf8(bytes);
  const char separator = separator_of(text);
  const CsvTable table = parse_csv_table(text, separator);
  const Columns columns = columns_of(table, name);
  RawFile file;
  file.points_are_corners = true;
  settle_crs(table, columns, name, file);
  double squares = 0;
  int stated = 0;
  for (const CsvRow& row : table.rows) {
    const std::string where = name + ":" + std::to_string(row.line);
    const auto cell = [&row](std::size_t i) {
      return i < row.cells.size() ? std::string(trimmed(row.cells[i])) : std::string();
    };
    const std::optional<double> north = number_in(cell(columns.north), separator);
    const std::optional<double> east = number_in(cell(columns.east), separator);
    if (!north || !east) {
      file.findings.push_back({Severity::set_aside, where,
                               say("intake.corner_not_a_number", {{"north", cell(columns.north)},
                                                                  {"east", cell(columns.east)}})});
      continue;
    }
    const std::string site = columns.site ? cell(*columns.site) : "";
    site_named(site, where, file).points.push_back({*east, *north});
    const auto error =
        columns.accuracy ? number_in(cell(*columns.accuracy), separator) : std::nullopt;
    if (error && *error > 0 && *error < 1000) {
      squares += *error * *error;
      ++stated;
    }
  }
  if (stated > 0) file.accuracy_rms_m = std::sqrt(squares / stated);
  return file;
}

}  // namespace wildling::intake
