#include "stat/trend.hpp"

#include <algorithm>
#include <cmath>
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
  long long s = 0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    for (std::size_t j = i + 1; j < x.size(); ++j) s += sign(x[j] - x[i]);
  }
  return static_cast<double>(s);
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

double z_of(double s, double var_s) {
  return s == 0 || var_s <= 0 ? 0 : (s - sign(s)) / std::sqrt(var_s);
}

double median_of_sorted(const Values& values) {
  if (values.empty()) return 0;
  const std::size_t n = values.size();
  return n % 2 == 1 ? values[n / 2] : 0.5 * (values[n / 2 - 1] + values[n / 2]);
}

double median_of(Values values) {
  std::sort(values.begin(), values.end());
  return median_of_sorted(values);
}

// 1-based rank with a fraction, held inside the list.
double at_rank(const Values& sorted, double rank) {
  const auto n = static_cast<double>(sorted.size());
  const double r = std::clamp(rank, 1.0, n);
  const auto below = static_cast<std::size_t>(std::floor(r));
  const double value = sorted[below - 1];
  return below >= sorted.size() ? value : value + (r - std::floor(r)) * (sorted[below] - value);
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
  test.var_s = (n * (n - 1) * (2 * n + 5) - ties.variance) / 18;
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
  std::sort(slopes.begin(), slopes.end());
  sen.slope = median_of_sorted(slopes);
  const double reach = z * std::sqrt(mann_kendall(x).var_s);
  const auto n = static_cast<double>(slopes.size());
  sen.low = at_rank(slopes, (n - reach) / 2);
  sen.high = at_rank(slopes, (n + reach) / 2 + 1);
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
