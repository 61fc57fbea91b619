// From rows to days.
#include <algorithm>

#include "intake/weather_rows.hpp"

namespace wildling::intake {
namespace {

constexpr double kNaN = std::numeric_limits<double>::quiet_NaN();
constexpr auto kRain = static_cast<std::size_t>(Reading::rain);
constexpr std::chrono::days kDay{1};

bool same(double a, double b) {
  return a == b || (std::isnan(a) && std::isnan(b));
}

bool twins(const WeatherRow& a, const WeatherRow& b) {
  for (std::size_t k = 0; k < kReadings; ++k) {
    if (!same(a.value[k], b.value[k])) return false;
  }
  return a.days == b.days && a.trace == b.trace && a.bracket == b.bracket;
}

bool says_rain(const WeatherRow& row) {
  return !std::isnan(row.value[kRain]) || row.bracket;
}

void take_rain_marks(const WeatherRow& from, WeatherRow& to) {
  to.days = from.days;
  to.trace = from.trace;
  to.bracket = from.bracket;
  to.accumulated = from.accumulated;
}

// One row for the day: twins dropped; a reading that rows give differently is set aside.
WeatherRow one_of(const WeatherPass& pass, Date day, std::vector<WeatherRow>& rows) {
  WeatherRow result = rows.front();
  for (std::size_t i = 1; i < rows.size(); ++i) {
    if (twins(rows[i], rows.front())) {
      rows[i].used = false;
      pass.findings.add(
          Severity::note, pass.where(rows[i].line),
          say("intake.twin_dropped", {{"day", day}, {"line", pass.line_of(rows.front().line)}}));
      continue;
    }
    if (!says_rain(rows.front()) && says_rain(rows[i])) take_rain_marks(rows[i], result);
    for (std::size_t k = 0; k < kReadings; ++k) {
      const double other = rows[i].value[k];
      const bool rain = k == kRain && says_rain(rows.front()) && says_rain(rows[i]);
      const bool differs = !std::isnan(other) && !std::isnan(rows.front().value[k]) &&
                           other != rows.front().value[k];
      if (std::isnan(rows.front().value[k])) {
        result.value[k] = rows.front().value[k] = other;
      }
      if (!differs && !(rain && rows[i].days != result.days)) continue;
      const auto reading = static_cast<Reading>(k);
      pass.findings.add(Severity::set_aside,
                        pass.where(rows[i].line, pass.columns.readings.at(reading).at),
                        say("intake.day_conflict", {{"day", day},
                                                    {"one", rows.front().value[k]},
                                                    {"line", pass.line_of(rows.front().line)},
                                                    {"other", other}}),
                        std::string(reading_name(reading)));
      result.value[k] = kNaN;
      if (rain) result.trace = false;
    }
  }
  const bool any = std::any_of(result.value.begin(), result.value.end(),
                               [](double v) { return !std::isnan(v); });
  if (rows.size() > 1 && !any) {
    const bool all_blank = std::none_of(rows.begin() + 1, rows.end(), [&](const WeatherRow& row) {
      return !twins(row, rows.front());
    });
    for (WeatherRow& row : rows) row.used = row.used && all_blank;
  }
  return result;
}

std::vector<double>& column_of(climate::DailyWeather& daily, Reading reading) {
  switch (reading) {
    case Reading::rain:
      return daily.rain_mm;
    case Reading::tmax:
      return daily.tmax_c;
    case Reading::tmin:
      return daily.tmin_c;
    case Reading::rh_max:
      return daily.rh_max_pct;
    case Reading::rh_min:
      return daily.rh_min_pct;
    case Reading::rh_mean:
      return daily.rh_mean_pct;
    case Reading::wind:
      return daily.wind_m_s;
    default:
      return daily.sun_h;
  }
}

std::size_t place(const climate::DailyWeather& daily, Date day) {
  return static_cast<std::size_t>((day - daily.first).count());
}

struct Total {
  climate::RainTotal catch_of;
  std::size_t line = 0;
};

// Refused when a day it covers has its own reading or belongs to another catch.
bool add_total(const WeatherPass& pass, const Total& total, WeatherFile& file) {
  climate::DailyWeather& daily = file.daily;
  const climate::RainTotal& t = total.catch_of;
  for (Date day = t.first; day <= t.last; day += kDay) {
    if (std::isnan(daily.rain_mm[place(daily, day)])) continue;
    pass.findings.add(Severity::set_aside, pass.where(total.line),
                      say("intake.total_covers_reading", {{"total", t.total_mm}, {"day", day}}));
    return false;
  }
  if (!daily.totals.empty() && daily.totals.back().last >= t.first) {
    pass.findings.add(Severity::set_aside, pass.where(total.line),
                      say("intake.total_outside", {{"total", t.total_mm}, {"day", t.first}}));
    return false;
  }
  daily.totals.push_back(t);
  file.total_places.push_back(pass.where(total.line));
  pass.findings.add(
      Severity::note, pass.where(total.line),
      say("intake.total_kept", {{"total", t.total_mm}, {"first", t.first}, {"last", t.last}}));
  return true;
}

std::optional<Total> total_of(const DayRow& day, std::chrono::days shift) {
  const double mm = day.row.value[kRain];
  if (day.row.days < 2 || std::isnan(mm)) return {};
  const Date last = day.day - shift;
  return Total{{last - std::chrono::days(day.row.days - 1), last, mm}, day.row.line};
}

void lay_out(const WeatherPass& pass, const std::vector<DayRow>& days, std::chrono::days shift,
             WeatherFile& file) {
  climate::DailyWeather& daily = file.daily;
  daily.first = days.front().day - shift;
  for (const DayRow& day : days) {
    if (const auto total = total_of(day, shift))
      daily.first = std::min(daily.first, total->catch_of.first);
  }
  const auto n = static_cast<std::size_t>((days.back().day - daily.first).count()) + 1;
  daily.rain_mm.assign(n, kNaN);
  file.places.assign(n, {});
  for (const auto& [reading, column] : pass.columns.readings) {
    column_of(daily, reading).assign(n, kNaN);
  }
}

void put_day(const WeatherPass& pass, const DayRow& day, std::chrono::days shift,
             WeatherFile& file) {
  for (const auto& [reading, column] : pass.columns.readings) {
    const bool rain = reading == Reading::rain;
    if (rain && day.row.days > 1) continue;
    const std::size_t i = place(file.daily, rain ? day.day - shift : day.day);
    const double value = day.row.value[static_cast<std::size_t>(reading)];
    column_of(file.daily, reading)[i] = value;
    if (!std::isnan(value)) file.places[i] = pass.where(day.row.line);
  }
  file.trace_days += day.row.trace ? 1U : 0U;
}

bool has_other_readings(const WeatherRow& row) {
  for (std::size_t k = 0; k < kReadings; ++k) {
    if (k != kRain && !std::isnan(row.value[k])) return true;
  }
  return false;
}

}  // namespace

void fill_days(const WeatherPass& pass, RowsByDay& rows, WeatherFile& file) {
  const auto shift = std::chrono::days(pass.options.read_next_morning ? 1 : 0);
  std::vector<DayRow> days;
  for (auto& [day, same_day] : rows) {
    DayRow one;
    one.day = day;
    one.row = one_of(pass, day, same_day);
    days.push_back(one);
  }
  join_catches(pass, days);
  lay_out(pass, days, shift, file);
  for (const DayRow& day : days) put_day(pass, day, shift, file);
  for (DayRow& day : days) {
    const auto total = total_of(day, shift);
    if (total && !add_total(pass, *total, file)) day.refused = true;
    std::vector<WeatherRow>& same_day = rows[day.day];
    if (day.refused && !has_other_readings(day.row)) {
      for (WeatherRow& row : same_day) row.used = false;
    }
    for (const WeatherRow& each : same_day) (each.used ? file.kept : file.set_aside) += 1;
  }
}

}  // namespace wildling::intake
