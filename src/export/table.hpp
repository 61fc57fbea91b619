#pragma once
#include <cstdint>
#include <string>
#include <variant>
#include <vector>

#include "export/rules.hpp"

namespace wildling::exports {

/// Nothing, words, a real number, a whole number, or a day.
using Cell = std::variant<std::monostate, std::string, double, std::int64_t, Date>;

enum class Holds {
  plain,
  block,      ///< a block's code: rows of closed blocks are marked
  longitude,  ///< degrees; coarsened when the row or column is sensitive
  latitude
};

struct Column {
  std::string name;  ///< with its unit: "tape_m"
  Holds holds = Holds::plain;
  std::optional<Sensitive> sensitive = {};
};

struct TableRow {
  std::vector<Cell> cells = {};
  std::optional<Sensitive> sensitive =
      {};  ///< the row as a whole, such as a mother tree of a traded species
};

/// A table on its way out. Free text may name people: declare such a column as Sensitive::names.
struct Table {
  std::string name;  ///< "planting", also what the note calls it
  Use use = Use::office;
  std::vector<std::string> blocks = {};  ///< codes of the blocks it is about; a list must name them
  std::vector<Column> columns = {};
  std::vector<TableRow> rows = {};
};

/// The table as it may leave: sensitive columns and rows left out unless the rules allow them;
/// positions of what is sensitive and allowed are coarsened; when it has rows of closed blocks, a
/// last column `status` marks them "draft, not for crews".
/// @throws Error{usage} for rules without reason; Error{infeasible} for a list with a closed block;
///         Error{internal} when a row has not one cell per column
Table fit_to_leave(const Table& table, const GateBook& gates, const ExportRules& rules,
                   const Words& words);

/// What the file would contain and what was left out: to be shown before it leaves.
std::vector<Message> contents_note(const Table& table, const GateBook& gates,
                                   const ExportRules& rules);

/// RFC 4180: comma, CRLF, quotes where needed, UTF-8 without byte order mark, header row. Text
/// cells are neutralised (base/formula_guard.hpp); numbers have a decimal dot and read back as the
/// same number; a NaN is an empty cell.
std::string csv_text(const Table& fit);

/// {"table": name, "rows": [{column: value ...} ...]}; dates as text, missing and NaN as null.
std::string json_text(const Table& fit);

/// fit_to_leave, then csv_text or json_text, then the file, whole or not at all.
/// @return the contents note
/// @throws Error{io} with the system's reason; Error{usage} when the file exists and `overwrite` is
/// false; as fit_to_leave
std::vector<Message> write_csv(const std::string& path, const Table& table, const GateBook& gates,
                               const ExportRules& rules, const Words& words, bool overwrite);
std::vector<Message> write_json(const std::string& path, const Table& table, const GateBook& gates,
                                const ExportRules& rules, const Words& words, bool overwrite);

}  // namespace wildling::exports
