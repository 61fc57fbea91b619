#include "stat/binomial.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "base/exact_math.hpp"

namespace wildling::stat {
namespace {

/// Continued fraction of I_x(a, b), without its factor; converges for x < (a + 1)/(a + b + 2).
double continued_fraction(double x, double a, double b) noexcept {
  constexpr double kTiny = 1e-300;
  const auto away_from_zero = [](double v) { return std::abs(v) < kTiny ? kTiny : v; };
  double c = 1;
  double d = 1 / away_from_zero(1 - (a + b) * x / (a + 1));
  double h = d;
  for (int m = 1; m <= 100000; ++m) {
    const double k = m;
    const double even = k * (b - k) * x / ((a + 2 * k - 1) * (a + 2 * k));
    d = 1 / away_from_zero(1 + even * d);
    c = away_from_zero(1 + even / c);
    h *= d * c;
    const double odd = -(a + k) * (a + b + k) * x / ((a + 2 * k) * (a + 2 * k + 1));
    d = 1 / away_from_zero(1 + odd * d);
    c = away_from_zero(1 + odd / c);
    h *= d * c;
    if (std::abs(d * c - 1) < 1e-14) break;
  }
  return h;
}

}  // namespace

double log_gamma(double x) noexcept {
  double shift = 0;
  double z = x;
  if (z < 10) {
    double product = 1;
    for (; z < 10; z += 1) product *= z;
    shift = exact_log(product);
  }
  constexpr std::array<double, 8> kSeries = {1.0 / 12,    -1.0 / 360,      1.0 / 1260,
                                             -1.0 / 1680, 1.0 / 1188,      -691.0 / 360360,
                                             1.0 / 156,   -3617.0 / 122400};
  const double inverse = 1 / z;
  const double square = inverse * inverse;
  double sum = 0;
  for (std::size_t i = kSeries.size(); i-- > 0;) sum = sum * square + kSeries[i];
  return (z - 0.5) * exact_log(z) - z + 0.5 * exact_log(2 * std::numbers::pi) + sum * inverse -
         shift;
}

namespace {

/// I_x(a, b) with log_front = ln of 1 / B(a, b), 0 < x < 1.
double beta_cdf_inside(double x, double a, double b, double log_front) noexcept {
  const double front = exact_exp(log_front + a * exact_log(x) + b * exact_log(1 - x));
  const double value = x < (a + 1) / (a + b + 2) ? front * continued_fraction(x, a, b) / a
                                                 : 1 - front * continued_fraction(1 - x, b, a) / b;
  return std::clamp(value, 0.0, 1.0);
}

}  // namespace

double beta_cdf(double x, double a, double b) noexcept {
  if (!(x > 0)) return 0;
  if (x >= 1) return 1;
  return beta_cdf_inside(x, a, b, log_gamma(a + b) - log_gamma(a) - log_gamma(b));
}

BinomialTail::BinomialTail(long long k, long long n) noexcept {
  if (k <= 0) {
    certain_ = 1;
  } else if (k > n) {
    certain_ = 0;
  } else {
    a_ = static_cast<double>(k);
    b_ = static_cast<double>(n - k + 1);
    log_front_ = log_gamma(a_ + b_) - log_gamma(a_) - log_gamma(b_);
  }
}

double BinomialTail::operator()(double p) const noexcept {
  if (certain_ >= 0) return certain_;
  if (!(p > 0)) return 0;
  if (p >= 1) return 1;
  return beta_cdf_inside(p, a_, b_, log_front_);
}

double at_least(long long k, long long n, double p) noexcept {
  return BinomialTail(k, n)(p);
}

}  // namespace wildling::stat
