#include <algorithm>
#include <array>
#include <cmath>

#include "climate/outlook.hpp"
#include "climate/outlook_runs.hpp"

namespace wildling::climate {
namespace {

using detail::RunLog;
constexpr std::array<int, 1> kNow = {0};

struct Runner {
  const RunLog& log;
  std::vector<PitDay> states;  // end of each day
  int look;

  bool judged(std::size_t begin) const {
    const std::size_t end = begin + static_cast<std::size_t>(look);
    return end <= log.rain_mm.size() && log.missing_before[end] - log.missing_before[begin] <=
                                            detail::missing_allowed(log, look);
  }

  bool good(const PitDay& state, std::size_t begin) const {
    const auto length = static_cast<std::size_t>(look);
    return detail::good_after(state, std::span(log.rain_mm).subspan(begin, length),
                              std::span(log.et0_mm).subspan(begin, length), kNow, log)[0] != 0;
  }
};

// Forecast of one day from the years that had ended their look-ahead by then.
std::optional<HindcastDay> advise(const Runner& run, Date day, std::size_t at,
                                  const Parameters& p) {
  if (!run.judged(at + 1)) return {};
  HindcastDay result{day, 0, 0, 0, run.good(run.states[at], at + 1)};
  int forecast = 0, usual = 0;
  for (int year = year_of(run.log.first); year < year_of(day); ++year) {
    const auto then = detail::same_day(run.log, day, year);
    if (!then || !run.judged(*then + 1) || *then + 1 + static_cast<std::size_t>(run.look) > at)
      continue;
    ++result.years;
    forecast += run.good(run.states[at], *then + 1) ? 1 : 0;
    usual += run.good(run.states[*then], *then + 1) ? 1 : 0;
  }
  if (result.years < p.value("climate.hindcast.years_least")) return {};
  result.forecast = static_cast<double>(forecast) / result.years;
  result.usual = static_cast<double>(usual) / result.years;
  return result;
}

void score(Hindcast& h) {
  h.reliability.resize(5);
  for (std::size_t b = 0; b < 5; ++b) {
    h.reliability[b].from = 0.2 * static_cast<double>(b);
    h.reliability[b].to = 0.2 * static_cast<double>(b + 1);
  }
  for (const HindcastDay& d : h.days) {
    const double o = d.good ? 1 : 0;
    h.brier += (d.forecast - o) * (d.forecast - o);
    h.brier_usual += (d.usual - o) * (d.usual - o);
    ReliabilityBin& bin =
        h.reliability[std::min<std::size_t>(4, static_cast<std::size_t>(d.forecast * 5))];
    ++bin.days;
    bin.sum_forecast += d.forecast;
    bin.sum_good += o;
  }
  const auto n = static_cast<double>(h.days.size());
  h.brier /= n;
  h.brier_usual /= n;
  h.skill = h.brier_usual > 0 ? 1 - h.brier / h.brier_usual : 0;
  for (ReliabilityBin& bin : h.reliability) {
    if (bin.days == 0) continue;
    bin.mean_forecast = bin.sum_forecast / bin.days;
    bin.share_good = bin.sum_good / bin.days;
  }
}

}  // namespace

Hindcast hindcast(const WeatherBook& book, const Parameters& p) {
  check(book);
  const RunLog log = detail::run_log(book, p);
  const Runner run{log, detail::states_of(log), log.rules.look_ahead_days};
  Hindcast h;
  const Date last = book.daily.last();
  for (int year = year_of(log.first); year <= year_of(last); ++year) {
    for (int period = 0; period < 36; ++period) {
      const Date day = ten_day_period_start(year, period) + std::chrono::days(4);
      const auto at = book.daily.index(day);
      if (!at) continue;
      if (const auto advised = advise(run, day, *at, p)) h.days.push_back(*advised);
    }
  }
  const double needed = p.value("climate.hindcast.days_least");
  if (static_cast<double>(h.days.size()) < needed) {
    h.refused = say("climate.hindcast_refused",
                    {{"days", static_cast<std::int64_t>(h.days.size())}, {"needed", needed}});
    h.first_line = *h.refused;
    return h;
  }
  score(h);
  const char* key = h.skill > p.value("climate.hindcast.skill_good") ? "climate.hindcast_good"
                    : h.skill > 0                                    ? "climate.hindcast_little"
                                                                     : "climate.hindcast_none";
  h.first_line = say(key, {{"days", static_cast<std::int64_t>(h.days.size())},
                           {"skill", h.skill},
                           {"brier", h.brier},
                           {"usual", h.brier_usual}});
  return h;
}

}  // namespace wildling::climate
