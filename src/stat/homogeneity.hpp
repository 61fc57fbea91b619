#pragma once
/// Does one number of a series, taken year by year, stand on two levels? Alexandersson (1986),
/// J. Climatol. 6:661-675: the standard normal homogeneity test for a single shift.
#include <span>

namespace wildling::stat {

struct Homogeneity {
  int n = 0;             ///< values used; NaN is left out
  double t = 0;          ///< largest of k mean(z1)^2 + (n - k) mean(z2)^2, z by the sample's own
                         ///< mean and standard deviation (n - 1)
  int change_after = 0;  ///< k: number of values used before the shift; 0 when there is none
  double before = 0, after = 0;  ///< means of the values on both sides
};

/// t is 0 for fewer than 2 values and for values that are all equal.
Homogeneity standard_normal_homogeneity(std::span<const double> x);

enum class HomogeneityLevel { five_pct, one_pct };

/// What t exceeds by luck alone in 5 % or 1 % of series of n independent normal values: Khaliq &
/// Ouarda (2007), Int. J. Climatol. 27:681-687, Table I (1,000,000 simulations a row), straight
/// between the rows.
/// @param n  10 to 1000; outside, the nearest row
double homogeneity_critical(int n, HomogeneityLevel level);

}  // namespace wildling::stat
