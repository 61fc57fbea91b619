#include "intake/workbook_merges.hpp"

#include <cpl_conv.h>
#include <cpl_vsi.h>

namespace wildling::intake {
namespace {

constexpr std::size_t kLargestPart = 64U << 20U;  // bytes of one part that are looked through

std::string part(const std::string& path) {
  VSILFILE* file = VSIFOpenL(path.c_str(), "rb");
  if (file == nullptr) return {};
  std::string text;
  std::string piece(1U << 16U, '\0');
  for (std::size_t n = 1; n > 0 && text.size() < kLargestPart;) {
    n = VSIFReadL(piece.data(), 1, piece.size(), file);
    text.append(piece, 0, n);
  }
  VSIFCloseL(file);
  return text;
}

// The values of an attribute in each element "<name ...>".
std::string attribute(const std::string& element, const std::string& name) {
  const std::size_t at = element.find(" " + name + "=\"");
  if (at == std::string::npos) return {};
  const std::size_t begin = at + name.size() + 3;
  const std::size_t end = element.find('"', begin);
  return end == std::string::npos ? std::string() : element.substr(begin, end - begin);
}

std::vector<std::string> elements(const std::string& xml, const std::string& name) {
  std::vector<std::string> found;
  for (std::size_t at = xml.find("<" + name + " "); at != std::string::npos;
       at = xml.find("<" + name + " ", at + 1)) {
    const std::size_t end = xml.find('>', at);
    if (end == std::string::npos) break;
    found.push_back(xml.substr(at, end - at));
  }
  return found;
}

std::string plain(std::string text) {
  for (const auto& [from, to] :
       {std::pair("&lt;", "<"), std::pair("&gt;", ">"), std::pair("&quot;", "\""),
        std::pair("&apos;", "'"), std::pair("&amp;", "&")}) {
    for (std::size_t at = text.find(from); at != std::string::npos; at = text.find(from, at + 1))
      text.replace(at, std::string(from).size(), to);
  }
  return text;
}

bool parse_cell(const std::string& text, std::size_t& line, std::size_t& column) {
  std::size_t i = 0, number = 0, letters = 0;
  for (; i < text.size() && text[i] >= 'A' && text[i] <= 'Z' && i < 3; ++i)
    letters = letters * 26 + static_cast<std::size_t>(text[i] - 'A' + 1);
  const std::size_t digits = text.size() - i;
  if (i == 0 || digits == 0 || digits > 7) return false;
  for (; i < text.size(); ++i) {
    if (text[i] < '0' || text[i] > '9') return false;
    number = number * 10 + static_cast<std::size_t>(text[i] - '0');
  }
  line = number;
  column = letters - 1;
  return number > 0;
}

}  // namespace

bool parse_range(const std::string& text, MergedCells& cells) {
  const std::size_t colon = text.find(':');
  const std::string last = colon == std::string::npos ? text : text.substr(colon + 1);
  return parse_cell(text.substr(0, colon), cells.first_line, cells.first_column) &&
         parse_cell(last, cells.last_line, cells.last_column) &&
         cells.first_line <= cells.last_line && cells.first_column <= cells.last_column;
}

std::map<std::string, std::vector<MergedCells>> merged_cells(const std::string& zip) {
  std::map<std::string, std::string> targets;
  for (const std::string& relation :
       elements(part(zip + "xl/_rels/workbook.xml.rels"), "Relationship")) {
    std::string target = attribute(relation, "Target");
    target = !target.empty() && target.front() == '/' ? target.substr(1) : "xl/" + target;
    targets[attribute(relation, "Id")] = target;
  }
  std::map<std::string, std::vector<MergedCells>> result;
  for (const std::string& sheet : elements(part(zip + "xl/workbook.xml"), "sheet")) {
    const auto target = targets.find(attribute(sheet, "r:id"));
    if (target == targets.end() || target->second.find("..") != std::string::npos) continue;
    std::vector<MergedCells>& merged = result[plain(attribute(sheet, "name"))];
    for (const std::string& cell : elements(part(zip + target->second), "mergeCell")) {
      MergedCells cells;
      if (parse_range(attribute(cell, "ref"), cells)) merged.push_back(cells);
    }
  }
  return result;
}

}  // namespace wildling::intake
