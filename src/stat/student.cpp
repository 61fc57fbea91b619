#include "stat/student.hpp"

#include "stat/binomial.hpp"

namespace wildling::stat {

double student_cdf(double t, double df) noexcept {
  const double tail = 0.5 * beta_cdf(df / (df + t * t), df / 2, 0.5);  // Abramowitz & Stegun 26.7.1
  return t < 0 ? tail : 1 - tail;
}

double student_quantile(double p, double df) noexcept {
  if (p < 0.5) return -student_quantile(1 - p, df);
  double low = 0, high = 1;
  while (student_cdf(high, df) < p && high < 1e12) high *= 2;
  for (int i = 0; i < 100 && high - low > 1e-11 * (1 + high); ++i) {
    const double middle = (low + high) / 2;
    (student_cdf(middle, df) < p ? low : high) = middle;
  }
  return (low + high) / 2;
}

}  // namespace wildling::stat
