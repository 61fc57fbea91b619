#include <algorithm>
#include <cmath>
#include <limits>

#include "climate/planting_window.hpp"

namespace wildling::climate {
namespace {

// ends[i]: first day e >= i on which a run of `days` days below the limit is complete; n if none.
std::vector<std::size_t> spell_ends(const std::vector<double>& ball_mm, double below_mm, int days) {
  const std::size_t n = ball_mm.size();
  std::vector<std::size_t> ends(n + 1, n);
  std::vector<int> run(n, 0);
  for (std::size_t i = 0; i < n; ++i) {
    if (ball_mm[i] < below_mm) run[i] = 1 + (i > 0 ? run[i - 1] : 0);
  }
  for (std::size_t i = n; i-- > 0;) ends[i] = run[i] >= days ? i : ends[i + 1];
  return ends;
}

std::vector<int> sums_before(const std::vector<char>& missing) {
  std::vector<int> sums(missing.size() + 1, 0);
  for (std::size_t i = 0; i < missing.size(); ++i) sums[i + 1] = sums[i] + missing[i];
  return sums;
}

struct Log {
  Date first;
  std::size_t days;
  const std::vector<double>& ball_mm;
  std::vector<std::size_t> ends;
  std::vector<int> missing_before;
  const WindowRules& rules;
};

// The days that a planting on `day` is judged by lie inside the log.
bool inside(const Log& log, std::size_t day) {
  return day >= static_cast<std::size_t>(log.rules.spin_up_days) &&
         day + static_cast<std::size_t>(log.rules.look_ahead_days) <= log.days;
}

bool known(const Log& log, std::size_t day) {
  const auto spin = static_cast<std::size_t>(log.rules.spin_up_days);
  const auto look = static_cast<std::size_t>(log.rules.look_ahead_days);
  const int missing = log.missing_before[day + look] - log.missing_before[day - spin];
  return missing <= log.rules.missing_days_most;
}

bool killed(const Log& log, std::size_t day) {
  const auto killing = static_cast<std::size_t>(log.rules.killing_days);
  const auto look = static_cast<std::size_t>(log.rules.look_ahead_days);
  const std::size_t from = day + killing - 1;
  return from < log.days && log.ends[from] < std::min(log.days, day + look);
}

enum class Verdict { outside, failed, met, good };

Verdict judge(const Log& log, std::size_t begin, std::size_t end) {
  if (!inside(log, begin) || !inside(log, end - 1)) return Verdict::outside;
  bool met = false;
  for (std::size_t day = begin; day < end; ++day) {
    if (!known(log, day)) return Verdict::failed;
    met = met || killed(log, day);
  }
  return met ? Verdict::met : Verdict::good;
}

double lowest(const Log& log, std::size_t begin, std::size_t end) {
  const auto look = static_cast<std::size_t>(log.rules.look_ahead_days);
  const auto at = [&](std::size_t i) {
    return log.ball_mm.begin() + static_cast<std::ptrdiff_t>(i);
  };
  return *std::min_element(at(begin), at(std::min(log.days, end - 1 + look)));
}

PeriodCounts count(int period, const Log& log) {
  PeriodCounts counts;
  double sum = 0;
  const Date last = log.first + std::chrono::days(static_cast<int>(log.days) - 1);
  for (int year = year_of(log.first); year <= year_of(last); ++year) {
    const Date begin_day = ten_day_period_start(year, period);
    if (begin_day < log.first) continue;
    const Date end_day =
        period == 35 ? make_date(year + 1, 1, 1) : ten_day_period_start(year, period + 1);
    const auto begin = static_cast<std::size_t>((begin_day - log.first).count());
    const auto end = static_cast<std::size_t>((end_day - log.first).count());
    const Verdict verdict = judge(log, begin, end);
    if (verdict == Verdict::failed) counts.failed.push_back(year);
    if (verdict != Verdict::met && verdict != Verdict::good) continue;
    counts.judged.push_back(year);
    if (verdict == Verdict::good) counts.good.push_back(year);
    sum += lowest(log, begin, end);
  }
  counts.lowest_water_mm = counts.judged.empty() ? std::numeric_limits<double>::quiet_NaN()
                                                 : sum / static_cast<double>(counts.judged.size());
  return counts;
}

}  // namespace

std::vector<PeriodCounts> count_periods(Date first, const std::vector<double>& ball_mm,
                                        const std::vector<char>& missing, double killing_below_mm,
                                        const WindowRules& rules) {
  const Log log{first,
                ball_mm.size(),
                ball_mm,
                spell_ends(ball_mm, killing_below_mm, rules.killing_days),
                sums_before(missing),
                rules};
  std::vector<PeriodCounts> all;
  for (int period = 0; period < 36; ++period) all.push_back(count(period, log));
  return all;
}

}  // namespace wildling::climate
