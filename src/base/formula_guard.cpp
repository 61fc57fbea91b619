#include "base/formula_guard.hpp"

#include <array>

namespace wildling {
namespace {

// Full-width = + - @ in UTF-8.
constexpr std::array<std::string_view, 4> kWide = {"\xEF\xBC\x9D", "\xEF\xBC\x8B", "\xEF\xBC\x8D",
                                                   "\xEF\xBC\xA0"};
constexpr std::string_view kNoBreakSpace = "\xC2\xA0";

/// Whether a formula sign follows after spaces, quotes and apostrophes; `controls` also counts tab
/// and line ends.
bool looks_like_formula(std::string_view text, bool controls) {
  while (!text.empty()) {
    if (text.front() == ' ' || text.front() == '"' || text.front() == '\'') {
      text.remove_prefix(1);
    } else if (text.substr(0, 2) == kNoBreakSpace) {
      text.remove_prefix(2);
    } else {
      break;
    }
  }
  if (text.empty()) return false;
  if (std::string_view("=+-@").find(text.front()) != std::string_view::npos) return true;
  if (controls && std::string_view("\t\r\n").find(text.front()) != std::string_view::npos)
    return true;
  for (const std::string_view sign : kWide) {
    if (text.substr(0, sign.size()) == sign) return true;
  }
  return false;
}

bool starts_a_cell(char c) {
  return c == ';' || c == '\t' || c == '\r' || c == '\n';
}

}  // namespace

std::string neutralise(std::string_view text) {
  std::string out;
  if (looks_like_formula(text, true)) out += '\'';
  for (std::size_t i = 0; i < text.size(); ++i) {
    out += text[i];
    if (starts_a_cell(text[i]) && looks_like_formula(text.substr(i + 1), false)) out += '\'';
  }
  return out;
}

std::string unneutralise(std::string_view text) {
  std::string out;
  if (!text.empty() && text.front() == '\'' && looks_like_formula(text.substr(1), true))
    text.remove_prefix(1);
  for (std::size_t i = 0; i < text.size(); ++i) {
    out += text[i];
    const bool guarded = starts_a_cell(text[i]) && i + 1 < text.size() && text[i + 1] == '\'';
    if (guarded && looks_like_formula(text.substr(i + 2), false)) ++i;
  }
  return out;
}

}  // namespace wildling
