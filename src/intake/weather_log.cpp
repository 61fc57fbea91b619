#include "intake/weather_log.hpp"

#include <algorithm>
#include <filesystem>
#include <set>

#include "base/files.hpp"
#include "base/hash.hpp"
#include "intake/weather_rows.hpp"

namespace wildling::intake {
namespace {

constexpr double kNaN = std::numeric_limits<double>::quiet_NaN();

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

bool same(double a, double b) {
  return a == b || (std::isnan(a) && std::isnan(b));
}

bool twins(const WeatherRow& a, const WeatherRow& b) {
  for (std::size_t k = 0; k < kReadings; ++k) {
    if (!same(a.value[k], b.value[k])) return false;
  }
  return a.days == b.days && a.trace == b.trace;
}

// One row for the day: twins dropped; a reading that rows give differently is set aside.
WeatherRow one_of(const WeatherPass& pass, Date day, std::vector<WeatherRow>& rows) {
  WeatherRow result = rows.front();
  for (std::size_t i = 1; i < rows.size(); ++i) {
    if (twins(rows[i], rows.front())) {
      rows[i].used = false;
      pass.findings.add(
          Severity::note, pass.where(rows[i].line),
          say("intake.twin_dropped",
              {{"day", day}, {"line", static_cast<std::int64_t>(rows.front().line)}}));
      continue;
    }
    for (std::size_t k = 0; k < kReadings; ++k) {
      const double other = rows[i].value[k];
      const bool rain = k == static_cast<std::size_t>(Reading::rain);
      const bool differs = !std::isnan(other) && !std::isnan(rows.front().value[k]) &&
                           other != rows.front().value[k];
      if (std::isnan(rows.front().value[k])) {
        result.value[k] = rows.front().value[k] = other;
        if (rain) result.trace = rows[i].trace;
      }
      if (!differs && !(rain && rows[i].days != result.days)) continue;
      const auto reading = static_cast<Reading>(k);
      pass.findings.add(
          Severity::set_aside, pass.where(rows[i].line, pass.columns.readings.at(reading).at),
          say("intake.day_conflict", {{"day", day},
                                      {"one", rows.front().value[k]},
                                      {"line", static_cast<std::int64_t>(rows.front().line)},
                                      {"other", other}}),
          std::string(reading_name(reading)));
      result.value[k] = kNaN;
      if (rain) result.trace = false;
    }
  }
  const bool any = std::any_of(result.value.begin(), result.value.end(),
                               [](double v) { return !std::isnan(v); });
  if (rows.size() > 1 && !any) {
    const bool all_blank = std::none_of(rows.begin() + 1, rows.end(), [&](const WeatherRow& row) {
      return !twins(row, rows.front());
    });
    for (WeatherRow& row : rows) row.used = row.used && all_blank;
  }
  return result;
}

std::vector<double>& column_of(climate::DailyWeather& daily, Reading reading) {
  switch (reading) {
    case Reading::rain:
      return daily.rain_mm;
    case Reading::tmax:
      return daily.tmax_c;
    case Reading::tmin:
      return daily.tmin_c;
    case Reading::rh_max:
      return daily.rh_max_pct;
    case Reading::rh_min:
      return daily.rh_min_pct;
    case Reading::rh_mean:
      return daily.rh_mean_pct;
    case Reading::wind:
      return daily.wind_m_s;
    default:
      return daily.sun_h;
  }
}

std::size_t place(const climate::DailyWeather& daily, Date day) {
  return static_cast<std::size_t>((day - daily.first).count());
}

// A catch of several days; refused when a day it covers has its own reading.
void add_total(const WeatherPass& pass, const WeatherRow& row, Date last,
               climate::DailyWeather& daily) {
  const Date first = last - std::chrono::days(row.days - 1);
  const double total = row.value[static_cast<std::size_t>(Reading::rain)];
  if (std::isnan(total)) return;
  for (Date day = std::max(first, daily.first); day < last; day += std::chrono::days(1)) {
    if (std::isnan(daily.rain_mm[place(daily, day)])) continue;
    pass.findings.add(Severity::set_aside, pass.where(row.line),
                      say("intake.total_covers_reading", {{"total", total}, {"day", day}}));
    return;
  }
  if (first < daily.first || (!daily.totals.empty() && daily.totals.back().last >= first)) {
    pass.findings.add(Severity::set_aside, pass.where(row.line),
                      say("intake.total_outside", {{"total", total}, {"day", first}}));
    return;
  }
  daily.totals.push_back({first, last, total});
}

void fill_days(const WeatherPass& pass, RowsByDay& rows, WeatherFile& file) {
  climate::DailyWeather& daily = file.daily;
  const auto shift = std::chrono::days(pass.options.read_next_morning ? 1 : 0);
  daily.first = rows.begin()->first - shift;
  const auto days = static_cast<std::size_t>((rows.rbegin()->first - daily.first).count()) + 1;
  daily.rain_mm.assign(days, kNaN);
  for (const auto& [reading, column] : pass.columns.readings) {
    column_of(daily, reading).assign(days, kNaN);
  }
  std::vector<std::pair<Date, WeatherRow>> totals;
  for (auto& [day, same_day] : rows) {
    const WeatherRow row = one_of(pass, day, same_day);
    for (const auto& [reading, column] : pass.columns.readings) {
      const bool rain = reading == Reading::rain;
      if (rain && row.days > 1) continue;
      column_of(daily, reading)[place(daily, rain ? day - shift : day)] =
          row.value[static_cast<std::size_t>(reading)];
    }
    if (row.days > 1) totals.emplace_back(day - shift, row);
    file.trace_days += row.trace ? 1U : 0U;
    for (const WeatherRow& each : same_day) (each.used ? file.kept : file.set_aside) += 1;
  }
  for (const auto& [last, row] : totals) add_total(pass, row, last, daily);
}

bool covered(const climate::DailyWeather& daily, Date day) {
  return std::any_of(daily.totals.begin(), daily.totals.end(), [day](const climate::RainTotal& t) {
    return t.first <= day && day <= t.last;
  });
}

// Stretches without a rain reading, and how many days they hold together.
void tell_gaps(const WeatherPass& pass, const climate::DailyWeather& daily) {
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
    pass.findings.add(Severity::note, pass.name,
                      say("intake.gap", {{"first", daily.day(i)},
                                         {"last", daily.day(end - 1)},
                                         {"days", static_cast<std::int64_t>(end - i)}}));
    i = end;
  }
  if (missing == 0) return;
  pass.findings.add(Severity::note, pass.name,
                    say("intake.gaps",
                        {{"missing", missing}, {"days", static_cast<std::int64_t>(daily.days())}}));
}

void tell_traces(const WeatherPass& pass, const WeatherFile& file) {
  if (file.trace_days == 0) return;
  pass.findings.add(
      Severity::note, pass.name,
      say("intake.trace_days", {{"count", static_cast<std::int64_t>(file.trace_days)}}));
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

WeatherFile read_weather_bytes(std::string_view bytes, const std::string& name,
                               const WeatherOptions& options) {
  TableFile table =
      read_table_file(bytes, name, [&options](const std::vector<std::string>& header) {
        const WeatherColumns columns = weather_columns(header, options.columns);
        return columns.count();
      });
  const WeatherColumns columns = weather_columns(table.header, options.columns);
  check_columns(table, columns, options, name);
  WeatherFile file;
  file.sha256 = sha256_hex(bytes);
  file.bytes = bytes.size();
  file.findings = table.findings;
  note_columns(table, columns, file);
  settle_station(columns, options, name, table, file);
  AlikeFindings findings;
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
  tell_gaps(pass, file.daily);
  const Findings told = findings.all(name);
  file.findings.insert(file.findings.end(), told.begin(), told.end());
  return file;
}

}  // namespace wildling::intake
