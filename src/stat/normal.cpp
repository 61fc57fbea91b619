#include "stat/normal.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "base/exact_math.hpp"
#include "stat/binomial.hpp"

namespace wildling::stat {
namespace {

// Eight terms at a time: their divisions do not wait for each other.
double by_series(double a, double x) {
  double term = 1 / a, sum = term;
  for (int n = 1; n < 4000 && term > 1e-17 * sum; n += 8) {
    std::array<double, 8> ratio{};
    for (int k = 0; k < 8; ++k) ratio[static_cast<std::size_t>(k)] = x / (a + (n + k));
    for (const double r : ratio) {
      term *= r;
      sum += term;
    }
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

// Coefficients of AS 241, from the highest power down: numerator and denominator.
struct Ratio {
  std::array<double, 8> above, below;
};

constexpr Ratio kMiddle = {
    {2.5090809287301226727e+3, 3.3430575583588128105e+4, 6.7265770927008700853e+4,
     4.5921953931549871457e+4, 1.3731693765509461125e+4, 1.9715909503065514427e+3,
     1.3314166789178437745e+2, 3.3871328727963666080e+0},
    {5.2264952788528545610e+3, 2.8729085735721942674e+4, 3.9307895800092710610e+4,
     2.1213794301586595867e+4, 5.3941960214247511077e+3, 6.8718700749205790830e+2,
     4.2313330701600911252e+1, 1.0}};
constexpr Ratio kTail = {
    {7.74545014278341407640e-4, 2.27238449892691845833e-2, 2.41780725177450611770e-1,
     1.27045825245236838258e+0, 3.64784832476320460504e+0, 5.76949722146069140550e+0,
     4.63033784615654529590e+0, 1.42343711074968357734e+0},
    {1.05075007164441684324e-9, 5.47593808499534494600e-4, 1.51986665636164571966e-2,
     1.48103976427480074590e-1, 6.89767334985100004550e-1, 1.67638483018380384940e+0,
     2.05319162663775882187e+0, 1.0}};
constexpr Ratio kFarTail = {
    {2.01033439929228813265e-7, 2.71155556874348757815e-5, 1.24266094738807843860e-3,
     2.65321895265761230930e-2, 2.96560571828504891230e-1, 1.78482653991729133580e+0,
     5.46378491116411436990e+0, 6.65790464350110377720e+0},
    {2.04426310338993978564e-15, 1.42151175831644588870e-7, 1.84631831751005468180e-5,
     7.86869131145613259100e-4, 1.48753612908506148525e-2, 1.36929880922735805310e-1,
     5.99832206555887937690e-1, 1.0}};

double polynomial(const std::array<double, 8>& c, double x) {
  double sum = c[0];
  for (std::size_t i = 1; i < c.size(); ++i) sum = sum * x + c[i];
  return sum;
}

double ratio(const Ratio& r, double x) {
  return polynomial(r.above, x) / polynomial(r.below, x);
}

}  // namespace

double gamma_p(double a, double x) noexcept {
  return gamma_p(a, x, a > 0 ? log_gamma(a) : 0);
}

double gamma_p(double a, double x, double log_gamma_a) noexcept {
  if (!(a > 0) || std::isnan(x)) return std::numeric_limits<double>::quiet_NaN();
  if (x <= 0) return 0;
  if (std::isinf(x)) return 1;
  const double front = exact_exp(-x + a * exact_log(x) - log_gamma_a);
  // The series holds everywhere; far above the mean the fraction needs fewer steps.
  if (x < a + 1 + 4 * std::sqrt(a)) return std::min(1.0, front * by_series(a, x));
  return 1 - front * by_fraction(a, x);
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
  const double q = p - 0.5;
  if (std::abs(q) <= 0.425) return q * ratio(kMiddle, 0.180625 - q * q);
  const double r = std::sqrt(-exact_log(q < 0 ? p : 1 - p));
  const double z = r <= 5 ? ratio(kTail, r - 1.6) : ratio(kFarTail, r - 5);
  return q < 0 ? -z : z;
}

}  // namespace wildling::stat
