#include "intake/weather_log.hpp"

#include <algorithm>
#include <filesystem>
#include <set>

#include "base/files.hpp"
#include "base/hash.hpp"
#include "intake/number_reading.hpp"
#include "intake/weather_matrix.hpp"
#include "intake/weather_rows.hpp"

namespace wildling::intake {
namespace {

std::string joined(const std::vector<std::string>& names) {
  std::string text;
  for (const std::string& name : names) {
    if (!name.empty()) text += (text.empty() ? "" : ", ") + name;
  }
  return text;
}

void check_columns(const TableFile& table, const WeatherColumns& columns,
                   const WeatherOptions& options, const std::string& name) {
  const std::string headers = joined(table.header);
  if (!columns.not_found.empty()) {
    throw Error(ErrorKind::input, name,
                say("intake.column_not_found",
                    {{"column", columns.not_found.front()}, {"columns", headers}}));
  }
  if (!columns.dated()) {
    throw Error(ErrorKind::input, name, say("intake.no_date_column", {{"columns", headers}}));
  }
  if (!columns.readings.contains(Reading::rain)) {
    throw Error(ErrorKind::input, name, say("intake.no_rain_column", {{"columns", headers}}));
  }
  if (options.decimal && *options.decimal != ',' && *options.decimal != '.') {
    throw Error(ErrorKind::usage, "decimal",
                say("intake.decimal_option", {{"value", std::string(1, *options.decimal)}}));
  }
  if (table.rows.empty()) throw Error(ErrorKind::input, name, say("intake.only_header"));
}

// Leaves the rows of the one station.
void settle_station(const WeatherColumns& columns, const WeatherOptions& options,
                    const std::string& name, TableFile& table, WeatherFile& file) {
  if (!columns.station) return;
  std::set<std::string> stations;
  for (const CsvRow& row : table.rows) {
    const std::string& station = row.cells[*columns.station];
    if (!station.empty() && station != table.header[*columns.station]) stations.insert(station);
  }
  const std::string all = joined({stations.begin(), stations.end()});
  if (options.station && !stations.contains(*options.station)) {
    throw Error(ErrorKind::input, name,
                say("intake.station_not_found", {{"station", *options.station}, {"all", all}}));
  }
  if (!options.station && stations.size() > 1) {
    throw Error(ErrorKind::input, name, say("intake.several_stations", {{"all", all}}));
  }
  if (stations.empty()) return;
  file.station = options.station ? *options.station : *stations.begin();
  if (stations.size() < 2) return;
  const auto other = [&](const CsvRow& row) { return row.cells[*columns.station] != file.station; };
  const std::size_t before = table.rows.size();
  table.rows.erase(std::remove_if(table.rows.begin(), table.rows.end(), other), table.rows.end());
  file.findings.push_back({Severity::note, name,
                           say("intake.other_stations",
                               {{"station", file.station},
                                {"rows", static_cast<std::int64_t>(before - table.rows.size())}})});
  file.rows_read += before - table.rows.size();
  file.set_aside += before - table.rows.size();
}

bool covered(const climate::DailyWeather& daily, Date day) {
  return std::any_of(daily.totals.begin(), daily.totals.end(), [day](const climate::RainTotal& t) {
    return t.first <= day && day <= t.last;
  });
}

// Stretches without a rain reading, and how many days they hold together.
void tell_gaps(const std::string& name, const climate::DailyWeather& daily,
               AlikeFindings& findings) {
  std::int64_t missing = 0;
  for (std::size_t i = 0; i < daily.days();) {
    std::size_t end = i;
    while (end < daily.days() && std::isnan(daily.rain_mm[end]) && !covered(daily, daily.day(end)))
      ++end;
    if (end == i) {
      ++i;
      continue;
    }
    missing += static_cast<std::int64_t>(end - i);
    findings.add(Severity::note, name,
                 say("intake.gap", {{"first", daily.day(i)},
                                    {"last", daily.day(end - 1)},
                                    {"days", static_cast<std::int64_t>(end - i)}}));
    i = end;
  }
  if (missing == 0) return;
  findings.add(Severity::note, name,
               say("intake.gaps",
                   {{"missing", missing}, {"days", static_cast<std::int64_t>(daily.days())}}));
}

void tell_traces(const WeatherPass& pass, const WeatherFile& file) {
  if (file.trace_days == 0) return;
  pass.findings.add(
      Severity::note, pass.name,
      say("intake.trace_days", {{"count", static_cast<std::int64_t>(file.trace_days)}}));
}

// Joined cells of a workbook's rain column become a bracket over their days.
void join_merged(const WeatherColumns& columns, TableFile& table) {
  const std::size_t rain = columns.readings.at(Reading::rain).at;
  for (const MergedCells& m : table.merged) {
    if (m.first_column != rain || m.last_column != rain || m.first_line == m.last_line) continue;
    bool number = false;
    for (CsvRow& row : table.rows) {
      if (row.line < m.first_line || row.line > m.last_line) continue;
      if (row.line == m.first_line) number = read_number(row.cells[rain], '.').has_value();
      if (number) row.cells[rain] += "}";
    }
  }
}

void note_columns(const TableFile& table, const WeatherColumns& columns, WeatherFile& file) {
  const auto note = [&](const char* field, const std::optional<std::size_t>& column) {
    if (column) file.columns_used[field] = table.header[*column];
  };
  note("date", columns.date);
  if (!columns.date) {
    note("year", columns.year);
    note("month", columns.month);
    note("day", columns.day);
  }
  note("station", columns.station);
  note("days", columns.days);
  for (const auto& [reading, column] : columns.readings) {
    file.columns_used[std::string(reading_name(reading))] = table.header[column.at];
  }
}

}  // namespace

WeatherFile read_weather(const std::string& path, const WeatherOptions& options) {
  return read_weather_bytes(read_file(path), std::filesystem::path(path).filename().string(),
                            options);
}

namespace {

// Months across or days across, where no row-per-day table stands.
std::optional<MatrixFile> matrices(const RawTables& raw, const std::string& name,
                                   const WeatherOptions& options, AlikeFindings& findings) {
  const HeaderScore score = [&options](const std::vector<std::string>& header) {
    return weather_columns(header, options.columns).count();
  };
  const WeatherColumns columns =
      weather_columns(table_of(raw, name, score).header, options.columns);
  if (columns.dated() && columns.readings.contains(Reading::rain)) return {};
  return read_matrices(raw, name, options, findings);
}

WeatherFile read_table(TableFile table, const WeatherColumns& columns, const std::string& name,
                       const WeatherOptions& options, AlikeFindings& findings) {
  WeatherFile file;
  file.findings = table.findings;
  note_columns(table, columns, file);
  settle_station(columns, options, name, table, file);
  join_merged(columns, table);
  const WeatherPass pass{table, columns, options, name, findings};
  const auto days = days_of_rows(pass);
  RowsByDay rows = readings_of_rows(pass, days);
  if (rows.empty()) throw Error(ErrorKind::input, name, say("intake.no_day"));
  const auto undated = static_cast<std::size_t>(
      std::count_if(days.begin(), days.end(), [](const auto& day) { return !day; }));
  file.rows_read += days.size();
  file.set_aside += undated;
  fill_days(pass, rows, file);
  tell_traces(pass, file);
  return file;
}

}  // namespace

WeatherFile read_weather_bytes(std::string_view bytes, const std::string& name,
                               const WeatherOptions& options) {
  const RawTables raw = read_raw_tables(bytes, name);
  AlikeFindings findings;
  std::optional<MatrixFile> matrix = matrices(raw, name, options, findings);
  const auto chosen = matrix ? std::map<std::string, std::string>{} : options.columns;
  TableFile table = matrix ? std::move(matrix->table)
                           : table_of(raw, name, [&chosen](const std::vector<std::string>& header) {
                               return weather_columns(header, chosen).count();
                             });
  WeatherColumns columns = weather_columns(table.header, chosen);
  apply_units(options.units, columns);
  check_columns(table, columns, options, name);
  const ReadingColumn unit = columns.readings.at(Reading::rain);
  WeatherFile file = read_table(std::move(table), columns, name, options, findings);
  file.sha256 = sha256_hex(bytes);
  file.bytes = bytes.size();
  if (matrix) {
    file.rows_read += matrix->no_day;
    file.set_aside += matrix->no_day;
    compare_sums(matrix->sums, file.daily, options, unit, name, findings);
  }
  question_sums_among_days(file, name, findings);
  tell_gaps(name, file.daily, findings);
  const Findings told = findings.all(name);
  file.findings.insert(file.findings.end(), told.begin(), told.end());
  return file;
}

}  // namespace wildling::intake
