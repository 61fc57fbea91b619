#include "intake/weather_matrix.hpp"

#include <algorithm>
#include <array>
#include <map>

#include "base/date.hpp"
#include "intake/catch_text.hpp"
#include "intake/matrix_page.hpp"
#include "intake/number_reading.hpp"
#include "intake/weather_columns.hpp"

namespace wildling::intake {
namespace {

struct Entry {
  Date day = {};
  Reading reading = Reading::rain;
  std::string text = {};
  std::string station = {};
  CellPlace place = {};
};

struct Title {
  std::optional<int> year = {};
  Reading reading = Reading::rain;
  std::string station = {};
};

struct Collected {
  std::vector<Entry> entries = {};
  std::vector<BookSum> sums = {};
  std::size_t no_day = 0;
  std::string unit = {};  ///< of rain, as a header's ending
};

struct Page {
  const Sheet& sheet;
  const std::string& name;
  const WeatherOptions& options;
  AlikeFindings& findings;

  [[nodiscard]] CellPlace place(std::size_t row, const std::string& column) const {
    return {sheet.rows[row].line, std::string(trimmed(column)), sheet.name};
  }

  [[nodiscard]] std::string where(const CellPlace& place) const {
    return name + (place.sheet.empty() ? "" : ", sheet " + place.sheet) + ":" +
           std::to_string(place.line) + ", column " + place.column;
  }
};

bool sum_row(const CsvRow& row, const MatrixBlock& block) {
  for (std::size_t c = 0; c < block.columns.front().at; ++c) {
    if (is_sum_label(cell_at(row, c))) return true;
  }
  return false;
}

std::string joined(const CsvRow& row) {
  std::string text;
  for (const std::string& cell : row.cells) text += cell + " ; ";
  return text;
}

// The rows between the block above and the heading, the nearest first.
Title title_of(const Page& page, const MatrixBlock& block, std::size_t above, Title carried,
               std::string& unit) {
  const auto& rows = page.sheet.rows;
  Title title = carried;
  title.year = {};
  bool told = false;
  for (std::size_t r = block.head + 1; r-- > above;) {
    const std::string text = joined(rows[r]);
    if (r != block.head && sum_row(rows[r], block)) continue;
    if (!title.year) {
      if (const auto years = years_in(text); years.size() == 1) title.year = *years.begin();
    }
    const std::string key = header_key(text);
    if (key.find("inch") != std::string::npos) unit = "_inches";
    if (key.find("0 1 mm") != std::string::npos || key.find("1 10 mm") != std::string::npos)
      unit = "_tenths";
    if (const auto reading = reading_in_title(text); reading && !told) {
      title.reading = *reading;
      told = true;
    }
    const std::string station = r == block.head ? std::string() : station_in(rows[r]);
    if (!station.empty()) title.station = station;
  }
  return title;
}

int year_or_refuse(const Page& page, const MatrixBlock& block, std::optional<int> year) {
  if (year) return *year;
  if (page.options.year) return *page.options.year;
  if (const auto named = years_in(page.sheet.name); named.size() == 1) return *named.begin();
  throw Error(ErrorKind::input,
              page.name + (page.sheet.name.empty() ? "" : ", sheet " + page.sheet.name) + ":" +
                  std::to_string(page.sheet.rows[block.head].line),
              say("intake.matrix_year"));
}

// A cell that is part of joined cells becomes a bracket over the days they cover.
std::string cell_text(const Page& page, const MatrixBlock& block, std::size_t row,
                      std::size_t column) {
  const auto& rows = page.sheet.rows;
  const std::string text(trimmed(cell_at(rows[row], column)));
  const std::size_t line = rows[row].line;
  for (const MergedCells& m : page.sheet.merged) {
    const bool inside = line >= m.first_line && line <= m.last_line && column >= m.first_column &&
                        column <= m.last_column;
    const bool over_days =
        block.months_across ? m.last_line > m.first_line : m.last_column > m.first_column;
    const bool one_month =
        block.months_across ? m.first_column == m.last_column : m.first_line == m.last_line;
    if (!inside || !over_days || !one_month) continue;
    const auto first = std::find_if(rows.begin(), rows.end(),
                                    [&](const CsvRow& r) { return r.line == m.first_line; });
    if (first == rows.end() || !read_number(cell_at(*first, m.first_column), '.')) return text;
    return text + "}";
  }
  return text;
}

class BlockReader {
 public:
  BlockReader(const Page& page, const MatrixBlock& block, Title title, Collected& collected)
      : page_(page), block_(block), title_(std::move(title)), collected_(collected) {}

  void read() {
    if (!named_years()) year_ = year_or_refuse(page_, block_, title_.year);
    const auto& rows = page_.sheet.rows;
    for (std::size_t r = block_.head + 1; r < block_.end; ++r) {
      take_year(rows[r]);
      const std::string& label = cell_at(rows[r], block_.label);
      const int day = block_.months_across ? day_label(label).value_or(0) : 0;
      const MonthLabel month =
          block_.months_across ? MonthLabel{} : month_label(label).value_or(MonthLabel{});
      if (day == 0 && month.month == 0) {
        if (sum_row(rows[r], block_)) take_sums(r);
        continue;
      }
      if (block_.months_across && day < last_day_ && last_day_ >= 28 && !block_.year_column) return;
      last_day_ = day;
      read_row(r, day, month);
    }
  }

 private:
  const Page& page_;
  const MatrixBlock& block_;
  Title title_;
  Collected& collected_;
  int year_ = 0;
  int last_day_ = 0;

  [[nodiscard]] bool named_years() const {
    if (block_.year_column) return true;
    if (block_.months_across) return block_.columns.front().year.has_value();
    const auto& rows = page_.sheet.rows;
    for (std::size_t r = block_.head + 1; r < block_.end; ++r) {
      const auto label = month_label(cell_at(rows[r], block_.label));
      if (label) return label->year.has_value();
    }
    return false;
  }

  // A year in its column, carried down; or alone in a row between the months.
  void take_year(const CsvRow& row) {
    const bool labelled = block_.months_across
                              ? day_label(cell_at(row, block_.label)).has_value()
                              : month_label(cell_at(row, block_.label)).has_value();
    if (!block_.year_column && (labelled || sum_row(row, block_))) return;
    const auto years =
        years_in(block_.year_column ? cell_at(row, *block_.year_column) : joined(row));
    if (years.size() != 1) return;
    if (*years.begin() != year_) last_day_ = 0;
    year_ = *years.begin();
  }

  void read_row(std::size_t r, int day, const MonthLabel& label) {
    for (const MatrixColumn& column : block_.columns) {
      const int month = block_.months_across ? column.number : label.month;
      const auto own_year = block_.months_across ? column.year : label.year;
      const int year = own_year.value_or(year_);
      const int d = block_.months_across ? day : column.number;
      const std::string text = cell_text(page_, block_, r, column.at);
      if (text.empty()) continue;
      const CellPlace place = page_.place(r, cell_at(page_.sheet.rows[block_.head], column.at));
      if (year < 1800) {
        throw Error(ErrorKind::input, page_.where(place), say("intake.matrix_year"));
      }
      if (d <= static_cast<int>(days_in_month(year, static_cast<unsigned>(month)))) {
        collected_.entries.push_back(
            {make_date(year, static_cast<unsigned>(month), static_cast<unsigned>(d)),
             title_.reading, text, title_.station, place});
      } else {
        no_such_day(place, text, year, month, d);
      }
    }
    if (!block_.months_across && block_.total_column) {
      add_sum(r, *block_.total_column, label.year.value_or(year_), label.month);
    }
  }

  void no_such_day(const CellPlace& place, const std::string& text, int year, int month, int day) {
    if (says_missing(text) || is_dash(text)) return;
    const auto number = read_number(text, '.');
    if (number && (*number == -9999 || *number == -999 || *number == 8888 || *number == 9999))
      return;
    ++collected_.no_day;
    page_.findings.add(
        Severity::set_aside, page_.where(place),
        say("intake.no_such_day", {{"day", std::int64_t{day}},
                                   {"month", make_date(year, static_cast<unsigned>(month), 1)},
                                   {"value", text}}));
  }

  void take_sums(std::size_t r) {
    if (!block_.months_across) return;
    for (const MatrixColumn& column : block_.columns) {
      add_sum(r, column.at, column.year.value_or(year_), column.number);
    }
  }

  void add_sum(std::size_t r, std::size_t column, int year, int month) {
    const std::string& text = cell_at(page_.sheet.rows[r], column);
    if (title_.reading != Reading::rain || trimmed(text).empty()) return;
    collected_.sums.push_back(
        {year, month, text,
         page_.place(r, cell_at(page_.sheet.rows[block_.head],
                                block_.months_across ? column : block_.label))});
  }
};

bool read_sheet(const Page& page, Collected& collected) {
  const auto blocks = matrix_blocks(page.sheet.rows);
  Title title;
  std::size_t above = 0;
  for (std::size_t b = 0; b < blocks.size(); ++b) {
    if (b > 0 && blocks[b].head != blocks[b - 1].head) {
      above = blocks[b - 1].head + 1;
      const auto& rows = page.sheet.rows;
      for (std::size_t r = above; r < blocks[b].head; ++r) {  // titles stand below the last day
        const std::string& label = cell_at(rows[r], blocks[b - 1].label);
        const bool data = blocks[b - 1].months_across ? day_label(label).has_value()
                                                      : month_label(label).has_value();
        if (data) above = r + 1;
      }
    }
    title = title_of(page, blocks[b], above, title, collected.unit);
    BlockReader(page, blocks[b], title, collected).read();
  }
  return !blocks.empty();
}

// Two sheets with the same days and no station named: the sheets are the stations.
void name_stations_by_sheet(std::vector<Entry>& entries) {
  std::map<std::pair<Date, Reading>, std::string> sheets;
  bool mixed = false;
  for (const Entry& entry : entries) {
    if (!entry.station.empty()) return;
    const auto [at, fresh] = sheets.emplace(std::pair(entry.day, entry.reading), entry.place.sheet);
    mixed = mixed || (!fresh && at->second != entry.place.sheet);
  }
  if (!mixed) return;
  for (Entry& entry : entries) entry.station = entry.place.sheet;
}

TableFile table_from(std::vector<Entry> entries, const std::string& unit) {
  std::stable_sort(entries.begin(), entries.end(),
                   [](const Entry& a, const Entry& b) { return a.day < b.day; });
  std::map<Reading, std::size_t> columns = {{Reading::rain, 0}};
  for (const Entry& entry : entries) columns.emplace(entry.reading, 0);
  const bool stations = std::any_of(entries.begin(), entries.end(),
                                    [](const Entry& e) { return !e.station.empty(); });
  TableFile table;
  table.header.emplace_back("date");
  for (auto& [reading, at] : columns) {
    at = table.header.size();
    table.header.push_back(std::string(reading_name(reading)) +
                           (reading == Reading::rain ? unit : ""));
  }
  if (stations) table.header.emplace_back("station");
  for (Entry& entry : entries) {
    CsvRow row;
    row.line = table.places.size() + 1;
    row.cells.resize(table.header.size());
    row.cells[0] = iso_date(entry.day);
    row.cells[columns.at(entry.reading)] = std::move(entry.text);
    if (stations) row.cells.back() = std::move(entry.station);
    table.rows.push_back(std::move(row));
    table.places.push_back(std::move(entry.place));
  }
  return table;
}

// Text under the separator that shows most of the matrix.
Sheet sheet_of_text(const std::string& text) {
  Sheet best;
  std::size_t most = 0;
  for (const char separator : {',', ';', '\t', '|'}) {
    Sheet sheet;
    sheet.rows = parse_csv(text, separator);
    std::size_t columns = 0;
    for (const MatrixBlock& block : matrix_blocks(sheet.rows)) columns += block.columns.size();
    if (columns <= most) continue;
    most = columns;
    best = std::move(sheet);
  }
  return best;
}

}  // namespace

std::optional<MatrixFile> read_matrices(const RawTables& raw, const std::string& name,
                                        const WeatherOptions& options, AlikeFindings& findings) {
  Collected collected;
  bool any = false;
  if (raw.sheets.empty()) {
    const Sheet sheet = sheet_of_text(raw.text);
    any = read_sheet({sheet, name, options, findings}, collected);
  }
  for (const Sheet& sheet : raw.sheets) {
    any = read_sheet({sheet, name, options, findings}, collected) || any;
  }
  if (!any) return {};
  name_stations_by_sheet(collected.entries);
  MatrixFile file;
  file.no_day = collected.no_day;
  file.sums = std::move(collected.sums);
  file.table = table_from(std::move(collected.entries), collected.unit);
  file.table.findings = raw.findings;
  if (file.table.header.back() == "station") file.sums.clear();
  return file;
}

}  // namespace wildling::intake
