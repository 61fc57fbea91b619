#include "climate/outlook.hpp"

#include <algorithm>
#include <cmath>

#include "climate/et0_series.hpp"
#include "climate/log_age.hpp"
#include "climate/normals.hpp"
#include "climate/outlook_runs.hpp"
#include "stat/interval.hpp"

namespace wildling::climate {
namespace detail {

RunLog run_log(const WeatherBook& book, const Parameters& parameters) {
  RunLog log{book.daily.first,
             rain_to_use(book.daily),
             et0_series(book, parameters, {}).high_mm,
             {0},
             pit_settings(parameters),
             window_rules(parameters),
             0};
  log.killing_below_mm = log.rules.killing_share * log.pit.ball_holds_mm;
  for (const double r : book.daily.rain_mm)
    log.missing_before.push_back(log.missing_before.back() + (std::isnan(r) ? 1 : 0));
  return log;
}

std::vector<PitDay> states_of(const RunLog& log) {
  std::vector<PitDay> states;
  states.reserve(log.rain_mm.size());
  PitDay day{log.pit.ball_holds_mm, log.pit.hole_holds_mm};
  for (std::size_t i = 0; i < log.rain_mm.size(); ++i) {
    pit_step(day, log.rain_mm[i], log.et0_mm[i], log.pit);
    states.push_back(day);
  }
  return states;
}

std::vector<char> good_after(PitDay day, std::span<const double> rain_mm,
                             std::span<const double> et0_mm, std::span<const int> delays,
                             const RunLog& log) {
  std::vector<char> good(delays.size(), 1);
  const int look = log.rules.look_ahead_days, killing = log.rules.killing_days;
  int run = 0;
  for (int i = 0; i < delays.back() + look; ++i) {
    const auto k = static_cast<std::size_t>(i);
    pit_step(day, rain_mm[k], et0_mm[k], log.pit);
    run = day.ball_mm < log.killing_below_mm ? run + 1 : 0;
    if (run < killing) continue;
    for (std::size_t d = 0; d < delays.size(); ++d) {
      if (i + 1 - killing >= delays[d] && i < delays[d] + look) good[d] = 0;
    }
  }
  return good;
}

std::optional<std::size_t> same_day(const RunLog& log, Date day, int year) {
  const unsigned month = month_of(day);
  const unsigned d = std::min(day_of_month(day), days_in_month(year, month));
  const auto offset = (make_date(year, month, d) - log.first).count();
  if (offset < 0 || offset >= static_cast<long>(log.rain_mm.size())) return {};
  return static_cast<std::size_t>(offset);
}

int missing_allowed(const RunLog& log, int days) {
  return log.rules.missing_days_most * days / (log.rules.look_ahead_days + log.rules.spin_up_days);
}

}  // namespace detail

namespace {

using detail::RunLog;

PitDay state_on(const RunLog& log, std::size_t days, SoilSeen soil, const Parameters& p) {
  PitDay day{log.pit.ball_holds_mm, log.pit.hole_holds_mm};
  for (std::size_t i = 0; i < days; ++i) {
    const bool known = i < log.rain_mm.size();
    pit_step(day, known ? log.rain_mm[i] : 0, log.et0_mm[std::min(i, log.et0_mm.size() - 1)],
             log.pit);
  }
  const double moist = p.value("climate.spade.moist_share"),
               dry = p.value("climate.spade.dry_share");
  if (soil == SoilSeen::moist_to_bottom) {
    day.hole_mm = std::max(day.hole_mm, moist * log.pit.hole_holds_mm);
    day.ball_mm = std::max(day.ball_mm, moist * log.pit.ball_holds_mm);
  } else if (soil == SoilSeen::dry) {
    day.hole_mm = std::min(day.hole_mm, dry * log.pit.hole_holds_mm);
    day.ball_mm = std::min(day.ball_mm, dry * log.pit.ball_holds_mm);
  }
  return day;
}

void add_analogues(Outlook& outlook, const RunLog& log, const PitDay& state,
                   const std::vector<int>& delays) {
  const int needed = delays.back() + log.rules.look_ahead_days;
  const Date last = log.first + std::chrono::days(static_cast<int>(log.rain_mm.size()) - 1);
  for (int year = year_of(log.first); year <= year_of(last); ++year) {
    const auto at = detail::same_day(log, outlook.today, year);
    if (!at || log.first + std::chrono::days(static_cast<int>(*at) + needed) > outlook.today)
      continue;
    const std::size_t begin = *at + 1, end = begin + static_cast<std::size_t>(needed);
    if (end > log.rain_mm.size()) continue;
    if (log.missing_before[end] - log.missing_before[begin] > detail::missing_allowed(log, needed))
      continue;
    const auto length = static_cast<std::size_t>(needed);
    const auto good = detail::good_after(state, std::span(log.rain_mm).subspan(begin, length),
                                         std::span(log.et0_mm).subspan(begin, length), delays, log);
    for (std::size_t d = 0; d < delays.size(); ++d) {
      OutlookDelay& delay = outlook.delays[d];
      ++delay.judged;
      if (good[d] != 0) ++delay.good;
      (good[d] != 0 ? delay.good_years : delay.bad_years).push_back(year);
    }
  }
}

void add_simulations(Outlook& outlook, const WeatherBook& book, const RunLog& log,
                     const PitDay& state, const OutlookSettings& settings,
                     const Parameters& parameters) {
  if (settings.simulations <= 0) return;
  const ModelFit fit = fit_weather(book.daily, parameters);
  if (!fit.model) {
    outlook.caveats.push_back(*fit.refused);
    return;
  }
  const int needed = settings.delays.back() + log.rules.look_ahead_days;
  std::vector<double> et0;
  for (int i = 1; i <= needed; ++i) {
    const auto at =
        detail::same_day(log, outlook.today + std::chrono::days(i), year_of(log.first) + 1);
    et0.push_back(log.et0_mm[at.value_or(log.et0_mm.size() - 1)]);
  }
  const std::size_t n = log.rain_mm.size();
  const std::vector<double> start(
      log.rain_mm.begin() + static_cast<std::ptrdiff_t>(n - std::min<std::size_t>(3, n)),
      log.rain_mm.end());
  for (int s = 0; s < settings.simulations; ++s) {
    const DailyWeather made = generate(*fit.model, outlook.today + std::chrono::days(1), needed,
                                       start, settings.seed, static_cast<std::uint64_t>(s));
    const auto good = detail::good_after(state, made.rain_mm, et0, settings.delays, log);
    for (std::size_t d = 0; d < good.size(); ++d) {
      ++outlook.delays[d].simulated;
      outlook.delays[d].simulated_good += good[d];
    }
  }
}

void add_recent_rain(Outlook& outlook, const DailyWeather& daily,
                     const std::vector<double>& rain_mm, const Parameters& p) {
  const Date until = std::min(outlook.today, daily.last());
  const SinceRain since = days_since_rain(daily, until, p.value("climate.fire.useful_rain_mm"));
  if (since.days)
    outlook.days_since_useful_rain =
        *since.days + static_cast<int>((outlook.today - until).count());
  const auto in_a_total = [&](Date day) {
    return std::any_of(daily.totals.begin(), daily.totals.end(),
                       [&](const RainTotal& t) { return t.first <= day && day <= t.last; });
  };
  for (int back = 0; back < 14; ++back) {
    const Date day = outlook.today - std::chrono::days(back);
    const auto i = daily.index(day);
    if (i) outlook.rain_14_days_mm += rain_mm[*i];
    if (!i || (std::isnan(daily.rain_mm[*i]) && !in_a_total(day))) ++outlook.missing_14_days;
  }
}

}  // namespace

Outlook planting_outlook(const WeatherBook& book, Date today, SoilSeen soil,
                         const OutlookSettings& settings, const Parameters& p) {
  check(book);
  Outlook outlook;
  outlook.today = today;
  const bool inside = book.daily.index(today).has_value();
  outlook.refused = inside ? std::nullopt : no_advice_for(book.daily, today, p);
  const RunLog log = detail::run_log(book, p);
  outlook.ball_holds_mm = log.pit.ball_holds_mm;
  outlook.hole_holds_mm = log.pit.hole_holds_mm;
  if (outlook.refused) {
    outlook.first_line = *outlook.refused;
    return outlook;
  }
  const PitDay state =
      state_on(log, static_cast<std::size_t>((today - log.first).count()) + 1, soil, p);
  outlook.ball_mm = state.ball_mm;
  outlook.hole_mm = state.hole_mm;
  for (const int d : settings.delays) outlook.delays.push_back({d, 0, 0, {}, {}, 0, 0, 0, 0});
  add_recent_rain(outlook, book.daily, log.rain_mm, p);
  add_analogues(outlook, log, state, settings.delays);
  for (OutlookDelay& d : outlook.delays) {
    const stat::Interval limits = stat::wilson(d.good, d.judged);
    d.share_low = limits.low;
    d.share_high = limits.high;
  }
  add_simulations(outlook, book, log, state, settings, p);
  const OutlookDelay& now = outlook.delays.front();
  outlook.first_line =
      now.judged == 0 ? say("climate.outlook_no_years")
                      : say("climate.outlook_today",
                            {{"good", std::int64_t{now.good}}, {"of", std::int64_t{now.judged}}});
  outlook.caveats.push_back(say("climate.outlook_not_survival"));
  return outlook;
}

}  // namespace wildling::climate
