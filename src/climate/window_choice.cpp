// The window: the best record that holds for at least `shortest_periods` on end; of runs with that
// record the longest, then the one with more good years, then with more water at its lowest, then
// the earlier. A longer run than `longest_periods` is cut to its best part by the same rules.
#include <algorithm>
#include <array>
#include <cmath>

#include "climate/planting_window.hpp"
#include "stat/interval.hpp"

namespace wildling::climate {
namespace {

constexpr int kPeriods = 36;

double share(const PeriodRecord& p) {
  return p.years_judged > 0 ? static_cast<double>(p.years_without_killing_spell) / p.years_judged
                            : 0;
}

const PeriodRecord& around(const std::vector<PeriodRecord>& periods, int p) {
  return periods[static_cast<std::size_t>(p % kPeriods)];
}

struct Run {
  int first = 0, length = 0;
  int good = 0;
  double water = 0;
};

Run run_of(const std::vector<PeriodRecord>& periods, int first, int length) {
  Run run{first, length, 0, 0};
  for (int i = 0; i < length; ++i) {
    const PeriodRecord& p = around(periods, first + i);
    run.good += p.years_without_killing_spell;
    if (!std::isnan(p.lowest_water_mm)) run.water += p.lowest_water_mm;
  }
  return run;
}

bool better(const Run& a, const Run& b) {
  if (a.length != b.length) return a.length > b.length;
  if (a.good != b.good) return a.good > b.good;
  return a.water > b.water;
}

using Mask = std::array<bool, kPeriods>;

Mask at_least(const std::vector<PeriodRecord>& periods, double level, int years_least) {
  Mask mask{};
  for (std::size_t i = 0; i < mask.size(); ++i) {
    mask[i] = periods[i].years_judged >= years_least && share(periods[i]) >= level;
  }
  return mask;
}

Run best_run(const std::vector<PeriodRecord>& periods, const Mask& mask, int longest) {
  Run best;
  for (int first = 0; first < kPeriods; ++first) {
    int length = 0;
    while (length < std::min(longest, kPeriods) &&
           mask[static_cast<std::size_t>((first + length) % kPeriods)]) {
      ++length;
    }
    const Run run = run_of(periods, first, length);
    if (better(run, best)) best = run;
  }
  return best;
}

std::vector<double> levels(const std::vector<PeriodRecord>& periods, const WindowRules& rules) {
  std::vector<double> result;
  for (const PeriodRecord& p : periods) {
    if (p.years_judged >= rules.years_least && share(p) >= rules.least_share)
      result.push_back(share(p));
  }
  std::sort(result.rbegin(), result.rend());
  result.erase(std::unique(result.begin(), result.end()), result.end());
  return result;
}

// The run with the best record, widened on both sides by periods that fall short of it by at most
// `near_best`.
Run widened(const std::vector<PeriodRecord>& periods, const Run& run, double level,
            const WindowRules& rules) {
  const double least = std::max(rules.least_share, level - rules.near_best) - 1e-9;
  const Mask near = at_least(periods, least, rules.years_least);
  int first = run.first, length = run.length;
  while (length < kPeriods && near[static_cast<std::size_t>((first + kPeriods - 1) % kPeriods)]) {
    first = (first + kPeriods - 1) % kPeriods;
    ++length;
  }
  while (length < kPeriods && near[static_cast<std::size_t>((first + length) % kPeriods)]) ++length;
  Run best = run_of(periods, first, std::min(length, rules.longest_periods));
  for (int shift = 1; shift + best.length <= length; ++shift) {
    const Run part = run_of(periods, (first + shift) % kPeriods, best.length);
    if (better(part, best)) best = part;
  }
  return best;
}

Run choose(const std::vector<PeriodRecord>& periods, const WindowRules& rules) {
  Run last;
  for (const double level : levels(periods, rules)) {
    last = best_run(periods, at_least(periods, level, rules.years_least), rules.longest_periods);
    if (last.length >= rules.shortest_periods) return widened(periods, last, level, rules);
  }
  return last;  // no record holds so long: the longest run that passes at all
}

void set_counts(PlantingWindow& window, const PeriodRecord& p) {
  window.good_years = p.years_without_killing_spell;
  window.of_years = p.years_judged;
  const stat::Interval limits = stat::wilson(window.good_years, window.of_years);
  window.share_low = limits.low;
  window.share_high = limits.high;
}

std::map<std::string, Argument> counts(const PlantingWindow& window) {
  return {{"good", std::int64_t{window.good_years}}, {"of", std::int64_t{window.of_years}}};
}

void refuse_short_log(PlantingWindow& window, const WindowRules& rules, int years) {
  window.refused = {say("climate.window_log_short", {{"years", std::int64_t{years}},
                                                     {"needed", std::int64_t{rules.years_least}}}),
                    say("climate.safe_act_today")};
  window.first_line = window.refused.front();
}

void refuse_all(PlantingWindow& window, const std::vector<PeriodRecord>& periods) {
  const int best = best_period(periods);
  set_counts(window, around(periods, best));
  auto arguments = counts(window);
  arguments.insert({{"first", period_first_day(best)}, {"last", period_last_day(best)}});
  window.refused = {say("climate.window_none", arguments), say("climate.safe_act_none")};
  window.first_line = window.refused.front();
}

void describe(PlantingWindow& window, const WindowRules& rules) {
  auto arguments = counts(window);
  arguments.insert({{"first", period_first_day(window.first_period)},
                    {"last", period_last_day(window.last_period)}});
  window.first_line = say("climate.window_found", arguments);
  if (window.whole_year_passes) window.caveats.push_back(say("climate.window_whole_year"));
  if (window.of_years < rules.years_for_plain_words) {
    auto few = counts(window);
    few.insert({{"low", 10 * window.share_low}, {"high", 10 * window.share_high}});
    window.caveats.push_back(say("climate.window_few_years", few));
  }
}

}  // namespace

int best_period(const std::vector<PeriodRecord>& periods) {
  const auto best =
      std::max_element(periods.begin(), periods.end(),
                       [](const auto& a, const auto& b) { return share(a) < share(b); });
  return static_cast<int>(best - periods.begin());
}

Date period_first_day(int period) {
  return ten_day_period_start(2001, period);
}

Date period_last_day(int period) {
  const Date next = period == 35 ? make_date(2002, 1, 1) : ten_day_period_start(2001, period + 1);
  return next - std::chrono::days(1);
}

PlantingWindow choose_window(const std::vector<PeriodRecord>& periods, const WindowRules& rules) {
  PlantingWindow window;
  int most_years = 0;
  for (const PeriodRecord& p : periods) most_years = std::max(most_years, p.years_judged);
  window.enough_data = most_years >= rules.years_least && most_years > 0;
  if (!window.enough_data) {
    refuse_short_log(window, rules, most_years);
    return window;
  }
  const Run run = choose(periods, rules);
  if (run.length == 0) {
    refuse_all(window, periods);
    return window;
  }
  window.found = true;
  window.first_period = run.first;
  window.last_period = (run.first + run.length - 1) % kPeriods;
  const Mask passes = at_least(periods, rules.least_share, rules.years_least);
  window.whole_year_passes = std::all_of(passes.begin(), passes.end(), [](bool b) { return b; });
  const PeriodRecord* weakest = &around(periods, run.first);
  for (int i = 1; i < run.length; ++i) {
    const PeriodRecord& p = around(periods, run.first + i);
    if (share(p) < share(*weakest)) weakest = &p;
  }
  set_counts(window, *weakest);
  describe(window, rules);
  return window;
}

}  // namespace wildling::climate
