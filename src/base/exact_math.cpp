#include "base/exact_math.hpp"

#include <bit>
#include <cmath>
#include <cstdint>
#include <limits>

namespace wildling {
namespace {

constexpr double kLn2High = 6.93147180369123816490e-01;
constexpr double kLn2Low = 1.90821492927058770002e-10;
constexpr double kInverseLn2 = 1.44269504088896338700;

double times_power_of_two(double x, int n) noexcept {
  // Two steps, so that subnormal results round once at the end.
  const int half = n / 2;
  const auto power = [](int k) {
    return std::bit_cast<double>(static_cast<std::uint64_t>(k + 1023) << 52U);
  };
  return x * power(half) * power(n - half);
}

}  // namespace

double exact_exp(double x) noexcept {
  if (std::isnan(x)) return x;
  if (x > 709.782712893383973096) return std::numeric_limits<double>::infinity();
  if (x < -745.13321910194110842) return 0.0;
  const int n = static_cast<int>(kInverseLn2 * x + (x < 0 ? -0.5 : 0.5));
  const double high = x - n * kLn2High;
  const double low = n * kLn2Low;
  const double r = high - low;
  const double t = r * r;
  const double c =
      r - t * (1.66666666666666019037e-01 +
               t * (-2.77777777770155933842e-03 +
                    t * (6.61375632143793436117e-05 +
                         t * (-1.65339022054652515390e-06 + t * 4.13813679705723846039e-08))));
  const double y = 1.0 - ((low - (r * c) / (2.0 - c)) - high);
  return times_power_of_two(y, n);
}

double exact_log(double x) noexcept {
  if (std::isnan(x) || x < 0) return std::numeric_limits<double>::quiet_NaN();
  if (x == 0) return -std::numeric_limits<double>::infinity();
  if (std::isinf(x)) return x;
  int k = 0;
  if (x < std::numeric_limits<double>::min()) {
    x *= 18014398509481984.0;  // 2^54
    k = -54;
  }
  auto bits = std::bit_cast<std::uint64_t>(x);
  k += static_cast<int>(bits >> 52U) - 1023;
  bits = (bits & 0x000fffffffffffffULL) | 0x3ff0000000000000ULL;
  double m = std::bit_cast<double>(bits);
  if (m > 1.41421356237309504880) {
    m *= 0.5;
    ++k;
  }
  const double f = m - 1.0;
  const double s = f / (2.0 + f);
  const double z = s * s;
  const double w = z * z;
  const double t1 = w * (3.999999999940941908e-01 +
                         w * (2.222219843214978396e-01 + w * 1.531383769920937332e-01));
  const double t2 = z * (6.666666666666735130e-01 +
                         w * (2.857142874366239149e-01 +
                              w * (1.818357216161805012e-01 + w * 1.479819860511658591e-01)));
  const double r = t1 + t2;
  const double h = 0.5 * f * f;
  return k * kLn2High - ((h - (s * (h + r) + k * kLn2Low)) - f);
}

double exact_pow(double x, double y) noexcept {
  return exact_exp(y * exact_log(x));
}

}  // namespace wildling
