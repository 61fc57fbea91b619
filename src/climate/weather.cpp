#include "climate/weather.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/error.hpp"

namespace wildling::climate {
namespace {

void check_column(const std::vector<double>& column, const WeatherBook& book, const char* name) {
  if (column.empty() || column.size() == book.daily.days()) return;
  throw Error(
      ErrorKind::input, book.station.name,
      say("climate.column_length", {{"column", std::string(name)},
                                    {"found", static_cast<std::int64_t>(column.size())},
                                    {"days", static_cast<std::int64_t>(book.daily.days())}}));
}

void check_rain(const WeatherBook& book) {
  const DailyWeather& daily = book.daily;
  for (std::size_t i = 0; i < daily.days(); ++i) {
    const double rain = daily.rain_mm[i];
    if (std::isnan(rain) || (rain >= 0 && std::isfinite(rain))) continue;
    throw Error(ErrorKind::input, book.station.name,
                say("climate.rain_impossible", {{"day", daily.day(i)}, {"value", rain}}));
  }
}

}  // namespace

std::optional<std::size_t> DailyWeather::index(Date wanted) const {
  if (wanted < first || wanted >= day(days())) return {};
  return static_cast<std::size_t>((wanted - first).count());
}

void check(const WeatherBook& book) {
  const DailyWeather& daily = book.daily;
  if (daily.days() == 0) throw Error(ErrorKind::input, book.station.name, say("climate.log_empty"));
  check_column(daily.tmax_c, book, "tmax_c");
  check_column(daily.tmin_c, book, "tmin_c");
  check_column(daily.rh_max_pct, book, "rh_max_pct");
  check_column(daily.rh_min_pct, book, "rh_min_pct");
  check_column(daily.rh_mean_pct, book, "rh_mean_pct");
  check_column(daily.wind_m_s, book, "wind_m_s");
  check_column(daily.sun_h, book, "sun_h");
  check_rain(book);
  for (const RainTotal& total : daily.totals) {
    if (total.first <= total.last && daily.index(total.first) && daily.index(total.last)) continue;
    throw Error(ErrorKind::input, book.station.name,
                say("climate.total_outside", {{"first", total.first}, {"last", total.last}}));
  }
}

double at_or_missing(const std::vector<double>& column, std::size_t i) {
  return i < column.size() ? column[i] : std::numeric_limits<double>::quiet_NaN();
}

namespace detail {

std::vector<int> days_of_year(const DailyWeather& daily) {
  std::vector<int> days;
  days.reserve(daily.days());
  while (days.size() < daily.days()) {
    const Date day = daily.day(days.size());
    const Date next_year = make_date(year_of(day) + 1, 1, 1);
    const int to = day_of_year(day) + static_cast<int>((next_year - day).count());
    for (int j = day_of_year(day); j < to && days.size() < daily.days(); ++j) days.push_back(j);
  }
  return days;
}

std::vector<char> months_of(const DailyWeather& daily) {
  std::vector<char> months;
  months.reserve(daily.days());
  while (months.size() < daily.days()) {
    const Date day = daily.day(months.size());
    const unsigned left = days_in_month(year_of(day), month_of(day)) - day_of_month(day) + 1;
    const std::size_t n = std::min<std::size_t>(left, daily.days() - months.size());
    months.insert(months.end(), n, static_cast<char>(month_of(day)));
  }
  return months;
}

}  // namespace detail
}  // namespace wildling::climate
