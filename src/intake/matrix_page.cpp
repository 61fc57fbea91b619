#include "intake/matrix_page.hpp"

#include <algorithm>
#include <array>

#include "base/date.hpp"
#include "intake/date_reading.hpp"
#include "intake/table_file.hpp"

namespace wildling::intake {
namespace {

constexpr std::array<std::string_view, 12> kRoman = {"i",   "ii",   "iii", "iv", "v",  "vi",
                                                     "vii", "viii", "ix",  "x",  "xi", "xii"};

bool among(const std::string& key, std::string_view words) {
  return !key.empty() && words.find("|" + key + "|") != std::string_view::npos;
}

std::optional<int> whole(std::string_view cell) {
  cell = trimmed(cell);
  if (!cell.empty() && cell.back() == '.') cell.remove_suffix(1);
  if (cell.size() > 2 && cell.substr(cell.size() - 2) == ".0") cell.remove_suffix(2);
  if (cell.empty() || cell.size() > 4) return {};
  int value = 0;
  for (const char c : cell) {
    if (c < '0' || c > '9') return {};
    value = value * 10 + (c - '0');
  }
  return value;
}

enum class Sign { name, roman, number };

struct MonthSign {
  MonthLabel label;
  Sign sign = Sign::name;
};

std::optional<MonthSign> month_sign(std::string_view cell) {
  const std::string key = header_key(cell);
  if (key.empty()) return {};
  for (std::size_t m = 0; m < 12; ++m) {
    if (key == kRoman[m]) return MonthSign{{static_cast<int>(m) + 1, {}}, Sign::roman};
  }
  if (const auto number = whole(cell)) {
    if (*number < 1 || *number > 12) return {};
    return MonthSign{{*number, {}}, Sign::number};
  }
  if (key.size() > 16) return {};
  if (const auto day = read_date(cell, DateOrder::ymd)) {  // a heading that became a date
    if (day_of_month(*day) == 1)
      return MonthSign{{static_cast<int>(month_of(*day)), year_of(*day)}, {}};
    return {};
  }
  const std::size_t cut = key.find(' ');
  const std::string word = key.substr(0, cut);
  if (word.find_first_of("0123456789") != std::string::npos) return {};
  const auto named = read_date("1 " + word + " 2000", DateOrder::dmy);
  if (!named) return {};
  MonthSign result{{static_cast<int>(month_of(*named)), {}}, Sign::name};
  if (cut == std::string::npos) return result;
  const auto year = whole(key.substr(cut + 1));
  if (!year) return {};
  const std::size_t digits = key.size() - cut - 1;
  if (digits == 4 && *year >= 1800 && *year <= 2200) {
    result.label.year = year;
  } else if (digits == 2) {
    result.label.year = *year + (*year < 70 ? 2000 : 1900);
  } else {
    return {};
  }
  return result;
}

// Months in order from column `at`; empty when they are no heading.
std::vector<MatrixColumn> month_run(const CsvRow& row, std::size_t at) {
  std::vector<MatrixColumn> run;
  const auto first = month_sign(cell_at(row, at));
  if (!first) return {};
  for (std::size_t c = at; c < row.cells.size(); ++c) {
    const auto sign = month_sign(row.cells[c]);
    if (!sign || sign->sign != first->sign) break;
    if (!run.empty() && sign->label.month != run.back().number % 12 + 1) break;
    run.push_back({c, sign->label.month, sign->label.year});
  }
  if (first->sign == Sign::name) return run.size() >= 3 ? run : std::vector<MatrixColumn>{};
  const bool whole_year =
      run.size() == 12 && run.front().number == 1 && (at == 0 || !whole(row.cells[at - 1]));
  const auto next = whole(cell_at(row, at + 12));
  const bool days = first->sign == Sign::number && next && *next == 13;
  return whole_year && !days ? run : std::vector<MatrixColumn>{};
}

std::vector<MatrixColumn> day_run(const CsvRow& row, std::size_t at) {
  std::vector<MatrixColumn> run;
  if (at > 0 && whole(row.cells[at - 1])) return run;
  for (std::size_t c = at; c < row.cells.size(); ++c) {
    const auto day = whole(row.cells[c]);
    if (!day || *day < 1 || *day > 31) break;
    if (run.empty() && *day != 1 && *day != 11 && *day != 16 && *day != 17 && *day != 21) break;
    if (!run.empty() && *day != run.back().number + 1) break;
    run.push_back({c, *day, {}});
  }
  return run.size() >= 10 ? run : std::vector<MatrixColumn>{};
}

// How many cells below the heading go on counting days (or months).
std::size_t labels_below(const std::vector<CsvRow>& rows, const MatrixBlock& block, std::size_t c) {
  std::size_t hits = 0;
  int last = 0;
  for (std::size_t r = block.head + 1; r < std::min(rows.size(), block.head + 40); ++r) {
    const std::string& cell = cell_at(rows[r], c);
    const int label = block.months_across ? day_label(cell).value_or(0)
                                          : month_label(cell).value_or(MonthLabel{}).month;
    if (label == 0) continue;
    hits += label > last ? 1U : 0U;
    last = label == 12 && !block.months_across ? 0 : label;
  }
  return hits;
}

// The column left of the run whose cells below are days (or months); the nearest of the best.
bool find_label(const std::vector<CsvRow>& rows, MatrixBlock& block) {
  std::size_t best = 0;
  for (std::size_t c = block.columns.front().at; c-- > 0;) {
    const std::size_t hits = labels_below(rows, block, c);
    if (hits <= best) continue;
    best = hits;
    block.label = c;
  }
  return best > 0;
}

void find_side_columns(const CsvRow& head, MatrixBlock& block) {
  for (std::size_t c = 0; c < block.columns.front().at; ++c) {
    if (among(header_key(cell_at(head, c)), "|year|tahun|thn|")) block.year_column = c;
  }
  for (std::size_t c = block.columns.back().at + 1; c < head.cells.size(); ++c) {
    if (is_sum_label(head.cells[c])) {
      block.total_column = c;
      return;
    }
  }
}

void blocks_of_row(const std::vector<CsvRow>& rows, std::size_t r, std::vector<MatrixBlock>& all) {
  for (std::size_t c = 1; c < rows[r].cells.size();) {
    MatrixBlock block;
    block.head = r;
    block.columns = month_run(rows[r], c);
    if (block.columns.empty()) {
      block.months_across = false;
      block.columns = day_run(rows[r], c);
    }
    if (block.columns.empty() || !find_label(rows, block)) {
      ++c;
      continue;
    }
    find_side_columns(rows[r], block);
    c = block.columns.back().at + 1;
    all.push_back(std::move(block));
  }
}

}  // namespace

const std::string& cell_at(const CsvRow& row, std::size_t column) {
  static const std::string none;
  return column < row.cells.size() ? row.cells[column] : none;
}

std::optional<MonthLabel> month_label(std::string_view cell) {
  const auto sign = month_sign(cell);
  return sign ? std::optional<MonthLabel>(sign->label) : std::nullopt;
}

std::optional<int> day_label(std::string_view cell) {
  const auto day = whole(cell);
  return day && *day >= 1 && *day <= 31 ? day : std::nullopt;
}

std::set<int> years_in(std::string_view text) {
  std::set<int> years;
  for (std::size_t i = 0; i < text.size();) {
    std::size_t end = i;
    int value = 0;
    while (end < text.size() && text[end] >= '0' && text[end] <= '9') {
      value = end - i < 4 ? value * 10 + (text[end] - '0') : value;
      ++end;
    }
    const bool part_of_number =
        (i > 0 && (text[i - 1] == '.' || text[i - 1] == ',')) ||
        (end + 1 < text.size() && (text[end] == '.' || text[end] == ',') && text[end + 1] >= '0' &&
         text[end + 1] <= '9' && text.substr(end) != ".0");
    if (end - i == 4 && !part_of_number && value >= 1800 && value <= 2200) years.insert(value);
    i = std::max(end, i + 1);
  }
  return years;
}

std::vector<MatrixBlock> matrix_blocks(const std::vector<CsvRow>& rows) {
  std::vector<MatrixBlock> blocks;
  for (std::size_t r = 0; r + 1 < rows.size(); ++r) blocks_of_row(rows, r, blocks);
  for (std::size_t b = 0; b < blocks.size(); ++b) {
    blocks[b].end = rows.size();
    for (std::size_t next = b + 1; next < blocks.size(); ++next) {
      if (blocks[next].head == blocks[b].head) continue;
      blocks[b].end = blocks[next].head;
      break;
    }
  }
  return blocks;
}

bool is_sum_label(std::string_view cell) {
  return among(header_key(cell),
               "|jumlah|jml|total|sum|jumlah bulanan|total bulanan|monthly total|jumlah hujan|"
               "jumlah mm|total mm|jumlah curah hujan|total rain|jumlah sebulan|");
}

std::string station_in(const CsvRow& row) {
  for (std::size_t c = 0; c < row.cells.size(); ++c) {
    const std::string& cell = row.cells[c];
    const std::size_t colon = cell.find_first_of(":=");
    const std::string key = header_key(cell.substr(0, colon));
    constexpr std::string_view kNames =
        "|station|stasiun|nama stasiun|station name|pos|pos hujan|nama pos|nama pos hujan|gauge|"
        "rain gauge|alat|lokasi|";
    if (!among(key, kNames)) {
      for (const std::string_view word : {"Stasiun ", "Station ", "Pos hujan ", "Pos Hujan "}) {
        if (colon == std::string::npos && cell.size() > word.size() &&
            cell.compare(0, word.size(), word) == 0)
          return std::string(trimmed(cell.substr(word.size())));
      }
      continue;
    }
    if (colon != std::string::npos && !trimmed(cell.substr(colon + 1)).empty())
      return std::string(trimmed(cell.substr(colon + 1)));
    for (std::size_t next = c + 1; next < row.cells.size(); ++next) {
      std::string_view name = trimmed(row.cells[next]);
      while (!name.empty() && (name.front() == ':' || name.front() == '=')) {
        name = trimmed(name.substr(1));
      }
      if (!name.empty()) return std::string(name);
    }
  }
  return {};
}

}  // namespace wildling::intake
