#include "intake/weather_columns.hpp"

#include <algorithm>
#include <array>

#include "base/csv.hpp"
#include "intake/table_file.hpp"

namespace wildling::intake {
namespace {

struct Known {
  std::string_view field;
  std::string_view names;  // header keys between bars
};

constexpr std::array<Known, 14> kKnown = {{
    {"date",
     "|date|tanggal|tgl|day date|date yyyy mm dd|fecha|data|datetime|date time|time|waktu|"
     "tanggal baca|"},
    {"year", "|year|tahun|thn|"},
    {"month", "|month|bulan|bln|"},
    {"day", "|day|hari|tgl hari|"},
    {"station", "|station|stasiun|pos|pos hujan|gauge|site|alat|nama stasiun|station name|"},
    {"days", "|days covered|days in total|days accumulated|hari terkumpul|jumlah hari|"},
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

struct Unit {
  std::string_view ending;
  double factor;
  double zero;
};

// An inch is 25.4 mm and Fahrenheit (F - 32) / 1.8 by definition.
constexpr std::array<Unit, 19> kUnits = {{{" mm day", 1, 0},
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

}  // namespace

std::string_view reading_name(Reading reading) {
  return kKnown[6 + static_cast<std::size_t>(reading)].field;
}

std::size_t WeatherColumns::count() const {
  std::size_t n = readings.size();
  for (const auto& column : {date, year, month, day, station, days}) n += column ? 1U : 0U;
  return n;
}

WeatherColumns weather_columns(const std::vector<std::string>& header,
                               const std::map<std::string, std::string>& chosen) {
  WeatherColumns columns;
  const std::array<std::optional<std::size_t>*, 6> plain = {
      &columns.date, &columns.year, &columns.month, &columns.day, &columns.station, &columns.days};
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

}  // namespace wildling::intake
