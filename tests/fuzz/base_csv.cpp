// Any bytes as CSV: lines rise, a cell that is written again reads back as itself, and so does a
// number.
#include <cstdint>
#include <cstdlib>
#include <string>

#include "base/csv.hpp"
#include "base/date.hpp"

namespace {

bool blank(const std::vector<std::string>& cells) {
  for (const std::string& cell : cells)
    if (!wildling::trimmed(cell).empty()) return false;
  return true;
}

void require(bool holds) {
  if (!holds) std::abort();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text(reinterpret_cast<const char*>(data), size);
  for (const char separator : {',', ';', '\t'}) {
    std::size_t line = 1;
    for (const wildling::CsvRow& row : wildling::parse_csv(text, separator)) {
      require(row.line >= line);
      line = row.line;
      if (blank(row.cells)) continue;
      std::vector<std::string> cells = row.cells;
      cells.insert(cells.begin(),
                   "first");  // a byte order mark is dropped at the start of a text only
      const auto again = wildling::parse_csv(wildling::csv_line(cells));
      require(again.size() == 1 && again[0].cells == cells);
      for (const std::string& cell : row.cells) {
        const auto number = wildling::parse_number(cell);
        if (number)
          require(wildling::parse_number(wildling::number_text(*number)) == number ||
                  *number != *number);
        wildling::parse_integer(cell);
        wildling::parse_iso_date(cell);
      }
    }
  }
  wildling::parse_csv_table(text);
  return 0;
}
