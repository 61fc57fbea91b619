#include "intake/date_reading.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>

#include "base/csv.hpp"

namespace wildling::intake {
namespace {

constexpr std::array<DateOrder, 3> kOrders = {DateOrder::dmy, DateOrder::mdy, DateOrder::ymd};
constexpr std::array<std::array<std::string_view, 4>, 12> kMonths = {{{"jan"},
                                                                      {"feb", "peb"},
                                                                      {"mar"},
                                                                      {"apr"},
                                                                      {"may", "mei"},
                                                                      {"jun"},
                                                                      {"jul"},
                                                                      {"aug", "agu", "ags", "agt"},
                                                                      {"sep"},
                                                                      {"oct", "okt"},
                                                                      {"nov", "nop"},
                                                                      {"dec", "des"}}};

bool digit(char c) {
  return c >= '0' && c <= '9';
}

bool letter(char c) {
  return std::isalpha(static_cast<unsigned char>(c)) != 0;
}

struct Part {
  int number = 0;
  std::size_t digits = 0;  // 0: a month as a word
};

int month_named(std::string_view word) {
  std::string lower(word);
  for (char& c : lower) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  if (lower.size() < 3) return 0;
  for (std::size_t m = 0; m < kMonths.size(); ++m) {
    for (const std::string_view name : kMonths[m]) {
      if (!name.empty() && lower.compare(0, 3, name) == 0) return static_cast<int>(m) + 1;
    }
  }
  return 0;
}

// The rest behind the date must be a time of day or nothing.
bool time_or_nothing(std::string_view rest) {
  rest = trimmed(rest);
  if (rest.empty()) return true;
  if (rest.front() == 'T') rest.remove_prefix(1);
  if (rest.empty() || rest.find(':') == std::string_view::npos) return false;
  return std::all_of(rest.begin(), rest.end(), [](char c) {
    return digit(c) || std::string_view(":.+- ZAPMapm").find(c) != std::string_view::npos;
  });
}

// Takes one number or month word from the front; false when there is none.
bool take_part(std::string_view& text, Part& part) {
  std::size_t n = 0;
  if (text.empty()) return false;
  if (digit(text.front())) {
    while (n < text.size() && digit(text[n])) ++n;
    if (n > 4) return false;
    for (std::size_t i = 0; i < n; ++i) part.number = part.number * 10 + (text[i] - '0');
    part.digits = n;
  } else {
    while (n < text.size() && letter(text[n])) ++n;
    part.number = month_named(text.substr(0, n));
    if (part.number == 0) return false;
  }
  text.remove_prefix(n);
  return true;
}

std::optional<std::array<Part, 3>> parts_of(std::string_view text) {
  text = trimmed(text);
  std::array<Part, 3> parts;
  for (std::size_t i = 0; i < 3; ++i) {
    if (!take_part(text, parts[i])) return {};
    if (i == 2) break;
    const std::size_t start = text.find_first_not_of("/-. ,");
    if (start == 0 || start == std::string_view::npos || start > 2) return {};
    text.remove_prefix(start);
  }
  if (!time_or_nothing(text)) return {};
  if (std::count_if(parts.begin(), parts.end(), [](const Part& p) { return p.digits == 0; }) > 1) {
    return {};
  }
  return parts;
}

std::optional<Date> day_of(const Part& year, const Part& month, const Part& day) {
  if (year.digits != 2 && year.digits != 4) return {};
  if (day.digits == 0 || day.digits > 2 || month.digits > 2) return {};
  int y = year.number;
  if (year.digits == 2) y += y < 70 ? 2000 : 1900;
  if (y < 1800 || y > 2200 || month.number < 1 || month.number > 12 || day.number < 1) return {};
  const auto m = static_cast<unsigned>(month.number);
  const auto d = static_cast<unsigned>(day.number);
  if (d > days_in_month(y, m)) return {};
  return make_date(y, m, d);
}

std::optional<Date> compact_date(std::string_view text) {
  text = trimmed(text);
  if (text.size() != 8 || !std::all_of(text.begin(), text.end(), digit)) return {};
  const std::string iso = std::string(text.substr(0, 4)) + "-" + std::string(text.substr(4, 2)) +
                          "-" + std::string(text.substr(6, 2));
  const auto day = parse_iso_date(iso);
  return day && year_of(*day) >= 1800 && year_of(*day) <= 2200 ? day : std::nullopt;
}

std::optional<Date> in_order(const std::array<Part, 3>& p, DateOrder order) {
  if (p[1].digits == 0) {  // 3 Mar 2024; 2024 Mar 3
    return p[0].digits == 4 ? day_of(p[0], p[1], p[2]) : day_of(p[2], p[1], p[0]);
  }
  if (p[0].digits == 0) return day_of(p[2], p[0], p[1]);  // Mar 3, 2024
  if (p[2].digits == 0) return {};
  if (p[0].digits == 4) return day_of(p[0], p[1], p[2]);
  if (order == DateOrder::dmy) return day_of(p[2], p[1], p[0]);
  if (order == DateOrder::mdy) return day_of(p[2], p[0], p[1]);
  return p[2].digits == 4 ? std::nullopt : day_of(p[0], p[1], p[2]);
}

}  // namespace

std::string_view date_order_name(DateOrder order) {
  return order == DateOrder::dmy ? "dmy" : order == DateOrder::mdy ? "mdy" : "ymd";
}

std::optional<DateOrder> parse_date_order(std::string_view text) {
  for (const DateOrder order : kOrders) {
    if (text == date_order_name(order)) return order;
  }
  return {};
}

std::optional<SerialMoment> serial_moment(double serial, bool epoch_1904) {
  if (!std::isfinite(serial) || serial < (epoch_1904 ? 0 : 1) || serial > 2957000) return {};
  double whole = std::floor(serial);
  int minutes = static_cast<int>(std::lround((serial - whole) * 1440));
  if (minutes == 1440) {
    whole += 1;
    minutes = 0;
  }
  const auto days = std::chrono::days(static_cast<int>(whole));
  if (epoch_1904) return SerialMoment{make_date(1904, 1, 1) + days, minutes};
  if (whole == 60) return {};
  return SerialMoment{make_date(1899, 12, whole < 60 ? 31U : 30U) + days, minutes};
}

std::optional<Date> read_date(std::string_view text, DateOrder order) {
  if (const auto compact = compact_date(text)) return compact;
  const auto parts = parts_of(text);
  return parts ? in_order(*parts, order) : std::nullopt;
}

bool order_matters(std::string_view text) {
  std::optional<Date> seen;
  for (const DateOrder order : kOrders) {
    const auto day = read_date(text, order);
    if (day && seen && *day != *seen) return true;
    if (day) seen = day;
  }
  return false;
}

OrderEvidence date_order_of(const std::vector<std::string_view>& dates) {
  OrderEvidence evidence;
  std::array<std::size_t, 3> against{};
  std::array<std::string, 3> example;  // a date the order cannot read though another can
  for (const std::string_view date : dates) {
    std::array<bool, 3> readable{};
    for (std::size_t k = 0; k < 3; ++k) readable[k] = read_date(date, kOrders[k]).has_value();
    if (!readable[0] && !readable[1] && !readable[2]) continue;
    for (std::size_t k = 0; k < 3; ++k) {
      if (readable[k]) continue;
      ++against[k];
      if (example[k].empty()) example[k] = std::string(date);
    }
    if (order_matters(date) && evidence.unclear.empty()) evidence.unclear = std::string(date);
  }
  std::array<std::size_t, 3> rank = {0, 1, 2};
  std::stable_sort(rank.begin(), rank.end(),
                   [&against](std::size_t a, std::size_t b) { return against[a] < against[b]; });
  const std::size_t least = against[rank[0]];
  const std::size_t next = against[rank[1]];
  const bool clear = next > 0 && least * 100 <= next;
  evidence.mixed = !clear && least > 0;
  if (clear || (!evidence.mixed && evidence.unclear.empty())) evidence.order = kOrders[rank[0]];
  evidence.for_first = example[rank[1]];
  evidence.for_second = example[rank[0]];
  return evidence;
}

}  // namespace wildling::intake
