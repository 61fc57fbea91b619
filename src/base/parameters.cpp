#include "base/parameters.hpp"

#include <fmt/format.h>

#include "base/csv.hpp"
#include "base/embedded.hpp"
#include "base/error.hpp"

namespace wildling {
namespace {

[[noreturn]] void refuse(const std::string& where, const std::string& what) {
  throw Error(ErrorKind::input, where, say("base.parameter_faulty", {{"what", what}}));
}

std::optional<double> optional_number(const std::string& cell, const std::string& where) {
  if (trimmed(cell).empty()) return {};
  const auto number = parse_number(cell);
  if (!number) refuse(where, cell);
  return number;
}

}  // namespace

Parameters Parameters::shipped() {
  Parameters parameters;
  for (const std::string& name : embedded_names("parameters/")) {
    parameters.add_csv(*embedded_file(name), name);
  }
  return parameters;
}

const Parameter* Parameters::find(std::string_view key) const {
  const auto found = parameters_.find(key);
  return found == parameters_.end() ? nullptr : &found->second;
}

const Parameter& Parameters::at(std::string_view key) const {
  const Parameter* parameter = find(key);
  if (parameter == nullptr) {
    throw Error(ErrorKind::internal, "",
                say("base.parameter_unknown", {{"key", std::string(key)}}));
  }
  return *parameter;
}

void Parameters::set(std::string_view key, double value, Origin origin, std::string source,
                     std::string note) {
  const auto found = parameters_.find(key);
  if (found == parameters_.end()) {
    throw Error(ErrorKind::input, "", say("base.parameter_unknown", {{"key", std::string(key)}}));
  }
  Parameter& parameter = found->second;
  const bool low = parameter.low && value < *parameter.low;
  const bool high = parameter.high && value > *parameter.high;
  if (low || high || !(value == value)) {
    throw Error(ErrorKind::input, "",
                say("base.parameter_outside",
                    {{"key", std::string(key)},
                     {"value", value},
                     {"low", parameter.low ? number_text(*parameter.low) : "-"},
                     {"high", parameter.high ? number_text(*parameter.high) : "-"},
                     {"unit", parameter.unit}}));
  }
  parameter.value = value;
  parameter.origin = origin;
  parameter.source = std::move(source);
  parameter.note = std::move(note);
}

void Parameters::add_csv(std::string_view text, const std::string& file) {
  const CsvTable table = parse_csv_table(text);
  const std::vector<std::string> expected = {"key",  "value",  "low",    "high",
                                             "unit", "origin", "source", "note"};
  if (table.header != expected) refuse(file + ":1", "header");
  for (const CsvRow& row : table.rows) {
    const std::string where = fmt::format("{}:{}", file, row.line);
    if (row.cells.size() != expected.size())
      refuse(where, fmt::format("{} cells", row.cells.size()));
    const auto value = parse_number(row.cells[1]);
    const auto origin = parse_origin(row.cells[5]);
    if (!value) refuse(where, row.cells[1]);
    if (!origin) refuse(where, row.cells[5]);
    if (*origin == Origin::documented && row.cells[6].empty())
      refuse(where, "documented without source");
    if (*origin == Origin::assumed && row.cells[7].empty()) refuse(where, "assumed without note");
    Parameter parameter{row.cells[0],
                        *value,
                        optional_number(row.cells[2], where),
                        optional_number(row.cells[3], where),
                        row.cells[4],
                        *origin,
                        row.cells[6],
                        row.cells[7]};
    if (!parameters_.try_emplace(parameter.key, parameter).second)
      refuse(where, parameter.key + " twice");
  }
}

std::string add_parameter(Workings& workings, const Parameter& parameter) {
  return workings.add({.key = "parameter/" + parameter.key,
                       .label = say("parameter." + parameter.key),
                       .value = parameter.value,
                       .unit = parameter.unit,
                       .origin = parameter.origin,
                       .formula = {},
                       .source = parameter.source,
                       .note = parameter.note,
                       .inputs = {}});
}

}  // namespace wildling
