#pragma once

namespace wildling::stat {

/// Regularised lower incomplete gamma function P(a, x); a > 0, x >= 0. Series up to 4 sqrt(a) above
/// a + 1, Lentz's continued fraction beyond (Abramowitz & Stegun 1964, 6.5.29 and 6.5.31). Accuracy
/// 1e-14 relative. Bits depend on the arguments only.
double gamma_p(double a, double x) noexcept;
/// The same for many x: `log_gamma_a` is log_gamma(a).
double gamma_p(double a, double x, double log_gamma_a) noexcept;

/// Standard normal distribution function, from gamma_p(1/2, x^2/2).
double normal_cdf(double x) noexcept;
/// P(|Z| >= |z|).
double normal_two_sided(double z) noexcept;

/// Inverse of normal_cdf; p in (0, 1), else +-infinity or NaN. Rational approximations of Wichura
/// (1988), Appl. Statist. 37:477-484, algorithm AS 241 (PPND16): about 1e-16 relative.
double normal_quantile(double p) noexcept;

/// Abramowitz & Stegun 26.2.23 (Hastings), as in Edwards & McKee (1997): absolute error
/// below 4.5e-4.
double hastings_quantile(double p) noexcept;

}  // namespace wildling::stat
