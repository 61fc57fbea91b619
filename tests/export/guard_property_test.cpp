#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "base/csv.hpp"
#include "base/formula_guard.hpp"
#include "export/gpx.hpp"
#include "export/table.hpp"

namespace wildling::exports {
namespace {

std::string awkward_text() {
  const auto parts = *rc::gen::container<std::vector<std::string>>(
      rc::gen::element<std::string>("=", "+", "-", "@", "'", "''", ";", "\t", "\r", "\n", " ", "\"",
                                    ",", "a", "7", "\xC2\xA0", "\xEF\xBC\x9D", "\xC3\xA9", "\xFF"));
  std::string text;
  for (const std::string& part : parts) text += part;
  return text;
}

RC_GTEST_PROP(FormulaGuard, GivesBackWhateverTextItWasGiven, ()) {
  const std::string text = awkward_text();
  RC_ASSERT(unneutralise(neutralise(text)) == text);
}

RC_GTEST_PROP(FormulaGuard, NeutralisedTextNeverBeginsACellWithASign, ()) {
  const std::string safe = neutralise(awkward_text());
  bool start = true;
  for (const char c : safe) {
    if (start) RC_ASSERT(std::string("=+-@").find(c) == std::string::npos);
    start = (start && (c == ' ' || c == '"')) || c == ';' || c == '\t' || c == '\n' || c == '\r';
  }
}

RC_GTEST_PROP(CsvExport, TextComesBackThroughTheFile, ()) {
  Table table;
  table.columns = {{.name = "a"}, {.name = "b"}, {.name = "number"}};
  const std::string first = awkward_text();
  const std::string second = awkward_text();
  table.rows.push_back({.cells = {first, second, 1.5}, .sensitive = {}});
  table.rows.push_back({.cells = {std::string("x"), second, -1.5}, .sensitive = {}});
  const CsvTable read = parse_csv_table(csv_text(table));
  RC_ASSERT(read.rows.size() == 2U);
  RC_ASSERT(unneutralise(read.rows[0].cells[0]) == first);
  RC_ASSERT(unneutralise(read.rows[0].cells[1]) == second);
  RC_ASSERT(read.rows[1].cells[2] == "-1.5");
}

RC_GTEST_PROP(XmlText, HoldsNothingThatXmlCannot, ()) {
  std::string text = awkward_text();
  for (const auto byte : *rc::gen::arbitrary<std::vector<std::uint8_t>>())
    text += static_cast<char>(byte);
  const std::string xml = xml_text(text);
  for (const char c : xml) {
    RC_ASSERT(c != '<' && c != '>' && c != '"');
    RC_ASSERT(static_cast<std::uint8_t>(c) >= 0x20 || c == '\t' || c == '\n' || c == '\r');
  }
}

}  // namespace
}  // namespace wildling::exports
