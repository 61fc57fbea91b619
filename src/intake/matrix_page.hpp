#pragma once
/// Where the month matrices of a sheet stand: their headings, label columns and titles.
#include <cstddef>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "base/csv.hpp"

namespace wildling::intake {

/// Month of a name in English or Indonesian ("Agt"), a Roman numeral or a number; with a year
/// behind it when it has one ("Jan 2019", "2019-01-01" as spreadsheets write it).
struct MonthLabel {
  int month = 0;
  std::optional<int> year = {};
};

std::optional<MonthLabel> month_label(std::string_view cell);
std::optional<int> day_label(std::string_view cell);  ///< 1 to 31

/// Years from 1800 to 2200 that stand alone in a text.
std::set<int> years_in(std::string_view text);

struct MatrixColumn {
  std::size_t at = 0;
  int number = 0;  ///< month or day
  std::optional<int> year = {};
};

/// One heading with what stands under it.
struct MatrixBlock {
  bool months_across = true;  ///< false: days across, months down
  std::size_t head = 0;       ///< index of the heading's row
  std::size_t end = 0;        ///< index behind the last row under it
  std::vector<MatrixColumn> columns = {};
  std::size_t label = 0;  ///< column of the days (or months)
  std::optional<std::size_t> year_column = {};
  std::optional<std::size_t> total_column = {};  ///< the keeper's sum of each row
};

/// Headings of a sheet, from top to bottom and left to right: at least three month names in order,
/// or I to XII, or 1 to 12 and no more (months across); at least ten days in order from 1, 11, 16
/// or 21 (days across). Empty when there is none.
std::vector<MatrixBlock> matrix_blocks(const std::vector<CsvRow>& rows);

/// Is it the keeper's own sum? ("Jumlah", "Total", "Jml")
bool is_sum_label(std::string_view cell);

/// The name in a title such as "Pos hujan: Luak Bening"; empty when the row names no station.
std::string station_in(const CsvRow& row);

const std::string& cell_at(const CsvRow& row, std::size_t column);

}  // namespace wildling::intake
