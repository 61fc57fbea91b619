#pragma once

/// stat: statistics that two rooms need.

namespace wildling::stat {

struct Interval {
  double low = 0, high = 0;
};

/// Wilson's interval for a share of k in n (Wilson 1927, J. Am. Stat. Assoc. 22:209): holds for few
/// trials and for k = 0 or n.
/// @param n  n >= 1, otherwise [0, 1];  @param z  1.959964 for 95 %
Interval wilson(int k, int n, double z = 1.959963984540054) noexcept;

}  // namespace wildling::stat
