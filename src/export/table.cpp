#include "export/table.hpp"

#include <cmath>
#include <set>

#include <nlohmann/json.hpp>

#include "base/csv.hpp"
#include "base/error.hpp"
#include "base/files.hpp"
#include "base/formula_guard.hpp"

namespace wildling::exports {
namespace {

bool stays(const std::optional<Sensitive>& kind, const ExportRules& rules) {
  return kind && !rules.allows(*kind);
}

void coarsen(Cell& cell, Holds holds, double cell_deg) {
  double* degrees = std::get_if<double>(&cell);
  if (degrees == nullptr || !std::isfinite(*degrees)) return;
  if (holds == Holds::longitude)
    *degrees = coarsened({.lon_deg = *degrees, .lat_deg = 0}, cell_deg).lon_deg;
  if (holds == Holds::latitude)
    *degrees = coarsened({.lon_deg = 0, .lat_deg = *degrees}, cell_deg).lat_deg;
}

std::string block_of(const Table& table, const TableRow& row) {
  for (std::size_t c = 0; c < table.columns.size(); ++c) {
    if (table.columns[c].holds != Holds::block) continue;
    const std::string* code = std::get_if<std::string>(&row.cells[c]);
    if (code != nullptr) return *code;
  }
  return "";
}

/// All blocks it names, in the list or in a cell.
std::vector<std::string> blocks_of(const Table& table) {
  std::vector<std::string> out = table.blocks;
  std::set<std::string> seen(out.begin(), out.end());
  for (const TableRow& row : table.rows) {
    const std::string code = block_of(table, row);
    if (!code.empty() && seen.insert(code).second) out.push_back(code);
  }
  return out;
}

void check_rows(const Table& table) {
  for (const TableRow& row : table.rows) {
    if (row.cells.size() != table.columns.size()) {
      throw Error(ErrorKind::internal, table.name, say("export.row_has_other_columns"));
    }
  }
}

TableRow fit_row(const Table& table, const TableRow& row, const ExportRules& rules) {
  TableRow out;
  out.sensitive = row.sensitive;
  for (std::size_t c = 0; c < table.columns.size(); ++c) {
    if (stays(table.columns[c].sensitive, rules)) continue;
    Cell cell = row.cells[c];
    if (row.sensitive || table.columns[c].sensitive)
      coarsen(cell, table.columns[c].holds, rules.coarsen_deg);
    out.cells.push_back(std::move(cell));
  }
  return out;
}

}  // namespace

Table fit_to_leave(const Table& table, const GateBook& gates, const ExportRules& rules,
                   const Words& words) {
  check_rules(rules);
  check_rows(table);
  const std::vector<std::string> blocks = blocks_of(table);
  require_open(table.use, blocks, gates, words);
  Table out{.name = table.name, .use = table.use, .blocks = blocks, .columns = {}, .rows = {}};
  for (const Column& column : table.columns) {
    if (!stays(column.sensitive, rules)) out.columns.push_back(column);
  }
  bool any_draft = false;
  std::vector<bool> draft;
  for (const TableRow& row : table.rows) {
    if (stays(row.sensitive, rules)) continue;
    const std::string code = block_of(table, row);
    draft.push_back(!code.empty() && !is_open(gates, code));
    any_draft = any_draft || draft.back();
    out.rows.push_back(fit_row(table, row, rules));
  }
  if (!any_draft) return out;
  out.columns.push_back({.name = "status", .holds = Holds::plain, .sensitive = {}});
  for (std::size_t r = 0; r < out.rows.size(); ++r) {
    out.rows[r].cells.push_back(draft[r] ? Cell(draft_mark(words)) : Cell());
  }
  return out;
}

namespace {

std::string kind_text(Sensitive kind) {
  return std::string(sensitive_name(kind));
}

void note_kind(std::vector<Message>& note, Sensitive kind, std::int64_t columns, std::int64_t rows,
               const ExportRules& rules) {
  if (columns == 0 && rows == 0) return;
  if (!rules.allows(kind)) {
    note.push_back(say("export.note.left_out",
                       {{"kind", kind_text(kind)}, {"columns", columns}, {"rows", rows}}));
    return;
  }
  note.push_back(say("export.note.is_in", {{"kind", kind_text(kind)}, {"reason", rules.reason}}));
}

bool has_position(const Table& table) {
  for (const Column& column : table.columns) {
    if (column.holds == Holds::longitude || column.holds == Holds::latitude) return true;
  }
  return false;
}

}  // namespace

std::vector<Message> contents_note(const Table& table, const GateBook& gates,
                                   const ExportRules& rules) {
  std::int64_t leaving = 0;
  for (const TableRow& row : table.rows) leaving += stays(row.sensitive, rules) ? 0 : 1;
  std::vector<Message> note = {say("export.note.rows", {{"table", table.name}, {"rows", leaving}})};
  bool coarse = false;
  for (const Sensitive kind : {Sensitive::names, Sensitive::rights, Sensitive::mother_trees,
                               Sensitive::nests, Sensitive::incident_places}) {
    std::int64_t columns = 0;
    std::int64_t rows = 0;
    for (const Column& column : table.columns) columns += column.sensitive == kind ? 1 : 0;
    for (const TableRow& row : table.rows) rows += row.sensitive == kind ? 1 : 0;
    note_kind(note, kind, columns, rows, rules);
    coarse = coarse || ((columns > 0 || rows > 0) && rules.allows(kind));
  }
  if (coarse && has_position(table)) {
    note.push_back(
        say("export.note.coarsened",
            {{"degrees", rules.coarsen_deg}, {"metres", coarsening_error_m(rules.coarsen_deg)}}));
  }
  std::string closed;
  for (const std::string& block : blocks_of(table)) {
    if (!is_open(gates, block)) closed += (closed.empty() ? "" : ", ") + block;
  }
  if (!closed.empty()) note.push_back(say("export.note.draft", {{"blocks", closed}}));
  return note;
}

namespace {

std::string quoted(const std::string& cell) {
  const bool plain =
      cell.find_first_of(",;\"\r\n\t") == std::string::npos && trimmed(cell).size() == cell.size();
  if (plain) return cell;
  std::string out = "\"";
  for (const char c : cell) {
    if (c == '"') out += '"';
    out += c;
  }
  return out + '"';
}

struct CsvCell {
  std::string operator()(std::monostate) const { return ""; }

  std::string operator()(const std::string& text) const { return quoted(neutralise(text)); }

  std::string operator()(double value) const {
    return std::isfinite(value) ? number_text(value) : "";
  }

  std::string operator()(std::int64_t value) const { return std::to_string(value); }

  std::string operator()(Date day) const { return iso_date(day); }
};

struct JsonCell {
  using Json = nlohmann::ordered_json;

  Json operator()(std::monostate) const { return nullptr; }

  Json operator()(const std::string& text) const { return text; }

  Json operator()(double value) const { return std::isfinite(value) ? Json(value) : Json(nullptr); }

  Json operator()(std::int64_t value) const { return value; }

  Json operator()(Date day) const { return iso_date(day); }
};

}  // namespace

std::string csv_text(const Table& fit) {
  std::string out;
  for (std::size_t c = 0; c < fit.columns.size(); ++c) {
    out += (c > 0 ? "," : "") + quoted(neutralise(fit.columns[c].name));
  }
  out += "\r\n";
  for (const TableRow& row : fit.rows) {
    std::string line;
    for (std::size_t c = 0; c < row.cells.size(); ++c)
      line += (c > 0 ? "," : "") + std::visit(CsvCell{}, row.cells[c]);
    if (line.empty()) line = "\"\"";  // one empty cell must not read as a blank line
    out += line + "\r\n";
  }
  return out;
}

std::string json_text(const Table& fit) {
  nlohmann::ordered_json rows = nlohmann::ordered_json::array();
  for (const TableRow& row : fit.rows) {
    nlohmann::ordered_json one = nlohmann::ordered_json::object();
    for (std::size_t c = 0; c < row.cells.size(); ++c) {
      one[fit.columns[c].name] = std::visit(JsonCell{}, row.cells[c]);
    }
    rows.push_back(std::move(one));
  }
  nlohmann::ordered_json all;
  all["table"] = fit.name;
  all["rows"] = std::move(rows);
  return all.dump(1, ' ', false, nlohmann::ordered_json::error_handler_t::replace) + "\n";
}

std::vector<Message> write_csv(const std::string& path, const Table& table, const GateBook& gates,
                               const ExportRules& rules, const Words& words, bool overwrite) {
  write_file(path, csv_text(fit_to_leave(table, gates, rules, words)), overwrite);
  return contents_note(table, gates, rules);
}

std::vector<Message> write_json(const std::string& path, const Table& table, const GateBook& gates,
                                const ExportRules& rules, const Words& words, bool overwrite) {
  write_file(path, json_text(fit_to_leave(table, gates, rules, words)), overwrite);
  return contents_note(table, gates, rules);
}

}  // namespace wildling::exports
