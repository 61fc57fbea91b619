#pragma once
#include <cstddef>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "base/csv.hpp"
#include "base/error.hpp"
#include "intake/workbook.hpp"

namespace wildling::intake {

/// Where a cell of a book page stands.
struct CellPlace {
  std::size_t line = 0;
  std::string column = {};  ///< as headed
  std::string sheet = {};   ///< empty: the file has no sheets
};

/// A table as rows of UTF-8 text, whatever kind of file it came from.
struct TableFile {
  std::vector<std::string> header = {};  ///< names as written, trimmed
  std::vector<CsvRow> rows = {};         ///< behind the header; padded to its length
  bool epoch_1904 = false;               ///< a workbook that counts its days from 1904
  std::vector<MergedCells> merged = {};  ///< of the workbook's sheet
  std::vector<CellPlace> places = {};    ///< not empty: a row is one cell of a book page and
                                         ///< its `line` the number of its place, from 1
  Findings findings = {};
};

/// Bytes made readable, before anything is taken for a header: the sheets of a workbook, or text.
struct RawTables {
  std::vector<Sheet> sheets = {};  ///< empty: text
  std::string text = {};           ///< UTF-8
  bool epoch_1904 = false;
  Findings findings = {};
};

/// @throws Error{input} when it is neither text nor a workbook of our kind
RawTables read_raw_tables(std::string_view bytes, const std::string& name);

/// How many column names of a row are known to the reader; 0 = this is no header.
using HeaderScore = std::function<std::size_t(const std::vector<std::string>&)>;

/// Bytes of a CSV text or an XLSX workbook as a table. The header is the row with the highest score
/// among the first 30, so that titles above it do no harm; the separator (comma, semicolon, tab,
/// bar) is the one under which that score is highest. A workbook gives its first sheet with a
/// header; others are named in a finding. The apostrophe that guards text against spreadsheets is
/// taken off. When no row scores, the first row is the header.
/// @throws Error{input} when the file is empty or is no table
TableFile read_table_file(std::string_view bytes, const std::string& name,
                          const HeaderScore& score);

/// The same from what was made readable.
TableFile table_of(const RawTables& raw, const std::string& name, const HeaderScore& score);

/// Header name in lower case with letters and digits only, other runs as one space: "Rain (mm)" and
/// "rain_mm" are both "rain mm".
std::string header_key(std::string_view name);

}  // namespace wildling::intake
