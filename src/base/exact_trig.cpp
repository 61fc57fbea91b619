#include "base/exact_trig.hpp"

#include <array>
#include <cmath>
#include <limits>
#include <numbers>

namespace wildling {
namespace {

constexpr double kMissing = std::numeric_limits<double>::quiet_NaN();

// x = n pi/2 + remainder, |remainder| <= pi/4; pi/2 in two parts of which the first has 33 bits.
struct Reduced {
  long quadrant = 0;
  double remainder = 0;
};

Reduced reduce(double x) {
  constexpr double kHigh = 1.57079632673412561417e+00;
  constexpr double kLow = 6.07710050650619224932e-11;
  const double n = std::floor(x * (2 / std::numbers::pi) + 0.5);
  return {static_cast<long>(n), (x - n * kHigh) - n * kLow};
}

double sine_kernel(double x) {
  constexpr std::array<double, 6> s = {-1.66666666666666324348e-01, 8.33333333332248946124e-03,
                                       -1.98412698298579493134e-04, 2.75573137070700676789e-06,
                                       -2.50507602534068634195e-08, 1.58969099521155010221e-10};
  const double z = x * x;
  return x + x * z * (s[0] + z * (s[1] + z * (s[2] + z * (s[3] + z * (s[4] + z * s[5])))));
}

double cosine_kernel(double x) {
  constexpr std::array<double, 6> c = {4.16666666666666019037e-02, -1.38888888888741095749e-03,
                                       2.48015872894767294178e-05, -2.75573143513906633035e-07,
                                       2.08757232129817482790e-09, -1.13596475577881948265e-11};
  const double z = x * x;
  const double r = z * z * (c[0] + z * (c[1] + z * (c[2] + z * (c[3] + z * (c[4] + z * c[5])))));
  return 1 - (0.5 * z - r);
}

}  // namespace

double exact_sin(double x) noexcept {
  if (!(std::abs(x) <= 1e6)) return kMissing;
  const Reduced r = reduce(x);
  const double value =
      (r.quadrant & 1) != 0 ? cosine_kernel(r.remainder) : sine_kernel(r.remainder);
  return (r.quadrant & 2) != 0 ? -value : value;
}

double exact_cos(double x) noexcept {
  if (!(std::abs(x) <= 1e6)) return kMissing;
  const Reduced r = reduce(x);
  const double value =
      (r.quadrant & 1) != 0 ? sine_kernel(r.remainder) : cosine_kernel(r.remainder);
  return ((r.quadrant + 1) & 2) != 0 ? -value : value;
}

double exact_tan(double x) noexcept {
  return exact_sin(x) / exact_cos(x);
}

double exact_atan(double x) noexcept {
  if (std::isnan(x)) return x;
  if (x < 0) return -exact_atan(-x);
  if (x > 1) return std::numbers::pi / 2 - exact_atan(1 / x);
  // above 7/16: atan(x) = atan(1/2) + atan((2x - 1) / (2 + x))
  if (x > 0.4375) return 4.63647609000806093515e-01 + exact_atan((2 * x - 1) / (2 + x));
  constexpr std::array<double, 11> a = {
      3.33333333333329318027e-01,  -1.99999999998764832476e-01, 1.42857142725034663711e-01,
      -1.11111104054623557880e-01, 9.09088713343650656196e-02,  -7.69187620504482999495e-02,
      6.66107313738753120669e-02,  -5.83357013379057348645e-02, 4.97687799461593236017e-02,
      -3.65315727442169155270e-02, 1.62858201153657823623e-02};
  const double z = x * x;
  double sum = a[10];
  for (int i = 9; i >= 0; --i) sum = a[static_cast<std::size_t>(i)] + z * sum;
  return x - x * z * sum;
}

double exact_acos(double x) noexcept {
  if (!(x >= -1 && x <= 1)) return kMissing;
  if (x == -1) return std::numbers::pi;
  return 2 * exact_atan(std::sqrt((1 - x) / (1 + x)));
}

}  // namespace wildling
