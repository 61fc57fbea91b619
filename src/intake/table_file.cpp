#include "intake/table_file.hpp"

#include <algorithm>
#include <cctype>

#include "base/formula_guard.hpp"
#include "intake/decode_text.hpp"
#include "intake/workbook.hpp"

namespace wildling::intake {
namespace {

constexpr std::size_t kHeaderWithin = 30;  // rows

struct HeaderPlace {
  std::size_t row = 0;
  std::size_t score = 0;
};

HeaderPlace find_header(const std::vector<CsvRow>& rows, const HeaderScore& score) {
  HeaderPlace best;
  for (std::size_t i = 0; i < std::min(rows.size(), kHeaderWithin); ++i) {
    const std::size_t s = score(rows[i].cells);
    if (s > best.score) best = {i, s};
  }
  return best;
}

// Also rows of a single cell count, else the separator with most cells in the first row.
std::vector<CsvRow> split(const std::string& text, const HeaderScore& score) {
  std::vector<CsvRow> best;
  std::pair<std::size_t, std::size_t> most{0, 0};
  for (const char separator : {',', ';', '\t', '|'}) {
    std::vector<CsvRow> rows = parse_csv(text, separator);
    if (rows.empty()) continue;
    const std::pair<std::size_t, std::size_t> weight{find_header(rows, score).score,
                                                     rows.front().cells.size()};
    if (!best.empty() && weight <= most) continue;
    most = weight;
    best = std::move(rows);
  }
  return best;
}

void take_rows(std::vector<CsvRow> rows, const HeaderScore& score, TableFile& table) {
  if (rows.empty()) return;
  const HeaderPlace place = find_header(rows, score);
  for (const std::string& cell : rows[place.row].cells) {
    table.header.emplace_back(trimmed(unneutralise(cell)));
  }
  rows.erase(rows.begin(), rows.begin() + static_cast<std::ptrdiff_t>(place.row) + 1);
  for (CsvRow& row : rows) {
    for (std::string& cell : row.cells) cell = std::string(trimmed(unneutralise(cell)));
    if (row.cells.size() < table.header.size()) row.cells.resize(table.header.size());
  }
  table.rows = std::move(rows);
}

void take_workbook(const RawTables& book, const std::string& name, const HeaderScore& score,
                   TableFile& table) {
  table.epoch_1904 = book.epoch_1904;
  std::size_t taken = book.sheets.size();
  for (std::size_t i = 0; i < book.sheets.size() && taken == book.sheets.size(); ++i) {
    if (find_header(book.sheets[i].rows, score).score > 1) taken = i;
  }
  for (std::size_t i = 0; i < book.sheets.size() && taken == book.sheets.size(); ++i) {
    if (!book.sheets[i].rows.empty()) taken = i;
  }
  if (taken == book.sheets.size()) return;
  std::string others;
  for (std::size_t i = 0; i < book.sheets.size(); ++i) {
    if (i == taken || book.sheets[i].rows.empty()) continue;
    others += (others.empty() ? "" : ", ") + book.sheets[i].name;
  }
  if (!others.empty()) {
    table.findings.push_back(
        {Severity::set_aside, name,
         say("intake.other_sheets", {{"taken", book.sheets[taken].name}, {"others", others}})});
  }
  table.merged = book.sheets[taken].merged;
  take_rows(book.sheets[taken].rows, score, table);
}

}  // namespace

RawTables read_raw_tables(std::string_view bytes, const std::string& name) {
  const std::string kind = foreign_kind(bytes);
  RawTables raw;
  if (kind == "xlsx") {
    Workbook book = read_workbook(bytes, name);
    raw.epoch_1904 = book.epoch_1904;
    raw.sheets = std::move(book.sheets);
    if (raw.sheets.empty()) throw Error(ErrorKind::input, name, say("intake.table_empty"));
  } else if (!kind.empty()) {
    throw Error(ErrorKind::input, name, say("intake.no_table", {{"kind", kind}}));
  } else {
    DecodedText text = decode_text(bytes);
    if (!text.encoding.empty()) {
      raw.findings.push_back(
          {Severity::note, name, say("intake.encoding", {{"encoding", text.encoding}})});
    }
    raw.text = std::move(text.utf8);
  }
  return raw;
}

TableFile table_of(const RawTables& raw, const std::string& name, const HeaderScore& score) {
  TableFile table;
  table.findings = raw.findings;
  if (raw.sheets.empty()) {
    take_rows(split(raw.text, score), score, table);
  } else {
    take_workbook(raw, name, score, table);
  }
  if (table.header.empty()) throw Error(ErrorKind::input, name, say("intake.table_empty"));
  return table;
}

TableFile read_table_file(std::string_view bytes, const std::string& name,
                          const HeaderScore& score) {
  return table_of(read_raw_tables(bytes, name), name, score);
}

std::string header_key(std::string_view name) {
  std::string key;
  for (const char c : name) {
    if (std::isalnum(static_cast<unsigned char>(c)) != 0) {
      key += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    } else if (!key.empty() && key.back() != ' ') {
      key += ' ';
    }
  }
  while (!key.empty() && key.back() == ' ') key.pop_back();
  return key;
}

}  // namespace wildling::intake
