#include "plan/season.hpp"

#include <cmath>

namespace wildling::plan {
namespace {

Date period_last_day(int year, int period) {
  return period == 35 ? make_date(year, 12, 31)
                      : ten_day_period_start(year, period + 1) - std::chrono::days(1);
}

// The first occurrence that begins on or after `earliest`; one that is running on it counts when
// `running` is set.
void set_days(WindowPart& part, Date earliest, bool running) {
  for (int year = year_of(earliest) - 1; year <= year_of(earliest) + 2; ++year) {
    const Date first = ten_day_period_start(year, part.first_period);
    const Date last =
        period_last_day(part.last_period < part.first_period ? year + 1 : year, part.last_period);
    if (running ? last < earliest : first < earliest) continue;
    part.first = std::max(first, earliest);
    part.last = last;
    return;
  }
}

void set_log(WindowPart& part, const climate::WeatherBook& book) {
  part.has_log = true;
  part.station = book.station.name;
  part.days_in_log = static_cast<int>(book.daily.days());
  for (const double rain : book.daily.rain_mm) part.days_missing += std::isnan(rain) ? 1 : 0;
  part.log_first = book.daily.first;
  part.log_last = book.daily.last();
}

Date next_start_of_month(Date today, unsigned month) {
  const Date this_year = make_date(year_of(today), month, 1);
  return this_year >= today ? this_year : make_date(year_of(today) + 1, month, 1);
}

unsigned wettest_month(const std::array<climate::MonthNormal, 12>& normals) {
  unsigned wettest = 0;
  double most = -1;
  for (unsigned m = 0; m < 12; ++m) {
    if (normals[m].rain_mean_mm > most) {
      most = normals[m].rain_mean_mm;
      wettest = m + 1;
    }
  }
  return wettest;
}

// What a manager must know at once; the rest stands in the result and the workings.
bool for_letter(const Message& caveat) {
  for (const char* key : {"climate.killing_assumed", "climate.rain_away", "climate.rain_told",
                          "climate.window_few_years", "climate.window_whole_year"}) {
    if (caveat.key == key) return true;
  }
  return false;
}

}  // namespace

void choose_season(WindowPart& window, bool all_ready, const Parameters& parameters, Date today) {
  if (all_ready || !window.first) return;
  if (*window.first <= today) window.open_until = window.last;
  set_days(window, add_months(today, static_cast<int>(parameters.value("plan.raise_months"))),
           false);
}

WindowPart window_part(const Programme& programme, Date today) {
  WindowPart part;
  if (!programme.weather) {
    part.first_line = say("plan.window_no_log");
    return part;
  }
  set_log(part, *programme.weather);
  const climate::WindowResult result =
      climate::planting_windows(*programme.weather, programme.parameters);
  const climate::PlantingWindow& window = result.window;
  part.et0_low_mm_d = result.et0_low_mm_d;
  part.et0_high_mm_d = result.et0_high_mm_d;
  part.et0_assumed = result.et0_assumed;
  part.first_line = window.first_line;
  part.refused = window.refused;
  for (const Message& caveat : window.caveats)
    (for_letter(caveat) ? part.caveats : part.details).push_back(caveat);
  part.good_years = window.good_years;
  part.of_years = window.of_years;
  part.share_low = window.share_low;
  part.share_high = window.share_high;
  part.found = window.enough_data && window.found && window.first_period >= 0;
  for (const climate::PeriodRecord& record : result.periods) {
    part.periods.push_back(
        {record.period, record.years_without_killing_spell, record.years_judged});
  }
  part.first_period = window.first_period;
  part.last_period = window.last_period;
  if (part.found) set_days(part, today, true);
  if (today - *part.log_last > std::chrono::days(31)) {
    part.caveats.push_back(say(
        "plan.log_ended", {{"day", *part.log_last},
                           {"days", static_cast<std::int64_t>((today - *part.log_last).count())}}));
  }
  return part;
}

std::array<climate::MonthNormal, 12> normals_of(const Programme& programme) {
  if (programme.weather) return climate::month_normals(*programme.weather, programme.parameters);
  std::array<climate::MonthNormal, 12> none{};
  for (int m = 0; m < 12; ++m) {
    climate::MonthNormal& normal = none[static_cast<std::size_t>(m)];
    normal.month = m + 1;
    normal.rain_mean_mm = normal.rain_median_mm = normal.rain_least_mm = normal.rain_most_mm =
        std::nan("");
    normal.rain_days_mean = normal.et0_mean_mm_d = std::nan("");
  }
  return none;
}

PlantingDays planting_days(const WindowPart& window, const Programme& programme, Date today) {
  if (window.first) return {*window.first, *window.last, false};
  const unsigned month = wettest_month(normals_of(programme));
  const int raise_months = static_cast<int>(programme.parameters.value("plan.raise_months"));
  const Date earliest = add_months(today, raise_months);
  const Date first = month > 0 ? next_start_of_month(earliest, month) : earliest;
  const auto days = static_cast<int>(programme.parameters.value("plan.window_unknown_days"));
  return {first, first + std::chrono::days(days - 1), true};
}

}  // namespace wildling::plan
