#pragma once

namespace wildling::stat {

/// Natural logarithm of the gamma function for x > 0.
/// Method: Stirling's series with eight terms (Abramowitz & Stegun 1964, 6.1.41) above 10, the
/// recurrence below. Accuracy: 1e-13 relative away from the zeros at 1 and 2, 1e-13 absolute near
/// them. Bits depend on x only.
double log_gamma(double x) noexcept;

/// Regularised incomplete beta function I_x(a, b) = P(Beta(a, b) <= x).
///
/// @param x     clamped to [0, 1]
/// @param a, b  > 0
/// Method: continued fraction of Abramowitz & Stegun 26.5.8, evaluated by Lentz's algorithm, at the
/// side of the mean where it converges fast. Accuracy: 1e-10 absolute for a, b up to 1e7.
double beta_cdf(double x, double a, double b) noexcept;

/// P(Bin(n, p) >= k) for many p: what depends on k and n only is computed once.
class BinomialTail {
 public:
  BinomialTail(long long k, long long n) noexcept;
  [[nodiscard]] double operator()(double p) const noexcept;

 private:
  double a_ = 0, b_ = 0, log_front_ = 0;
  int certain_ = -1;  ///< 0 or 1 when p does not matter
};

/// P(Bin(n, p) >= k): the chance of at least k successes.
/// @param n  >= 0;  @param k  1 when k <= 0, 0 when k > n;  @param p  clamped to [0, 1]
/// Identity: P = I_p(k, n - k + 1), Abramowitz & Stegun 26.5.24.
double at_least(long long k, long long n, double p) noexcept;

}  // namespace wildling::stat
