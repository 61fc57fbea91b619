#pragma once
#include <map>
#include <string>
#include <vector>

#include "intake/workbook.hpp"

namespace wildling::intake {

/// Joined cells by the name of their sheet. What cannot be read is left out.
/// @param zip  folder of the unpacked workbook as GDAL sees it, with a slash behind
std::map<std::string, std::vector<MergedCells>> merged_cells(const std::string& zip);

/// "C5:C7" and "C5" as rows from 1 and columns from 0; false when it is no range.
bool parse_range(const std::string& text, MergedCells& cells);

}  // namespace wildling::intake
