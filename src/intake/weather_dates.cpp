#include <algorithm>

#include "intake/date_reading.hpp"
#include "intake/date_sequence.hpp"
#include "intake/weather_rows.hpp"

namespace wildling::intake {
namespace {

constexpr double kSerialLow = 10000;  // 1927; below it a bare number is no serial date
constexpr double kSerialHigh = 80000;

struct DateColumn {
  std::vector<std::string> text;  // one per row
  std::string where;              // name of the column
};

std::string cell(const CsvRow& row, std::size_t at) {
  return at < row.cells.size() ? row.cells[at] : std::string();
}

DateColumn dates_as_text(const WeatherPass& pass) {
  DateColumn dates;
  for (const CsvRow& row : pass.table.rows) {
    const WeatherColumns& c = pass.columns;
    dates.text.push_back(c.date ? cell(row, *c.date)
                                : cell(row, *c.year) + "-" + cell(row, *c.month) + "-" +
                                      cell(row, *c.day));
  }
  return dates;
}

std::optional<SerialMoment> as_serial(std::string text, bool epoch_1904) {
  std::replace(text.begin(), text.end(), ',', '.');
  const auto number = parse_number(text);
  if (!number || *number < kSerialLow || *number > kSerialHigh) return {};
  return serial_moment(*number, epoch_1904);
}

[[noreturn]] void refuse_order(const WeatherPass& pass, const OrderEvidence& evidence) {
  if (evidence.mixed) {
    throw Error(ErrorKind::input, pass.name,
                say("intake.date_order_mixed",
                    {{"one", evidence.for_first}, {"other", evidence.for_second}}));
  }
  const auto dmy = read_date(evidence.unclear, DateOrder::dmy);
  const auto mdy = read_date(evidence.unclear, DateOrder::mdy);
  const auto ymd = read_date(evidence.unclear, DateOrder::ymd);
  const auto first = dmy ? dmy : mdy;
  const auto second = dmy && mdy && *dmy != *mdy ? mdy : ymd;
  throw Error(
      ErrorKind::input, pass.name,
      say("intake.date_order_unclear", {{"value", evidence.unclear},
                                        {"first", first ? iso_date(*first) : std::string()},
                                        {"second", second ? iso_date(*second) : std::string()}}));
}

// "Date(yyyy-mm-dd)" in the header says an order; empty when it says none.
std::optional<DateOrder> order_in_header(const WeatherPass& pass) {
  if (!pass.columns.date) return {};
  const std::string key = header_key(pass.table.header[*pass.columns.date]);
  for (const auto& [sign, order] :
       {std::pair("yyyy mm dd", DateOrder::ymd), std::pair("dd mm yy", DateOrder::dmy),
        std::pair("mm dd yy", DateOrder::mdy), std::pair("hh bb tttt", DateOrder::dmy)}) {
    if (key.find(sign) != std::string::npos) return order;
  }
  return {};
}

DateOrder settled_order(const WeatherPass& pass, const DateColumn& dates) {
  if (pass.options.date_order) {
    const auto order = parse_date_order(*pass.options.date_order);
    if (!order) {
      throw Error(ErrorKind::usage, "date_order",
                  say("intake.date_order_option", {{"value", *pass.options.date_order}}));
    }
    return *order;
  }
  if (!pass.columns.date) return DateOrder::ymd;
  std::vector<std::string_view> texts;
  for (const std::string& text : dates.text) {
    if (!as_serial(text, false)) texts.emplace_back(text);
  }
  const OrderEvidence evidence = date_order_of(texts);
  const auto header = order_in_header(pass);
  if (!evidence.order && !evidence.mixed && header) {
    pass.findings.add(
        Severity::note, pass.name,
        say("intake.date_order_from_header", {{"header", pass.table.header[*pass.columns.date]}}));
    return *header;
  }
  if (!evidence.order) refuse_order(pass, evidence);
  const bool numbers_decide = !evidence.unclear.empty() || !evidence.for_first.empty();
  if (header && numbers_decide && *header != *evidence.order) {
    pass.findings.add(Severity::changed, pass.name,
                      say("intake.date_order_not_as_header",
                          {{"header", pass.table.header[*pass.columns.date]},
                           {"value", evidence.for_first},
                           {"order", std::string(date_order_name(*evidence.order))}}));
  } else if (!evidence.unclear.empty()) {
    pass.findings.add(
        Severity::note, pass.name,
        say("intake.date_order_found", {{"order", std::string(date_order_name(*evidence.order))},
                                        {"value", evidence.for_first}}));
  }
  return *evidence.order;
}

bool repeats_header(const WeatherPass& pass, const CsvRow& row) {
  return pass.columns.date && header_key(cell(row, *pass.columns.date)) ==
                                  header_key(pass.table.header[*pass.columns.date]);
}

// A reading under a wrong year would count for a day nobody measured.
void set_aside_out_of_place(const WeatherPass& pass, std::vector<std::optional<Date>>& days) {
  for (const OutOfPlace& fault : dates_out_of_place(days)) {
    std::optional<Date>& day = days[fault.row];
    pass.findings.add(Severity::set_aside,
                      pass.where(pass.table.rows[fault.row].line, pass.columns.date),
                      say("intake.date_out_of_place",
                          {{"day", *day}, {"before", fault.before}, {"after", fault.after}}));
    day.reset();
  }
}

}  // namespace

std::string WeatherPass::where(std::size_t line, std::optional<std::size_t> column) const {
  if (!table.places.empty()) {
    const CellPlace& place = table.places.at(line - 1);
    return name + (place.sheet.empty() ? "" : ", sheet " + place.sheet) + ":" +
           std::to_string(place.line) + ", column " + place.column;
  }
  std::string place = name + ":" + std::to_string(line);
  if (column && *column < table.header.size()) place += ", column " + table.header[*column];
  return place;
}

std::int64_t WeatherPass::line_of(std::size_t line) const {
  return static_cast<std::int64_t>(table.places.empty() ? line : table.places.at(line - 1).line);
}

std::vector<std::optional<Date>> days_of_rows(const WeatherPass& pass) {
  const DateColumn dates = dates_as_text(pass);
  const DateOrder order = settled_order(pass, dates);
  std::vector<std::optional<Date>> days;
  std::size_t serials = 0;
  for (std::size_t i = 0; i < dates.text.size(); ++i) {
    const CsvRow& row = pass.table.rows[i];
    const std::string& text = dates.text[i];
    const auto column = pass.columns.date;
    days.push_back(read_date(text, order));
    if (!days.back()) {
      if (const auto serial = as_serial(text, pass.table.epoch_1904)) {
        days.back() = serial->day;
        ++serials;
      }
    }
    const std::string where = pass.where(row.line, column);
    if (!days.back() && repeats_header(pass, row)) {
      pass.findings.add(Severity::note, where, say("intake.header_repeated"));
    } else if (!days.back() && text.empty()) {
      pass.findings.add(Severity::set_aside, where, say("intake.date_missing"));
    } else if (!days.back()) {
      pass.findings.add(Severity::set_aside, where, say("intake.no_date", {{"value", text}}));
    } else if (pass.options.today && *days.back() > *pass.options.today) {
      pass.findings.add(Severity::set_aside, where,
                        say("intake.date_in_future", {{"day", *days.back()}}));
      days.back().reset();
    }
  }
  set_aside_out_of_place(pass, days);
  if (serials > 0) {
    pass.findings.add(Severity::note, pass.name,
                      say("intake.serial_dates",
                          {{"count", static_cast<std::int64_t>(serials)},
                           {"epoch", std::string(pass.table.epoch_1904 ? "1904" : "1900")}}));
  }
  return days;
}

}  // namespace wildling::intake
