#include "plan/field/typed.hpp"

#include <algorithm>
#include <charconv>

#include "base/error.hpp"
#include "plan/fill_sheets.hpp"

namespace wildling::plan {
namespace {

constexpr int kMostRows = 100000;

std::string folded(const std::string& text) {
  std::string out;
  for (const char c : text) {
    if (c == ' ' && (out.empty() || out.back() == ' ')) continue;
    out += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  }
  while (!out.empty() && out.back() == ' ') out.pop_back();
  return out;
}

[[noreturn]] void refuse(const std::string& option, const std::string& text, const char* example) {
  throw Error(
      ErrorKind::usage, "--" + option,
      say("fieldbook.not_written_so", {{"written", text}, {"example", std::string(example)}}));
}

std::vector<std::string> split(const std::string& text, char at) {
  std::vector<std::string> parts;
  std::size_t begin = 0;
  for (;;) {
    const std::size_t end = text.find(at, begin);
    parts.push_back(text.substr(begin, end == std::string::npos ? end : end - begin));
    if (end == std::string::npos) return parts;
    begin = end + 1;
  }
}

template <typename T>
bool read_whole(const std::string& text, T& value) {
  const auto first = text.find_first_not_of(' ');
  const auto last = text.find_last_not_of(' ');
  if (first == std::string::npos) return false;
  const char* end = text.data() + last + 1;
  const auto result = std::from_chars(text.data() + first, end, value);
  return result.ec == std::errc() && result.ptr == end;
}

}  // namespace

SpeciesBook::SpeciesBook(const std::vector<std::string>& names,
                         const std::optional<PlanResult>& plan) {
  for (const std::string& name : names) names_[folded(name)] = name;
  if (!plan) return;
  const std::vector<std::string> codes = planted_species_codes(*plan);
  for (std::size_t i = 0; i < codes.size(); ++i) {
    const SpeciesPart& species = plan->species[i];
    if (!species.local_name.empty()) names_.try_emplace(folded(species.local_name), species.name);
    if (!codes[i].empty()) names_[folded(codes[i])] = species.name;
  }
}

std::optional<std::string> SpeciesBook::find(const std::string& written) const {
  const auto found = names_.find(folded(written));
  if (found == names_.end()) return {};
  return found->second;
}

Counts read_counts(const std::string& option, const std::string& text) {
  constexpr const char* kExample = "A=12,B=4";
  Counts counts;
  for (const std::string& part : split(text, ',')) {
    const std::size_t equals = part.rfind('=');
    std::int64_t count = 0;
    const std::string name = folded(part.substr(0, equals));
    if (equals == std::string::npos || name.empty() || !read_whole(part.substr(equals + 1), count))
      refuse(option, text, kExample);
    const std::string written = part.substr(0, equals);
    const std::size_t first = written.find_first_not_of(' ');
    counts.emplace_back(written.substr(first, written.find_last_not_of(' ') - first + 1), count);
  }
  return counts;
}

RowCounts read_row(const std::string& option, const std::string& text) {
  const std::size_t colon = text.find(':');
  RowCounts row;
  if (colon == std::string::npos || !read_whole(text.substr(0, colon), row.row))
    refuse(option, text, "3:A=12,B=4");
  row.counts = read_counts(option, text.substr(colon + 1));
  return row;
}

std::vector<int> read_rows(const std::string& option, const std::string& text) {
  constexpr const char* kExample = "1-12,15";
  std::vector<int> rows;
  for (const std::string& part : split(text, ',')) {
    const std::size_t dash = part.find('-', 1);
    int first = 0, last = 0;
    if (!read_whole(part.substr(0, dash), first)) refuse(option, text, kExample);
    last = first;
    if (dash != std::string::npos && !read_whole(part.substr(dash + 1), last))
      refuse(option, text, kExample);
    if (first < 1 || last < first || last > kMostRows) refuse(option, text, kExample);
    for (int row = first; row <= last; ++row) rows.push_back(row);
    if (rows.size() > static_cast<std::size_t>(kMostRows)) refuse(option, text, kExample);
  }
  return rows;
}

}  // namespace wildling::plan
