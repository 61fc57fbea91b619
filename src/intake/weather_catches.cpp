// Which days a catch covers, where the book says it by a bracket or a word.
#include <algorithm>

#include "base/parameters.hpp"
#include "intake/weather_rows.hpp"

namespace wildling::intake {
namespace {

constexpr double kNaN = std::numeric_limits<double>::quiet_NaN();
constexpr auto kRain = static_cast<std::size_t>(Reading::rain);

bool has_rain(const DayRow& day) {
  return !std::isnan(day.row.value[kRain]);
}

void refuse(const WeatherPass& pass, DayRow& day, Message message) {
  pass.findings.add(Severity::set_aside, pass.where(day.row.line), std::move(message));
  day.row.value[kRain] = kNaN;
  day.row.days = 1;
  day.row.trace = false;
  day.refused = true;
}

bool follows(const std::vector<DayRow>& rows, std::size_t i) {
  return i > 0 && rows[i].day - rows[i - 1].day == std::chrono::days(1);
}

// rows[begin, end) carry brackets, day after day.
void join_run(const WeatherPass& pass, std::vector<DayRow>& rows, std::size_t begin,
              std::size_t end) {
  std::size_t catches = 0;
  for (std::size_t i = begin; i < end; ++i) catches += has_rain(rows[i]) ? 1U : 0U;
  const bool next_holds_it = catches == 0 && end < rows.size() && follows(rows, end) &&
                             has_rain(rows[end]) && rows[end].row.days == 1;
  const std::size_t stop = next_holds_it ? end + 1 : end;
  if (catches > 1 || (catches == 0 && !next_holds_it)) {
    const Message message = say(catches > 1 ? "intake.bracket_several" : "intake.bracket_empty",
                                {{"first", rows[begin].day}, {"last", rows[stop - 1].day}});
    for (std::size_t i = begin; i < stop; ++i) refuse(pass, rows[i], message);
    return;
  }
  if (stop - begin == 1) {  // a bracket at one number only: where it opens was not written
    rows[begin].row.accumulated = true;
    return;
  }
  for (std::size_t i = begin; i + 1 < stop; ++i) {
    if (!has_rain(rows[i])) continue;
    rows[stop - 1].row.value[kRain] = rows[i].row.value[kRain];
    rows[stop - 1].row.line = rows[i].row.line;
    rows[i].row.value[kRain] = kNaN;
  }
  rows[stop - 1].row.days = static_cast<int>(stop - begin);
}

// The days since the last reading.
void reach_back(const WeatherPass& pass, std::vector<DayRow>& rows, std::size_t i, double most) {
  DayRow& day = rows[i];
  std::optional<Date> before;
  for (std::size_t k = i; k-- > 0 && !before;) {
    if (has_rain(rows[k])) before = rows[k].day;
  }
  const double mm = day.row.value[kRain];
  if (!before || static_cast<double>((day.day - *before).count()) > most) {
    refuse(pass, day, say("intake.catch_begins_unknown", {{"total", mm}, {"most", most}}));
    return;
  }
  day.row.days = static_cast<int>((day.day - *before).count());
  if (day.row.days > 1) return;
  pass.findings.add(Severity::note, pass.where(day.row.line),
                    say("intake.catch_of_one_day", {{"total", mm}, {"day", *before}}));
}

}  // namespace

void join_catches(const WeatherPass& pass, std::vector<DayRow>& rows) {
  for (std::size_t i = 0; i < rows.size();) {
    std::size_t end = i;
    while (end < rows.size() && rows[end].row.bracket && (end == i || follows(rows, end))) ++end;
    if (end > i) join_run(pass, rows, i, end);
    i = std::max(end, i + 1);
  }
  const double most = shipped_parameters().value("intake.weather.total_days_most");
  for (std::size_t i = 0; i < rows.size(); ++i) {
    if (rows[i].row.accumulated && has_rain(rows[i])) reach_back(pass, rows, i, most);
    if (rows[i].row.days <= most || !has_rain(rows[i])) continue;
    refuse(pass, rows[i],
           say("intake.total_days", {{"value", std::to_string(rows[i].row.days)}, {"most", most}}));
  }
}

}  // namespace wildling::intake
