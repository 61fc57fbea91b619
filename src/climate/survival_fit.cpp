#include "climate/survival_fit.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "climate/outlook_runs.hpp"
#include "stat/student.hpp"

namespace wildling::climate {
namespace {

constexpr std::array<int, 1> kNow = {0};

enum class Fate { spared, met, unknown };

Fate fate_of(const detail::RunLog& log, const std::vector<PitDay>& states, Date planted) {
  const auto offset = (planted - log.first).count();
  const auto look = static_cast<std::size_t>(log.rules.look_ahead_days);
  if (offset < log.rules.spin_up_days) return Fate::unknown;
  const auto begin = static_cast<std::size_t>(offset);
  if (begin + look > log.rain_mm.size()) return Fate::unknown;
  if (log.missing_before[begin + look] - log.missing_before[begin] >
      detail::missing_allowed(log, log.rules.look_ahead_days))
    return Fate::unknown;
  const bool good =
      detail::good_after(states[begin - 1], std::span(log.rain_mm).subspan(begin, look),
                         std::span(log.et0_mm).subspan(begin, look), kNow, log)[0] != 0;
  return good ? Fate::spared : Fate::met;
}

PlantingGroup group_of(const std::vector<PlantingCount>& counts) {
  PlantingGroup g;
  g.plantings = static_cast<int>(counts.size());
  double sum = 0, square = 0;
  for (const PlantingCount& c : counts) {
    g.seedlings += c.seedlings;
    g.alive += c.alive;
    sum += static_cast<double>(c.alive) / c.seedlings;
  }
  if (counts.empty()) return g;
  g.mean_share = sum / g.plantings;
  for (const PlantingCount& c : counts) {
    const double off = static_cast<double>(c.alive) / c.seedlings - g.mean_share;
    square += off * off;
  }
  g.sd_share = g.plantings > 1 ? std::sqrt(square / (g.plantings - 1)) : 0;
  return g;
}

// Welch (1947), Biometrika 34:28-35.
void compare(SurvivalFit& fit) {
  const double a = fit.spared.sd_share * fit.spared.sd_share / fit.spared.plantings;
  const double b = fit.met.sd_share * fit.met.sd_share / fit.met.plantings;
  fit.difference = fit.spared.mean_share - fit.met.mean_share;
  double reach = 0;
  if (a + b > 0) {
    const double df =
        (a + b) * (a + b) / (a * a / (fit.spared.plantings - 1) + b * b / (fit.met.plantings - 1));
    reach = stat::student_quantile(0.975, df) * std::sqrt(a + b);
  }
  fit.low = fit.difference - reach;
  fit.high = fit.difference + reach;
  fit.fits = fit.low > 0;
}

}  // namespace

SurvivalFit survival_fit(const WeatherBook& book, const std::vector<PlantingCount>& counts,
                         const Parameters& p) {
  const detail::RunLog log = detail::run_log(book, p);
  const std::vector<PitDay> states = detail::states_of(log);
  std::vector<PlantingCount> spared, met;
  SurvivalFit fit;
  for (const PlantingCount& c : counts) {
    const Fate fate = c.seedlings > 0 ? fate_of(log, states, c.planted) : Fate::unknown;
    if (fate == Fate::unknown)
      ++fit.not_judged;
    else
      (fate == Fate::spared ? spared : met).push_back(c);
  }
  fit.spared = group_of(spared);
  fit.met = group_of(met);
  const double least = p.value("climate.survival.plantings_least");
  if (std::min(fit.spared.plantings, fit.met.plantings) < least) {
    fit.first_line = say("climate.survival_few", {{"spared", std::int64_t{fit.spared.plantings}},
                                                  {"met", std::int64_t{fit.met.plantings}},
                                                  {"needed", least}});
    return fit;
  }
  compare(fit);
  fit.first_line = say(fit.fits ? "climate.survival_fits" : "climate.survival_does_not_fit",
                       {{"spared", fit.spared.mean_share},
                        {"met", fit.met.mean_share},
                        {"plantings", std::int64_t{fit.spared.plantings + fit.met.plantings}}});
  return fit;
}

double expected_alive(const SurvivalFit& fit, double good_share) {
  return good_share * fit.spared.mean_share + (1 - good_share) * fit.met.mean_share;
}

}  // namespace wildling::climate
