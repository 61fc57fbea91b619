#include "stat/normal.hpp"

#include <cmath>
#include <limits>
#include <numbers>

#include "base/exact_math.hpp"
#include "stat/binomial.hpp"

namespace wildling::stat {
namespace {

double by_series(double a, double x) {
  double term = 1 / a, sum = term;
  for (int n = 1; n < 2000 && std::abs(term) > 1e-17 * std::abs(sum); ++n) {
    term *= x / (a + n);
    sum += term;
  }
  return sum;
}

double by_fraction(double a, double x) {
  constexpr double kTiny = 1e-300;
  double b = x + 1 - a, c = 1 / kTiny, d = 1 / b, h = d;
  for (int i = 1; i < 2000; ++i) {
    const double an = -i * (i - a);
    b += 2;
    d = an * d + b;
    if (std::abs(d) < kTiny) d = kTiny;
    c = b + an / c;
    if (std::abs(c) < kTiny) c = kTiny;
    d = 1 / d;
    const double step = d * c;
    h *= step;
    if (std::abs(step - 1) < 1e-16) break;
  }
  return h;
}

double upper_half(double x) {  // Q(1/2, x), without loss in the tail
  if (x < 1.5) return 1 - gamma_p(0.5, x);
  return by_fraction(0.5, x) * exact_exp(-x + 0.5 * exact_log(x) - log_gamma(0.5));
}

}  // namespace

double gamma_p(double a, double x) noexcept {
  if (!(a > 0) || std::isnan(x)) return std::numeric_limits<double>::quiet_NaN();
  if (x <= 0) return 0;
  if (std::isinf(x)) return 1;
  const double front = exact_exp(-x + a * exact_log(x) - log_gamma(a));
  return x < a + 1 ? front * by_series(a, x) : 1 - front * by_fraction(a, x);
}

double normal_two_sided(double z) noexcept {
  return std::isnan(z) ? z : upper_half(z * z / 2);
}

double normal_cdf(double x) noexcept {
  const double tail = normal_two_sided(x) / 2;
  return x < 0 ? tail : 1 - tail;
}

double hastings_quantile(double p) noexcept {
  const double q = p < 0.5 ? p : 1 - p;
  const double t = std::sqrt(-2 * exact_log(q));
  const double z = t - (2.515517 + 0.802853 * t + 0.010328 * t * t) /
                           (1 + 1.432788 * t + 0.189269 * t * t + 0.001308 * t * t * t);
  return p < 0.5 ? -z : z;
}

double normal_quantile(double p) noexcept {
  if (!(p > 0 && p < 1)) {
    if (p == 0) return -std::numeric_limits<double>::infinity();
    return p == 1 ? std::numeric_limits<double>::infinity()
                  : std::numeric_limits<double>::quiet_NaN();
  }
  if (p > 0.5) return -normal_quantile(1 - p);
  double z = hastings_quantile(p);
  for (int i = 0; i < 4; ++i) {
    const double density = exact_exp(-z * z / 2) / std::sqrt(2 * std::numbers::pi);
    if (density <= 0) break;
    const double step = (normal_cdf(z) - p) / density;
    z -= step / (1 + z * step / 2);  // Halley
  }
  return z;
}

}  // namespace wildling::stat
