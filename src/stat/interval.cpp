#include "stat/interval.hpp"

#include <algorithm>
#include <cmath>

namespace wildling::stat {

Interval wilson(int k, int n, double z) noexcept {
  if (n < 1) return {0, 1};
  const double p = static_cast<double>(k) / n;
  const double z2 = z * z / n;
  const double middle = (p + z2 / 2) / (1 + z2);
  const double half = z / (1 + z2) * std::sqrt(p * (1 - p) / n + z2 / (4 * n));
  return {std::max(0.0, middle - half), std::min(1.0, middle + half)};
}

}  // namespace wildling::stat
