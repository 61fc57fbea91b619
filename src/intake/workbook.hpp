#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "base/csv.hpp"

namespace wildling::intake {

/// Cells of a sheet joined into one; its text stands in the first. Both ends inside.
struct MergedCells {
  std::size_t first_line = 0, last_line = 0;      ///< row numbers of the sheet, from 1
  std::size_t first_column = 0, last_column = 0;  ///< from 0
};

struct Sheet {
  std::string name = {};
  std::vector<CsvRow> rows =
      {};  ///< `line` is the row number of the sheet; blank rows are left out
  std::vector<MergedCells> merged = {};
};

struct Workbook {
  std::vector<Sheet> sheets;
  bool epoch_1904 = false;
};

/// Sheets of an XLSX workbook as text; cells formatted as dates are written yyyy-mm-dd, with the
/// time of day behind when there is one.
/// @throws Error{input} when it is no workbook or unfolds to more than 512 MB
Workbook read_workbook(std::string_view bytes, const std::string& name);

}  // namespace wildling::intake
