#pragma once
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "base/csv.hpp"
#include "base/files.hpp"

namespace wildling::climate {

/// One published case: named inputs and outputs with their tolerance.
struct Published {
  std::string name;
  double value, tolerance;
};

struct PublishedCase {
  std::map<std::string, double> in;
  std::vector<Published> out;

  double operator[](const std::string& input) const { return in.at(input); }
};

inline CsvTable reference_table(const std::string& file) {
  std::string path = WILDLING_REFERENCE;
  path.append("/").append(file);
  return parse_csv_table(read_file(path));
}

/// Columns case, kind (in/out), name, value, unit, tolerance, step; a step makes a case of its own,
/// "case@step".
inline std::map<std::string, PublishedCase> published_cases(const std::string& file) {
  std::map<std::string, PublishedCase> cases;
  for (const CsvRow& row : reference_table(file).rows) {
    const bool step = !row.cells[6].empty() && row.cells[6] != "input";
    PublishedCase& one = cases[row.cells[0] + (step ? "@" + row.cells[6] : "")];
    const auto value = parse_number(row.cells[3]);
    if (!value) continue;  // a word, such as the name of a texture
    if (row.cells[1] == "in") {
      one.in[row.cells[2]] = *value;
    } else {
      one.out.push_back({row.cells[2], *value, *parse_number(row.cells[5])});
    }
  }
  return cases;
}

/// A table's cells by column name, NaN never: every cell must be a number.
inline std::vector<std::map<std::string, double>> number_rows(const std::string& file) {
  std::vector<std::map<std::string, double>> rows;
  const CsvTable table = reference_table(file);
  for (const CsvRow& row : table.rows) {
    auto& one = rows.emplace_back();
    for (std::size_t c = 0; c < table.header.size(); ++c) {
      if (const auto value = parse_number(row.cells[c])) one[table.header[c]] = *value;
    }
  }
  return rows;
}

}  // namespace wildling::climate
