#pragma once

namespace wildling::stat {

/// P(T <= t) of Student's distribution with `df` > 0 degrees of freedom, from the incomplete beta
/// function.
double student_cdf(double t, double df) noexcept;
/// Its inverse for p in (0, 1), by bisection to 1e-10.
double student_quantile(double p, double df) noexcept;

}  // namespace wildling::stat
