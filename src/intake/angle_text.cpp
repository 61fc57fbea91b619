#include "intake/angle_text.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <string>
#include <utility>
#include <vector>

#include "base/csv.hpp"

namespace wildling::intake {
namespace {

struct Hemisphere {
  std::string_view word;
  int sign;
};

constexpr std::array<Hemisphere, 8> kHemispheres = {
    {{"LU", 1}, {"LS", -1}, {"BT", 1}, {"BB", -1}, {"N", 1}, {"S", -1}, {"E", 1}, {"W", -1}}};

// Signs of degrees, minutes and seconds become spaces, a decimal comma a dot.
std::string plain(std::string_view text) {
  std::string result(trimmed(text));
  for (const std::string_view mark : {"\xC2\xB0", "\xC2\xBA", "\xE2\x80\xB2", "\xE2\x80\xB3",
                                      "\xE2\x80\x99", "\xE2\x80\x9D", "\xC2\xA0", "'", "\""}) {
    for (std::size_t at = result.find(mark); at != std::string::npos; at = result.find(mark)) {
      result.replace(at, mark.size(), " ");
    }
  }
  std::replace(result.begin(), result.end(), ',', '.');
  for (char& c : result) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
  return std::string(trimmed(result));
}

// Takes a hemisphere off the end or the front; 0 when there is none.
int take_hemisphere(std::string& text) {
  for (const Hemisphere& hemisphere : kHemispheres) {
    const std::size_t n = hemisphere.word.size();
    if (text.size() <= n) continue;
    if (text.compare(text.size() - n, n, hemisphere.word) == 0) {
      text.erase(text.size() - n);
      return hemisphere.sign;
    }
    if (text.compare(0, n, hemisphere.word) == 0) {
      text.erase(0, n);
      return hemisphere.sign;
    }
  }
  return 0;
}

std::optional<std::vector<double>> parts_of(std::string_view text) {
  std::vector<double> parts;
  for (text = trimmed(text); !text.empty(); text = trimmed(text)) {
    const std::size_t end = std::min(text.find(' '), text.size());
    const std::string_view part = text.substr(0, end);
    const bool digits = std::all_of(part.begin(), part.end(),
                                    [](char c) { return (c >= '0' && c <= '9') || c == '.'; });
    const auto number = parse_number(part);
    if (!digits || !number) return {};
    parts.push_back(*number);
    text.remove_prefix(end);
  }
  return parts;
}

}  // namespace

std::optional<double> read_angle(std::string_view text) {
  std::string rest = plain(text);
  int sign = take_hemisphere(rest);
  rest = std::string(trimmed(rest));
  if (!rest.empty() && (rest.front() == '-' || rest.front() == '+')) {
    if (sign != 0) return {};
    sign = rest.front() == '-' ? -1 : 1;
    rest.erase(0, 1);
  }
  const auto parts = parts_of(rest);
  if (!parts || parts->size() < 2 || parts->size() > 3) return {};
  double degrees = 0;
  for (std::size_t i = parts->size(); i-- > 0;) {
    const double part = (*parts)[i];
    const bool last = i + 1 == parts->size();
    if ((i > 0 && part >= 60) ||
        (!last && part != static_cast<double>(static_cast<long>(std::min(part, 1e6)))))
      return {};
    degrees = part + degrees / 60;
  }
  if (degrees > 360) return {};
  return (sign < 0 ? -1 : 1) * degrees;
}

}  // namespace wildling::intake
