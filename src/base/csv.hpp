#pragma once
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace wildling {

/// One record of a CSV text and the line (1 = first) on which it starts.
struct CsvRow {
  std::size_t line = 0;
  std::vector<std::string> cells;
};

/// Splits CSV text (RFC 4180; quoted cells may hold separators, quotes and line ends; CR, LF or
/// CRLF). Blank lines are skipped. Lenient: a stray quote inside a cell stays as it is. Never
/// throws on content.
/// @param text  UTF-8, a byte order mark is dropped
/// @param separator  ',' or ';' or '\t'
std::vector<CsvRow> parse_csv(std::string_view text, char separator = ',');

/// A CSV text with a header row.
struct CsvTable {
  std::vector<std::string> header;
  std::vector<CsvRow> rows;  ///< without the header; a short row is padded with empty cells

  /// Column of that exact name; empty when there is none.
  [[nodiscard]] std::optional<std::size_t> column(std::string_view name) const;
};

CsvTable parse_csv_table(std::string_view text, char separator = ',');

/// One line with LF, cells quoted where they must be.
std::string csv_line(const std::vector<std::string>& cells);

/// The whole text as a number with a decimal dot ("-12.5", "1e3"); empty when anything else is in
/// it.
std::optional<double> parse_number(std::string_view text);
std::optional<long long> parse_integer(std::string_view text);

/// The shortest decimal text that reads back as the same double.
std::string number_text(double value);

/// Without white space (also no-break space) at both ends.
std::string_view trimmed(std::string_view text);

}  // namespace wildling
