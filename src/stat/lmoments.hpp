#pragma once
/// L-moments and distributions fitted by them: Hosking (1990), J. R. Statist. Soc. B 52:105-124;
/// Hosking & Wallis (1997).
#include <span>

namespace wildling::stat {

struct LMoments {
  double l1 = 0, l2 = 0, t3 = 0, t4 = 0;
};

/// Unbiased sample L-moments; at least 4 values for all (fewer: t3, t4 are 0). NaN is not allowed.
LMoments l_moments(std::span<const double> values);

struct GammaFit {
  double shape = 0, scale = 0;  ///< shape 0: the fit is not possible (no spread, or a mean of 0)
  double log_gamma_shape = 0;   ///< kept for cdf
  [[nodiscard]] double cdf(double x) const;
};

/// @param scale  > 0
GammaFit gamma_of(double shape, double scale);

/// Hosking's rational approximation.
GammaFit fit_gamma(const LMoments& moments);

struct LogisticFit {  ///< generalized logistic = log-logistic with three parameters
  double xi = 0, alpha = 0, k = 0;
  [[nodiscard]] double cdf(double x) const;
  [[nodiscard]] double quantile(double p) const;
};

LogisticFit fit_logistic(const LMoments& moments);

struct NormalFit {
  double mean = 0, sd = 0;
};

NormalFit fit_normal(const LMoments& moments);

struct GumbelFit {
  double location = 0, scale = 0;
};

GumbelFit fit_gumbel(const LMoments& moments);

}  // namespace wildling::stat
