#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "base/csv.hpp"

namespace wildling::intake {

struct Sheet {
  std::string name;
  std::vector<CsvRow> rows;  ///< `line` is the row number of the sheet; blank rows are left out
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
