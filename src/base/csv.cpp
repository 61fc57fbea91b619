#include "base/csv.hpp"

#include <algorithm>
#include <charconv>
#include <memory>

#include <csv.h>
#include <fmt/format.h>

namespace wildling {
namespace {

// libcsv calls back once per cell and once per record; we count line ends between records
// ourselves, since a record that spans lines belongs to its first.
struct Collector {
  std::vector<CsvRow> rows;
  CsvRow current;
  std::size_t line = 1;
};

void on_cell(void* text, size_t size, void* data) {
  auto* collector = static_cast<Collector*>(data);
  collector->current.cells.emplace_back(static_cast<const char*>(text), size);
}

void on_record(int /*end*/, void* data) {
  auto* collector = static_cast<Collector*>(data);
  collector->current.line = collector->line;
  collector->rows.push_back(std::move(collector->current));
  collector->current = CsvRow{};
}

bool blank(const CsvRow& row) {
  return std::all_of(row.cells.begin(), row.cells.end(),
                     [](const std::string& cell) { return trimmed(cell).empty(); });
}

struct Parser {
  Parser() { csv_init(&state, CSV_APPEND_NULL); }

  Parser(const Parser&) = delete;
  Parser& operator=(const Parser&) = delete;

  ~Parser() { csv_free(&state); }

  csv_parser state{};
};

// Feeds line by line, so that a record's first line is known when its callback comes.
void feed(Parser& parser, Collector& collector, std::string_view text) {
  std::size_t line = 0;
  while (!text.empty()) {
    std::size_t length = text.find_first_of("\r\n");
    length = length == std::string_view::npos ? text.size() : length + 1;
    if (length < text.size() && text[length - 1] == '\r' && text[length] == '\n') ++length;
    ++line;
    const std::size_t before = collector.rows.size();
    if (collector.current.cells.empty() && collector.line == 0) collector.line = line;
    csv_parse(&parser.state, text.data(), length, on_cell, on_record, &collector);
    if (collector.rows.size() > before || parser.state.pstate == 0) collector.line = 0;
    text.remove_prefix(length);
  }
}

}  // namespace

std::vector<CsvRow> parse_csv(std::string_view text, char separator) {
  if (text.substr(0, 3) == "\xEF\xBB\xBF") text.remove_prefix(3);
  Parser parser;
  csv_set_delim(&parser.state, static_cast<unsigned char>(separator));
  Collector collector;
  collector.line = 0;
  feed(parser, collector, text);
  csv_fini(&parser.state, on_cell, on_record, &collector);
  std::vector<CsvRow> rows;
  std::copy_if(std::make_move_iterator(collector.rows.begin()),
               std::make_move_iterator(collector.rows.end()), std::back_inserter(rows),
               [](const CsvRow& row) { return !blank(row); });
  return rows;
}

std::optional<std::size_t> CsvTable::column(std::string_view name) const {
  const auto found = std::find(header.begin(), header.end(), name);
  if (found == header.end()) return {};
  return static_cast<std::size_t>(found - header.begin());
}

CsvTable parse_csv_table(std::string_view text, char separator) {
  CsvTable table;
  table.rows = parse_csv(text, separator);
  if (table.rows.empty()) return table;
  for (const std::string& name : table.rows.front().cells) table.header.emplace_back(trimmed(name));
  table.rows.erase(table.rows.begin());
  for (CsvRow& row : table.rows) {
    if (row.cells.size() < table.header.size()) row.cells.resize(table.header.size());
  }
  return table;
}

std::string csv_line(const std::vector<std::string>& cells) {
  std::string line;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    if (i > 0) line += ',';
    const std::string& cell = cells[i];
    if (cell.find_first_of(",\"\r\n") == std::string::npos && trimmed(cell).size() == cell.size()) {
      line += cell;
      continue;
    }
    line += '"';
    for (const char c : cell) {
      if (c == '"') line += '"';
      line += c;
    }
    line += '"';
  }
  return line + '\n';
}

std::optional<double> parse_number(std::string_view text) {
  text = trimmed(text);
  if (!text.empty() && text.front() == '+') text.remove_prefix(1);
  double value = 0;
  const auto [end, status] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (text.empty() || status != std::errc() || end != text.data() + text.size()) return {};
  return value;
}

std::optional<long long> parse_integer(std::string_view text) {
  text = trimmed(text);
  long long value = 0;
  const auto [end, status] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (text.empty() || status != std::errc() || end != text.data() + text.size()) return {};
  return value;
}

std::string number_text(double value) {
  return fmt::format("{}", value);
}

std::string_view trimmed(std::string_view text) {
  const auto strip = [](std::string_view t, bool front) -> std::size_t {
    const auto white = [](char c) { return c == ' ' || c == '\t' || c == '\r' || c == '\n'; };
    if (t.empty()) return 0;
    if (white(front ? t.front() : t.back())) return 1;
    if (t.size() >= 2 && (front ? t.substr(0, 2) : t.substr(t.size() - 2)) == "\xC2\xA0") return 2;
    return 0;
  };
  while (const std::size_t n = strip(text, true)) text.remove_prefix(n);
  while (const std::size_t n = strip(text, false)) text.remove_suffix(n);
  return text;
}

}  // namespace wildling
