#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/date.hpp"

namespace wildling::intake {

/// Order of day, month and year in a date of numbers.
enum class DateOrder { dmy, mdy, ymd };

std::string_view date_order_name(DateOrder order);  ///< "dmy", "mdy", "ymd"
std::optional<DateOrder> parse_date_order(std::string_view text);

/// Day and minutes of a spreadsheet's serial number: 44197.3125 = 2021-01-01, 07:30 counted from
/// 1900, 2025-01-02 counted from 1904. Empty for 60 of the 1900 count (a 29 February that never
/// was), for what is below 1 (0 from 1904) and beyond the year 9999.
struct SerialMoment {
  Date day;
  int minutes = 0;
};

std::optional<SerialMoment> serial_moment(double serial, bool epoch_1904);

/// A date in the given order. Numbers may stand apart by / - . or space, a time of day may follow,
/// a month may be a word (English or Indonesian), "20240131" is a date. A year of four digits in
/// front is always year-month-day; two digits are read as 2000 to 2069 and 1970 to 1999. Years
/// outside 1800 to 2200 are no dates.
std::optional<Date> read_date(std::string_view text, DateOrder order);

/// Does the text mean different days in different orders?
bool order_matters(std::string_view text);

/// What a column of dates says about its order.
struct OrderEvidence {
  std::optional<DateOrder> order = {};  ///< empty: cannot be told
  bool mixed = false;                   ///< rows contradict each other
  std::string for_first = {};           ///< a date that only the first reading allows
  std::string for_second = {};
  std::string unclear = {};  ///< the first date with several readings
};

/// An order stands when every other one is contradicted by dates that it cannot read, at least a
/// hundred times as many as contradict this one; or when no date depends on the order.
OrderEvidence date_order_of(const std::vector<std::string_view>& dates);

}  // namespace wildling::intake
