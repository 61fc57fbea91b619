// The keeper's own sums against the days that were read.
#include <cmath>
#include <map>

#include "base/parameters.hpp"
#include "intake/number_reading.hpp"
#include "intake/weather_matrix.hpp"
#include "intake/weather_rows.hpp"

namespace wildling::intake {
namespace {

using MonthSums = std::map<std::pair<int, int>, double>;

std::pair<int, int> month_key(Date day) {
  return {year_of(day), static_cast<int>(month_of(day))};
}

// By the days as the book has them: a reading of the next morning stands a day later there.
MonthSums month_sums(const climate::DailyWeather& daily, std::chrono::days shift) {
  MonthSums sums;
  for (std::size_t i = 0; i < daily.days(); ++i) {
    if (!std::isnan(daily.rain_mm[i])) sums[month_key(daily.day(i) + shift)] += daily.rain_mm[i];
  }
  for (const climate::RainTotal& total : daily.totals) {
    sums[month_key(total.last + shift)] += total.total_mm;
  }
  return sums;
}

}  // namespace

void compare_sums(const std::vector<BookSum>& sums, const climate::DailyWeather& daily,
                  const WeatherOptions& options, const ReadingColumn& unit, const std::string& name,
                  AlikeFindings& findings) {
  const double most = shipped_parameters().value("intake.weather.book_sum_differs");
  const auto months = month_sums(daily, std::chrono::days(options.read_next_morning ? 1 : 0));
  std::int64_t agree = 0, compared = 0;
  for (const BookSum& sum : sums) {
    const auto number = read_number(sum.value, options.decimal.value_or('.'));
    const auto month = months.find({sum.year, sum.month});
    if (!number || month == months.end()) continue;
    const double book = (*number - unit.zero) * unit.factor;
    ++compared;
    if (std::abs(book - month->second) <= most * std::max(1.0, unit.factor)) {
      ++agree;
      continue;
    }
    const std::string sheet = sum.place.sheet.empty() ? "" : ", sheet " + sum.place.sheet;
    findings.add(
        Severity::note,
        name + sheet + ":" + std::to_string(sum.place.line) + ", column " + sum.place.column,
        say("intake.book_sum_differs",
            {{"month", make_date(sum.year, static_cast<unsigned>(sum.month), 1)},
             {"book", book},
             {"days", month->second}}));
  }
  if (compared == 0) return;
  findings.add(Severity::note, name,
               say("intake.book_sums", {{"agree", agree}, {"compared", compared}}));
}

void question_sums_among_days(const WeatherFile& file, const std::string& name,
                              AlikeFindings& findings) {
  const climate::DailyWeather& daily = file.daily;
  const double most = shipped_parameters().value("intake.weather.book_sum_differs");
  std::size_t total = 0;
  double sum = 0;
  int wet = 0;
  for (std::size_t i = 0; i < daily.days(); ++i) {
    if (day_of_month(daily.day(i)) == 1) {
      sum = 0;
      wet = 0;
    }
    double mm = daily.rain_mm[i];
    if (mm > 0 && wet >= 3 && std::abs(mm - sum) <= most) {
      findings.add(Severity::note, file.places[i].empty() ? name : file.places[i],
                   say("intake.sum_among_days", {{"value", mm}, {"day", daily.day(i)}}));
    }
    if (total < daily.totals.size() && daily.totals[total].last == daily.day(i))
      mm = daily.totals[total++].total_mm;
    if (!(mm > 0)) continue;
    sum += mm;
    ++wet;
  }
}

}  // namespace wildling::intake
