#include "intake/number_reading.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>

#include "base/csv.hpp"

namespace wildling::intake {
namespace {

bool digit(char c) {
  return c >= '0' && c <= '9';
}

// Without sign, unit and spaces inside.
std::string bare(std::string_view text) {
  text = trimmed(text);
  for (const std::string_view unit : {"mm",
                                      "\xC2\xB0"
                                      "C",
                                      "%", "m/s"}) {
    if (text.size() > unit.size() && text.substr(text.size() - unit.size()) == unit) {
      text = trimmed(text.substr(0, text.size() - unit.size()));
      break;
    }
  }
  return std::string(text);
}

std::string_view unsigned_part(std::string_view text) {
  if (!text.empty() && (text.front() == '-' || text.front() == '+')) text.remove_prefix(1);
  return text;
}

bool only_digits_and_signs(std::string_view text) {
  return !text.empty() && std::all_of(text.begin(), text.end(), [](char c) {
    return digit(c) || c == '.' || c == ',';
  }) && std::any_of(text.begin(), text.end(), digit);
}

// Groups of thousands: one to three digits, then threes.
bool grouped(std::string_view text, char mark) {
  std::size_t start = 0;
  bool first = true;
  while (true) {
    const std::size_t end = std::min(text.find(mark, start), text.size());
    const std::size_t n = end - start;
    if (first ? n < 1 || n > 3 : n != 3) return false;
    if (end == text.size()) return !first;
    start = end + 1;
    first = false;
  }
}

DecimalSign of(char c) {
  return c == ',' ? DecimalSign::comma : DecimalSign::dot;
}

char other(char c) {
  return c == ',' ? '.' : ',';
}

}  // namespace

DecimalSign decimal_sign(std::string_view text) {
  const std::string number = bare(text);
  const std::string_view body = unsigned_part(number);
  if (!only_digits_and_signs(body)) return DecimalSign::none;
  const std::size_t last = body.find_last_of(".,");
  if (last == std::string_view::npos) return DecimalSign::none;
  const char mark = body[last];
  if (body.find(other(mark)) != std::string_view::npos) return of(mark);       // 1.234,5
  if (std::count(body.begin(), body.end(), mark) > 1) return of(other(mark));  // 1.234.567
  const bool could_be_thousands = grouped(body, mark) && body.front() != '0';
  return could_be_thousands ? DecimalSign::unclear : of(mark);
}

std::optional<double> read_number(std::string_view text, std::optional<char> decimal) {
  std::string number = bare(text);
  const std::string_view body = unsigned_part(number);
  DecimalSign sign = decimal_sign(number);
  if (sign == DecimalSign::unclear) {
    if (!decimal) return {};
    sign = of(*decimal);
  }
  if (only_digits_and_signs(body) && sign != DecimalSign::none) {
    const char point = sign == DecimalSign::comma ? ',' : '.';
    const std::string whole(body.substr(0, body.find(point)));
    if (std::count(body.begin(), body.end(), point) > 1) return {};
    if (whole.find(other(point)) != std::string::npos && !grouped(whole, other(point))) return {};
    number.erase(std::remove(number.begin(), number.end(), other(point)), number.end());
    std::replace(number.begin(), number.end(), ',', '.');
  }
  const auto value = parse_number(number);
  if (!value || !std::isfinite(*value)) return {};
  return value;
}

}  // namespace wildling::intake
