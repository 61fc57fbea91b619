#include "base/date.hpp"

#include <algorithm>
#include <cassert>
#include <charconv>

#include <fmt/format.h>

namespace wildling {
namespace {

using std::chrono::day;
using std::chrono::days;
using std::chrono::month;
using std::chrono::year;
using std::chrono::year_month_day;

std::optional<int> digits(std::string_view text) {
  int value = 0;
  const auto [end, status] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (status != std::errc() || end != text.data() + text.size() || text.front() == '-') return {};
  return value;
}

}  // namespace

Date make_date(int y, unsigned m, unsigned d) {
  const year_month_day ymd{year{y}, month{m}, day{d}};
  assert(ymd.ok());
  return Date{ymd};
}

std::optional<Date> parse_iso_date(std::string_view text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return {};
  const auto y = digits(text.substr(0, 4));
  const auto m = digits(text.substr(5, 2));
  const auto d = digits(text.substr(8, 2));
  if (!y || !m || !d) return {};
  const year_month_day ymd{year{*y}, month{static_cast<unsigned>(*m)},
                           day{static_cast<unsigned>(*d)}};
  if (!ymd.ok()) return {};
  return Date{ymd};
}

std::string iso_date(Date date) {
  const year_month_day ymd{date};
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(ymd.year()),
                     static_cast<unsigned>(ymd.month()), static_cast<unsigned>(ymd.day()));
}

int year_of(Date date) {
  return static_cast<int>(year_month_day{date}.year());
}

unsigned month_of(Date date) {
  return static_cast<unsigned>(year_month_day{date}.month());
}

unsigned day_of_month(Date date) {
  return static_cast<unsigned>(year_month_day{date}.day());
}

int day_of_year(Date date) {
  return static_cast<int>((date - make_date(year_of(date), 1, 1)).count()) + 1;
}

unsigned days_in_month(int y, unsigned m) {
  const std::chrono::year_month_day_last last{year{y}, std::chrono::month_day_last{month{m}}};
  return static_cast<unsigned>(last.day());
}

int ten_day_period(Date date) {
  const unsigned within = std::min(2U, (day_of_month(date) - 1) / 10);
  return static_cast<int>((month_of(date) - 1) * 3 + within);
}

Date ten_day_period_start(int y, int period) {
  assert(period >= 0 && period < 36);
  const auto p = static_cast<unsigned>(period);
  return make_date(y, p / 3 + 1, (p % 3) * 10 + 1);
}

Date add_months(Date date, int months) {
  const year_month_day ymd{date};
  const auto target =
      std::chrono::year_month{ymd.year(), ymd.month()} + std::chrono::months{months};
  const unsigned last =
      days_in_month(static_cast<int>(target.year()), static_cast<unsigned>(target.month()));
  return make_date(static_cast<int>(target.year()), static_cast<unsigned>(target.month()),
                   std::min(last, static_cast<unsigned>(ymd.day())));
}

}  // namespace wildling
