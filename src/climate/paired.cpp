#include "climate/paired.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "climate/air.hpp"
#include "climate/et0_series.hpp"
#include "stat/student.hpp"

namespace wildling::climate {
namespace {

double tmax_of(const WeatherBook& book, std::size_t i) {
  return at_or_missing(book.daily.tmax_c, i);
}

// Deficit at Tmax with the day's own vapour pressure; NaN when humidity was not read.
double vpd_of(const WeatherBook& book, std::size_t i) {
  const Et0Input in = et0_input(book, i);
  double ea = std::nan("");
  if (in.rh_min_pct)
    ea = saturation_vapour_pressure_kpa(in.tmax_c) * *in.rh_min_pct / 100;
  else if (in.rh_mean_pct)
    ea = vapour_pressure_from_rh_mean_kpa(in.tmax_c, in.tmin_c, *in.rh_mean_pct);
  return saturation_vapour_pressure_kpa(in.tmax_c) - ea;
}

template <typename Value>
std::optional<PairedDifference> difference(const WeatherBook& open, const WeatherBook& forest,
                                           const Parameters& p, Value value) {
  std::vector<double> sums, counts;
  PairedDifference result;
  for (std::size_t i = 0; i < open.daily.days(); ++i) {
    const auto j = forest.daily.index(open.daily.day(i));
    const double d = j ? value(open, i) - value(forest, *j) : std::nan("");
    if (std::isnan(d)) continue;
    const std::size_t block = i / 10;
    if (sums.size() <= block) sums.resize(block + 1), counts.resize(block + 1);
    sums[block] += d;
    counts[block] += 1;
  }
  std::vector<double> means;
  for (std::size_t b = 0; b < sums.size(); ++b) {
    if (counts[b] < p.value("climate.paired.days_in_block")) continue;
    means.push_back(sums[b] / counts[b]);
    result.parts.push_back(
        {open.daily.day(10 * b), static_cast<int>(counts[b]), sums[b] / counts[b]});
    result.days += result.parts.back().days;
  }
  result.blocks = static_cast<int>(means.size());
  if (result.blocks < p.value("climate.paired.blocks_least")) return {};
  double sum = 0;
  for (const double m : means) sum += m;
  result.mean = sum / result.blocks;
  const double reach = detail::student_reach(means);
  result.low = result.mean - reach;
  result.high = result.mean + reach;
  return result;
}

}  // namespace

PairedResult paired_stations(const WeatherBook& open, const WeatherBook& forest,
                             const Parameters& p) {
  PairedResult result;
  result.tmax_c = difference(open, forest, p, tmax_of);
  result.vpd_kpa = difference(open, forest, p, vpd_of);
  if (!result.tmax_c) {
    result.refused =
        say("climate.paired_refused", {{"needed", p.value("climate.paired.blocks_least")}});
    result.first_line = *result.refused;
    return result;
  }
  const PairedDifference& d = *result.tmax_c;
  const char* key = d.low > 0
                        ? "climate.paired_cooler"
                        : (d.high < 0 ? "climate.paired_warmer" : "climate.paired_cannot_tell");
  result.first_line = say(
      key, {{"mean", d.mean}, {"low", d.low}, {"high", d.high}, {"days", std::int64_t{d.days}}});
  return result;
}

namespace detail {

double student_reach(std::span<const double> means) {
  const auto n = static_cast<double>(means.size());
  double mean = 0, square = 0;
  for (const double m : means) mean += m / n;
  for (const double m : means) square += (m - mean) * (m - mean);
  return stat::student_quantile(0.975, n - 1) * std::sqrt(square / (n - 1) / n);
}

}  // namespace detail
}  // namespace wildling::climate
