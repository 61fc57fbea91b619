#include "stat/trend.hpp"

#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

#include "base/exact_math.hpp"
#include "stat/normal.hpp"

namespace wildling::stat {
namespace {

using Values = std::vector<double>;

Values known(std::span<const double> x) {
  Values values;
  for (const double v : x) {
    if (!std::isnan(v)) values.push_back(v);
  }
  return values;
}

int sign(double d) {
  return d > 0 ? 1 : (d < 0 ? -1 : 0);
}

double s_of(const Values& x) {
  int s = 0;  // below 2^31 for fewer than 65,000 values
  for (std::size_t i = 0; i < x.size(); ++i) {
    const double from = x[i];
    for (std::size_t j = i + 1; j < x.size(); ++j) s += (x[j] > from) - (x[j] < from);
  }
  return s;
}

struct Ties {
  double variance = 0;  // sum t(t-1)(2t+5)
  double pairs = 0;     // sum t(t-1)/2
};

Ties ties_of(Values x) {
  std::sort(x.begin(), x.end());
  Ties ties;
  for (std::size_t i = 0; i < x.size();) {
    std::size_t j = i;
    while (j < x.size() && x[j] == x[i]) ++j;
    const auto t = static_cast<double>(j - i);
    ties.variance += t * (t - 1) * (2 * t + 5);
    ties.pairs += t * (t - 1) / 2;
    i = j;
  }
  return ties;
}

double variance_of(double n, const Ties& ties) {
  return (n * (n - 1) * (2 * n + 5) - ties.variance) / 18;
}

double variance_of(const Values& x) {
  return x.size() < 2 ? 0 : variance_of(static_cast<double>(x.size()), ties_of(x));
}

double z_of(double s, double var_s) {
  return s == 0 || var_s <= 0 ? 0 : (s - sign(s)) / std::sqrt(var_s);
}

/// Values by rank without sorting all of them: each look-up sorts no more than it must.
class Ranked {
 public:
  explicit Ranked(Values values) : values_(std::move(values)) {}

  double at(std::size_t rank) {  // 0-based
    const auto place = values_.begin() + static_cast<std::ptrdiff_t>(rank);
    std::nth_element(values_.begin(), place, values_.end());
    return *place;
  }

  double median() {
    const std::size_t n = values_.size();
    if (n == 0) return 0;
    return n % 2 == 1 ? at(n / 2) : 0.5 * (at(n / 2 - 1) + at(n / 2));
  }

  // 1-based rank with a fraction, held inside the list.
  double between(double rank) {
    const double r = std::clamp(rank, 1.0, static_cast<double>(values_.size()));
    const auto below = static_cast<std::size_t>(std::floor(r));
    const double value = at(below - 1);
    return below >= values_.size() ? value : value + (r - std::floor(r)) * (at(below) - value);
  }

 private:
  Values values_;
};

double median_of(Values values) {
  return Ranked(std::move(values)).median();
}

Values slopes_of(std::span<const double> t, std::span<const double> x) {
  Values slopes;
  slopes.reserve(x.size() * x.size() / 2);
  for (std::size_t i = 0; i < x.size(); ++i) {
    for (std::size_t j = i + 1; j < x.size(); ++j) {
      if (std::isnan(x[i]) || std::isnan(x[j]) || t[j] == t[i]) continue;
      slopes.push_back((x[j] - x[i]) / (t[j] - t[i]));
    }
  }
  return slopes;
}

Values ranks_of(const Values& x) {
  Values sorted = x;
  std::sort(sorted.begin(), sorted.end());
  Values ranks;
  for (const double v : x) {
    const auto [low, high] = std::equal_range(sorted.begin(), sorted.end(), v);
    ranks.push_back(static_cast<double>((low - sorted.begin()) + (high - sorted.begin()) + 1) / 2);
  }
  return ranks;
}

double autocorrelation(const Values& x, std::size_t lag) {
  double mean = 0, square = 0, product = 0;
  for (const double v : x) mean += v;
  mean /= static_cast<double>(x.size());
  for (const double v : x) square += (v - mean) * (v - mean);
  for (std::size_t i = lag; i < x.size(); ++i) product += (x[i] - mean) * (x[i - lag] - mean);
  return square > 0 ? product / square : 0;
}

}  // namespace

MannKendall mann_kendall(std::span<const double> series) {
  const Values x = known(series);
  MannKendall test;
  test.n = static_cast<int>(x.size());
  if (test.n < 2) return test;
  const double n = test.n;
  const Ties ties = ties_of(x);
  test.s = s_of(x);
  test.var_s = variance_of(n, ties);
  test.z = z_of(test.s, test.var_s);
  test.p = normal_two_sided(test.z);
  const double pairs = n * (n - 1) / 2;
  test.tau_a = test.s / pairs;
  test.tau_b = ties.pairs < pairs ? test.s / std::sqrt(pairs * (pairs - ties.pairs)) : 0;
  return test;
}

SenSlope sen_slope(std::span<const double> t, std::span<const double> x, double z) {
  SenSlope sen;
  Values slopes = slopes_of(t, x);
  sen.pairs = slopes.size();
  if (slopes.empty()) return sen;
  Ranked ranked(std::move(slopes));
  sen.slope = ranked.median();
  const double reach = z * std::sqrt(variance_of(known(x)));
  const auto n = static_cast<double>(sen.pairs);
  sen.low = ranked.between((n - reach) / 2);
  sen.high = ranked.between((n + reach) / 2 + 1);
  Values times;
  for (std::size_t i = 0; i < x.size(); ++i) {
    if (!std::isnan(x[i])) times.push_back(t[i]);
  }
  sen.intercept = median_of(known(x)) - sen.slope * median_of(times);
  return sen;
}

HamedRao hamed_rao(std::span<const double> series, double slope_per_step, int max_lag) {
  const Values x = known(series);
  const MannKendall test = mann_kendall(x);
  HamedRao result{1, test.var_s, test.z, test.p};
  if (test.n < 4) return result;
  Values flat;
  for (std::size_t i = 0; i < x.size(); ++i)
    flat.push_back(x[i] - static_cast<double>(i + 1) * slope_per_step);
  const Values ranks = ranks_of(flat);
  const double n = test.n, limit = 1.959963984540054 / std::sqrt(n);
  double sum = 0;
  for (int lag = 1; lag <= std::min(max_lag, test.n - 1); ++lag) {
    const double r = autocorrelation(ranks, static_cast<std::size_t>(lag));
    if (std::abs(r) > limit) sum += (n - lag) * (n - lag - 1) * (n - lag - 2) * r;
  }
  result.factor = 1 + 2 / (n * (n - 1) * (n - 2)) * sum;
  result.var_s = test.var_s * result.factor;
  result.z = z_of(test.s, result.var_s);
  result.p = normal_two_sided(result.z);
  return result;
}

SeasonalTest seasonal_mann_kendall(std::span<const double> x, int seasons) {
  SeasonalTest result;
  Values slopes;
  const auto step = static_cast<std::size_t>(std::max(1, seasons));
  for (std::size_t season = 0; season < step; ++season) {
    Values values, cycles;
    for (std::size_t i = season; i < x.size(); i += step) {
      values.push_back(x[i]);
      cycles.push_back(static_cast<double>(i / step));
    }
    const MannKendall test = mann_kendall(values);
    result.s += test.s;
    result.var_s += test.var_s;
    const Values inside = slopes_of(cycles, values);
    slopes.insert(slopes.end(), inside.begin(), inside.end());
  }
  result.z = z_of(result.s, result.var_s);
  result.p = normal_two_sided(result.z);
  result.slope = median_of(slopes);
  return result;
}

double lag_one(std::span<const double> x) {
  return autocorrelation(known(x), 1);
}

Pettitt pettitt(std::span<const double> series) {
  const Values x = known(series);
  Pettitt result;
  const auto n = static_cast<double>(x.size());
  if (x.size() < 2) return result;
  const Values ranks = ranks_of(x);
  double sum = 0;
  for (std::size_t t = 0; t + 1 < x.size(); ++t) {
    sum += ranks[t];
    const double u = std::abs(2 * sum - static_cast<double>(t + 1) * (n + 1));
    if (u <= result.k) continue;
    result.k = u;
    result.change_after = static_cast<int>(t + 1);
  }
  result.p = std::min(1.0, 2 * exact_exp(-6 * result.k * result.k / (n * n * n + n * n)));
  const auto middle = x.begin() + result.change_after;
  result.shift = median_of(Values(middle, x.end())) - median_of(Values(x.begin(), middle));
  return result;
}

}  // namespace wildling::stat
