#include "intake/weather_columns.hpp"

#include <algorithm>
#include <array>

#include "base/csv.hpp"
#include "base/error.hpp"
#include "intake/table_file.hpp"

namespace wildling::intake {
namespace {

struct Known {
  std::string_view field;
  std::string_view names;  // header keys between bars
};

constexpr std::array<Known, 15> kKnown = {{
    {"date",
     "|date|tanggal|tgl|day date|date yyyy mm dd|fecha|data|datetime|date time|time|waktu|"
     "tanggal baca|"},
    {"year", "|year|tahun|thn|"},
    {"month", "|month|bulan|bln|"},
    {"day", "|day|hari|tgl hari|"},
    {"station", "|station|stasiun|pos|pos hujan|gauge|site|alat|nama stasiun|station name|"},
    {"days", "|days covered|days in total|days accumulated|hari terkumpul|jumlah hari|"},
    {"remark",
     "|remark|remarks|comment|comments|note|notes|keterangan|ket|catatan|comentario|commentario|"
     "comentarios|observacao|"},
    {"rain",
     "|rain|rainfall|precipitation|precip|prcp|rr|hujan|curah hujan|ch|lluvia|chuva|"
     "daily rain|rain total|hujan harian|curah hujan harian|"},
    {"tmax",
     "|tmax|temp max|t max|max temp|maximum temperature|temperature max|tx|suhu maks|"
     "suhu max|suhu maksimum|temperatur maksimum|suhu tertinggi|tmaks|"},
    {"tmin",
     "|tmin|temp min|t min|min temp|minimum temperature|temperature min|tn|suhu min|"
     "suhu minimum|temperatur minimum|suhu terendah|"},
    {"rh_max",
     "|rh max|rhmax|humidity max|max humidity|maximum humidity|kelembapan maks|"
     "kelembaban maks|kelembapan maksimum|kelembaban maksimum|rh maks|"},
    {"rh_min",
     "|rh min|rhmin|humidity min|min humidity|minimum humidity|kelembapan min|"
     "kelembaban min|kelembapan minimum|kelembaban minimum|"},
    {"rh_mean",
     "|rh mean|rh|rh avg|humidity|relative humidity|mean humidity|kelembapan|kelembaban|"
     "kelembapan rata rata|kelembaban rata rata|rh rata rata|"},
    {"wind", "|wind|wind speed|ff avg|windspeed|angin|kecepatan angin|"},
    {"sun",
     "|sun|sunshine|ss|sunshine hours|bright sunshine|penyinaran|lama penyinaran|"
     "penyinaran matahari|lama penyinaran matahari|"},
}};

constexpr std::size_t kPlain = 7;  // fields before the readings

struct Unit {
  std::string_view ending;
  double factor;
  double zero;
};

// An inch is 25.4 mm and Fahrenheit (F - 32) / 1.8 by definition.
constexpr std::array<Unit, 20> kUnits = {{{" tenths", 0.1, 0},
                                          {" mm day", 1, 0},
                                          {" mm d", 1, 0},
                                          {" mm hari", 1, 0},
                                          {" mm", 1, 0},
                                          {" cm", 10, 0},
                                          {" inches", 25.4, 0},
                                          {" inch", 25.4, 0},
                                          {" in", 25.4, 0},
                                          {" deg c", 1, 0},
                                          {" celsius", 1, 0},
                                          {" c", 1, 0},
                                          {" deg f", 1 / 1.8, 32},
                                          {" fahrenheit", 1 / 1.8, 32},
                                          {" f", 1 / 1.8, 32},
                                          {" pct", 1, 0},
                                          {" km h", 1 / 3.6, 0},
                                          {" m s", 1, 0},
                                          {" h", 1, 0},
                                          {" jam", 1, 0}}};

bool known(std::string_view names, const std::string& key) {
  return !key.empty() && names.find("|" + key + "|") != std::string_view::npos;
}

// The column whose name, with or without a unit behind, is one of the names.
std::optional<ReadingColumn> named(const std::vector<std::string>& header, std::string_view names) {
  for (std::size_t i = 0; i < header.size(); ++i) {
    const std::string key = header_key(header[i]);
    if (known(names, key)) return ReadingColumn{i, 1, 0};
    for (const Unit& unit : kUnits) {
      if (key.size() <= unit.ending.size()) continue;
      const std::size_t cut = key.size() - unit.ending.size();
      if (key.compare(cut, std::string::npos, unit.ending) != 0) continue;
      if (known(names, key.substr(0, cut))) return ReadingColumn{i, unit.factor, unit.zero};
    }
  }
  return {};
}

// A header the user named; its unit counts.
std::optional<ReadingColumn> exactly(const std::vector<std::string>& header,
                                     const std::string& name) {
  for (std::size_t i = 0; i < header.size(); ++i) {
    if (trimmed(header[i]) != trimmed(name) && header_key(header[i]) != header_key(name)) continue;
    const std::string key = " " + header_key(header[i]);
    for (const Unit& unit : kUnits) {
      if (key.size() > unit.ending.size() &&
          key.compare(key.size() - unit.ending.size(), std::string::npos, unit.ending) == 0) {
        return ReadingColumn{i, unit.factor, unit.zero};
      }
    }
    return ReadingColumn{i, 1, 0};
  }
  return {};
}

// The field the user may also write as "rain_mm" or "tmax_c".
const std::string* chosen_name(const std::map<std::string, std::string>& chosen,
                               std::string_view names) {
  for (const auto& [field, name] : chosen) {
    if (named({field}, names)) return &name;
  }
  return nullptr;
}

struct NamedUnit {
  std::string_view name;
  std::string_view readings;  // first letters of those that may have it
  double factor;
  double zero;
};

// A knot is 1852 m an hour and a mile 1609.344 m by definition.
constexpr std::array<NamedUnit, 15> kNamedUnits = {{{"mm", "r", 1, 0},
                                                    {"cm", "r", 10, 0},
                                                    {"inch", "r", 25.4, 0},
                                                    {"tenth_mm", "r", 0.1, 0},
                                                    {"hundredth_inch", "r", 0.254, 0},
                                                    {"c", "t", 1, 0},
                                                    {"f", "t", 1 / 1.8, 32},
                                                    {"tenth_c", "t", 0.1, 0},
                                                    {"m_s", "w", 1, 0},
                                                    {"km_h", "w", 1 / 3.6, 0},
                                                    {"knot", "w", 1852.0 / 3600, 0},
                                                    {"mile_h", "w", 1609.344 / 3600, 0},
                                                    {"pct", "h", 1, 0},
                                                    {"h", "s", 1, 0},
                                                    {"minute", "s", 1.0 / 60, 0}}};

char kind_of(Reading reading) {
  switch (reading) {
    case Reading::rain:
      return 'r';
    case Reading::tmax:
    case Reading::tmin:
      return 't';
    case Reading::wind:
      return 'w';
    case Reading::sun:
      return 's';
    default:
      return 'h';
  }
}

}  // namespace

std::string_view reading_name(Reading reading) {
  return kKnown[kPlain + static_cast<std::size_t>(reading)].field;
}

std::size_t WeatherColumns::count() const {
  std::size_t n = readings.size();
  for (const auto& column : {date, year, month, day, station, days}) n += column ? 1U : 0U;
  return n;
}

WeatherColumns weather_columns(const std::vector<std::string>& header,
                               const std::map<std::string, std::string>& chosen) {
  WeatherColumns columns;
  const std::array<std::optional<std::size_t>*, kPlain> plain = {
      &columns.date,    &columns.year, &columns.month, &columns.day,
      &columns.station, &columns.days, &columns.remark};
  for (std::size_t k = 0; k < kKnown.size(); ++k) {
    std::string all(kKnown[k].names);
    std::string own(kKnown[k].field);
    std::replace(own.begin(), own.end(), '_', ' ');
    all += own + "|";
    const std::string* name = chosen_name(chosen, all);
    const auto found = name != nullptr ? exactly(header, *name) : named(header, all);
    if (name != nullptr && !found) columns.not_found.push_back(*name);
    if (!found) continue;
    if (k < plain.size()) {
      *plain[k] = found->at;
    } else {
      columns.readings[static_cast<Reading>(k - plain.size())] = *found;
    }
  }
  return columns;
}

std::optional<Reading> reading_in_title(std::string_view title) {
  const std::string key = " " + header_key(title) + " ";
  std::optional<Reading> best;
  std::size_t longest = 3;  // shorter names are bare abbreviations
  for (std::size_t k = kPlain; k < kKnown.size(); ++k) {
    const std::string_view names = kKnown[k].names;
    for (std::size_t start = 1; start < names.size();) {
      const std::size_t end = names.find('|', start);
      const std::string_view name = names.substr(start, end - start);
      if (name.size() > longest && key.find(" " + std::string(name) + " ") != std::string::npos) {
        longest = name.size();
        best = static_cast<Reading>(k - kPlain);
      }
      start = end + 1;
    }
  }
  return best;
}

std::optional<ReadingColumn> unit_named(Reading reading, std::string_view unit) {
  for (const NamedUnit& known : kNamedUnits) {
    if (known.name == unit && known.readings.find(kind_of(reading)) != std::string_view::npos)
      return ReadingColumn{0, known.factor, known.zero};
  }
  return {};
}

std::optional<Reading> parse_reading(std::string_view name) {
  for (std::size_t k = 0; k < kReadings; ++k) {
    if (reading_name(static_cast<Reading>(k)) == name) return static_cast<Reading>(k);
  }
  return {};
}

void apply_units(const std::map<std::string, std::string>& units, WeatherColumns& columns) {
  for (const auto& [field, unit] : units) {
    const auto reading = parse_reading(field);
    std::string lower = unit;
    for (char& c : lower) c = static_cast<char>(c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c);
    const auto factor = reading ? unit_named(*reading, lower) : std::nullopt;
    if (!factor) {
      throw Error(ErrorKind::usage, "unit",
                  say("intake.unit_option", {{"field", field}, {"unit", unit}}));
    }
    const auto column = columns.readings.find(*reading);
    if (column == columns.readings.end()) continue;
    column->second.factor = factor->factor;
    column->second.zero = factor->zero;
  }
}

}  // namespace wildling::intake
