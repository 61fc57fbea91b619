#include "cli/print_reply.hpp"

#include <algorithm>
#include <cmath>

#include "base/csv.hpp"
#include "base/error.hpp"
#include "cli/common.hpp"

namespace wildling::cli {
namespace {

constexpr std::size_t kMostRows = 60;  // printed of one table; the count of the others is said

std::size_t letters_of(const std::string& text) {
  return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) {
    return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
  }));
}

// Folds at `width` columns (characters, not bytes) with an indent for what follows.
void print_folded(std::ostream& out, const std::string& text, std::size_t width) {
  std::string line = " ";
  std::size_t begin = 0;
  while (begin <= text.size()) {
    const std::size_t space = std::min(text.find(' ', begin), text.size());
    const std::string word = text.substr(begin, space - begin);
    begin = space + 1;
    if (word.empty()) continue;
    if (line.size() > 1 && letters_of(line) + letters_of(word) >= width) {
      out << line << '\n';
      line = " ";
    }
    line += ' ' + word;
  }
  out << line << '\n';
}

// A cell for people.
struct CellText {
  const Words& words;
  int decimals;

  std::string operator()(std::monostate) const { return "–"; }

  std::string operator()(const Message& message) const { return words.text(message); }

  std::string operator()(const std::string& text) const { return text; }

  std::string operator()(double number) const {
    return std::isfinite(number) ? words.number(number, decimals) : "–";
  }

  std::string operator()(std::int64_t number) const {
    return words.number(static_cast<double>(number), 0);
  }

  std::string operator()(Date day) const { return iso_date(day); }
};

// A cell for programs.
struct CellPlain {
  const Words& words;

  std::string operator()(std::monostate) const { return {}; }

  std::string operator()(const Message& message) const { return words.text(message); }

  std::string operator()(const std::string& text) const { return text; }

  std::string operator()(double number) const {
    return std::isfinite(number) ? number_text(number) : std::string();
  }

  std::string operator()(std::int64_t number) const { return std::to_string(number); }

  std::string operator()(Date day) const { return iso_date(day); }
};

bool is_number(const plan::Cell& cell) {
  return std::holds_alternative<double>(cell.value) ||
         std::holds_alternative<std::int64_t>(cell.value);
}

using Lines = std::vector<std::vector<std::string>>;

Lines texts_of(const plan::Table& table, const Words& words) {
  Lines lines(1);
  for (const plan::Column& column : table.columns) lines[0].push_back(words.text(column.heading));
  for (std::size_t row = 0; row < std::min(kMostRows, table.rows.size()); ++row) {
    lines.emplace_back();
    for (std::size_t i = 0; i < table.rows[row].size(); ++i) {
      lines.back().push_back(
          std::visit(CellText{words, table.columns[i].decimals}, table.rows[row][i].value));
    }
  }
  return lines;
}

// Figures to the right, words to the left.
void print_line(std::ostream& out, const std::vector<std::string>& line,
                const std::vector<std::size_t>& widths, const std::vector<bool>& right) {
  std::string text = " ";
  for (std::size_t i = 0; i < line.size(); ++i) {
    const std::string blanks(widths[i] - letters_of(line[i]), ' ');
    text += ' ' + (right[i] ? blanks + line[i] : line[i] + blanks) + ' ';
  }
  text.erase(text.find_last_not_of(' ') + 1);
  out << text << '\n';
}

void print_table(std::ostream& out, const plan::Table& table, const Words& words) {
  out << '\n';
  print_folded(out, words.text(table.caption), 100);
  const Lines lines = texts_of(table, words);
  std::vector<std::size_t> widths(table.columns.size(), 0);
  std::vector<bool> right(table.columns.size(), false);
  for (std::size_t i = 0; i < widths.size(); ++i) {
    for (const auto& line : lines) widths[i] = std::max(widths[i], letters_of(line[i]));
    right[i] = std::any_of(table.rows.begin(), table.rows.end(),
                           [&](const auto& row) { return is_number(row[i]); });
  }
  for (const auto& line : lines) print_line(out, line, widths, right);
  if (table.rows.size() > kMostRows) {
    out << "  "
        << words.text("cli.reply.more_rows",
                      {{"count", static_cast<std::int64_t>(table.rows.size() - kMostRows)},
                       {"table", table.name}})
        << '\n';
  }
}

}  // namespace

void print_parts(std::ostream& out, const std::vector<plan::LetterPart>& parts,
                 const Words& words) {
  for (const plan::LetterPart& part : parts) {
    out << words.text(part.heading) << '\n';
    for (const Message& sentence : part.sentences) print_folded(out, words.text(sentence), 100);
  }
}

void print_reply(std::ostream& out, const plan::Reply& reply, const Words& words) {
  out << words.text(reply.answer) << '\n';
  print_parts(out, reply.parts, words);
  for (const plan::Table& table : reply.tables) {
    if (!table.rows.empty()) print_table(out, table, words);
  }
  for (const plan::Chart& chart : reply.charts) {
    out << '\n';
    print_folded(out, words.text(chart.caption), 100);
  }
  if (!reply.findings.empty()) out << '\n';
  print_findings(out, reply.findings, words);
}

void print_table_csv(std::ostream& out, const plan::Reply& reply, const std::string& name,
                     const Words& words) {
  std::string names;
  for (const plan::Table& table : reply.tables) {
    names += (names.empty() ? "" : ", ") + table.name;
    if (!name.empty() && table.name != name) continue;
    std::vector<std::string> cells;
    for (const plan::Column& column : table.columns) cells.push_back(column.name);
    out << csv_line(cells);
    for (const auto& row : table.rows) {
      cells.clear();
      for (const plan::Cell& cell : row) cells.push_back(std::visit(CellPlain{words}, cell.value));
      out << csv_line(cells);
    }
    return;
  }
  throw Error(ErrorKind::usage, "--table", say("cli.reply.no_table", {{"names", names}}));
}

}  // namespace wildling::cli
