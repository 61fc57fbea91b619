#include "stat/lmoments.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "base/exact_math.hpp"
#include "base/exact_trig.hpp"
#include "stat/binomial.hpp"
#include "stat/normal.hpp"

namespace wildling::stat {

constexpr double kPi = std::numbers::pi;

LMoments l_moments(std::span<const double> values) {
  std::vector<double> x(values.begin(), values.end());
  std::sort(x.begin(), x.end());
  const auto n = static_cast<double>(x.size());
  double b0 = 0, b1 = 0, b2 = 0, b3 = 0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    const auto j = static_cast<double>(i);
    b0 += x[i];
    b1 += x[i] * j / std::max(1.0, n - 1);
    b2 += x[i] * j * (j - 1) / std::max(1.0, (n - 1) * (n - 2));
    b3 += x[i] * j * (j - 1) * (j - 2) / std::max(1.0, (n - 1) * (n - 2) * (n - 3));
  }
  LMoments m;
  if (x.empty()) return m;
  b0 /= n, b1 /= n, b2 /= n, b3 /= n;
  m.l1 = b0;
  m.l2 = 2 * b1 - b0;
  if (x.size() < 4 || m.l2 <= 0) return m;
  m.t3 = (6 * b2 - 6 * b1 + b0) / m.l2;
  m.t4 = (20 * b3 - 30 * b2 + 12 * b1 - b0) / m.l2;
  return m;
}

double GammaFit::cdf(double x) const {
  return shape > 0 ? gamma_p(shape, x / scale, log_gamma_shape) : 0;
}

GammaFit gamma_of(double shape, double scale) {
  return {shape, scale, shape > 0 ? log_gamma(shape) : 0};
}

GammaFit fit_gamma(const LMoments& m) {
  if (!(m.l1 > 0) || !(m.l2 > 0) || m.l2 >= m.l1) return {};
  const double cv = m.l2 / m.l1;
  double shape = 0;
  if (cv < 0.5) {
    const double t = kPi * cv * cv;
    shape = (1 - 0.3080 * t) / (t - 0.05812 * t * t + 0.01765 * t * t * t);
  } else {
    const double t = 1 - cv;
    shape = t * (0.7213 - 0.5947 * t) / (1 + t * (-2.1817 + 1.2113 * t));
  }
  return gamma_of(shape, m.l1 / shape);
}

double LogisticFit::cdf(double x) const {
  double y = (x - xi) / alpha;
  if (std::abs(k) > 1e-12) {
    const double inside = 1 - k * y;
    if (inside <= 0) return k > 0 ? 1 : 0;
    y = -exact_log(inside) / k;
  }
  return 1 / (1 + exact_exp(-y));
}

double LogisticFit::quantile(double p) const {
  const double odds = (1 - p) / p;
  if (std::abs(k) <= 1e-12) return xi - alpha * exact_log(odds);
  return xi + alpha / k * (1 - exact_pow(odds, k));
}

LogisticFit fit_logistic(const LMoments& m) {
  const double k = -m.t3;
  if (std::abs(k) <= 1e-12) return {m.l1, m.l2, 0};
  const double s = exact_sin(k * kPi) / (k * kPi);
  const double alpha = m.l2 * s;
  return {m.l1 - alpha * (1 / k - kPi / exact_sin(k * kPi)), alpha, k};
}

NormalFit fit_normal(const LMoments& m) {
  return {m.l1, m.l2 * std::sqrt(kPi)};
}

GumbelFit fit_gumbel(const LMoments& m) {
  const double scale = m.l2 / std::numbers::ln2;
  return {m.l1 - std::numbers::egamma * scale, scale};
}

}  // namespace wildling::stat
