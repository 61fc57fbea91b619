#pragma once
/// Is there a steady change? Rank tests that need no shape of the distribution. A NaN value is left
/// out; times may be uneven. Gilbert (1987), Statistical Methods for Environmental Pollution
/// Monitoring, chapters 16 and 17.
#include <cstddef>
#include <span>

namespace wildling::stat {

struct MannKendall {
  int n = 0;                ///< values used
  double s = 0, var_s = 0;  ///< var with ties subtracted: [n(n-1)(2n+5) - sum t(t-1)(2t+5)]/18
  double z = 0;             ///< with the continuity correction of 1; 0 when s is 0
  double p = 1;             ///< two-sided
  double tau_a = 0, tau_b = 0;
};

/// @param x  in the order of time
MannKendall mann_kendall(std::span<const double> x);

struct SenSlope {
  std::size_t pairs = 0;
  double slope = 0;  ///< per unit of t; median of all pairwise slopes
  double low = 0,
         high = 0;  ///< limits at ranks (N -+ z sqrt(var_s))/2, interpolated (Gilbert 1987 p. 218)
  double intercept = 0;  ///< median(x) - slope * median(t)
};

/// @param z  1.959964 for 95 %
SenSlope sen_slope(std::span<const double> t, std::span<const double> x,
                   double z = 1.959963984540054);

/// Serial correlation makes chance trends more frequent: Hamed & Rao (1998), J. Hydrol.
/// 204:182-196. Ranks of the series less its Sen slope are autocorrelated at lags 1 to max_lag;
/// those beyond +-z/sqrt(n) change the variance.
struct HamedRao {
  double factor = 1;  ///< n/n*
  double var_s = 0, z = 0, p = 1;
};

/// @param slope_per_step  taken off the k-th value used as k * slope
HamedRao hamed_rao(std::span<const double> x, double slope_per_step, int max_lag);

/// Mann-Kendall summed over seasons (Hirsch, Slack & Smith 1982). @param x  value i belongs to
/// season i % seasons
struct SeasonalTest {
  double s = 0, var_s = 0, z = 0, p = 1;
  double slope = 0;  ///< per cycle: median of the slopes inside seasons
};

SeasonalTest seasonal_mann_kendall(std::span<const double> x, int seasons);

/// First-order pre-whitening: x_i - r1 x_(i-1) of the values used, then the test (Yue & Wang 2002).
double lag_one(std::span<const double> x);

/// Where does the level change? Pettitt (1979), Appl. Statist. 28:126-135.
struct Pettitt {
  double k = 0;  ///< max |U|
  int change_after =
      0;  ///< number of values before the change (1 = after the first); 0 if fewer than 2 values
  double p = 1;      ///< 2 exp(-6 K^2 / (n^3 + n^2)), at most 1
  double shift = 0;  ///< median after less median before
};

Pettitt pettitt(std::span<const double> x);

}  // namespace wildling::stat
