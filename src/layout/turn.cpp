#include "layout/turn.hpp"

#include <cmath>
#include <numbers>

namespace wildling::layout {
namespace {

// Taylor series on [-pi/4, pi/4]: the first term left out is below 1e-16.
double series_sin(double x) {
  double term = x;
  double sum = x;
  for (int n = 1; n <= 8; ++n) {
    term *= -x * x / ((2.0 * n) * (2.0 * n + 1.0));
    sum += term;
  }
  return sum;
}

double series_cos(double x) {
  double term = 1;
  double sum = 1;
  for (int n = 1; n <= 8; ++n) {
    term *= -x * x / ((2.0 * n - 1.0) * (2.0 * n));
    sum += term;
  }
  return sum;
}

}  // namespace

Direction direction_of(double bearing_deg) {
  const double turned = std::fmod(bearing_deg, 360.0);  // exact
  const double quarter = std::round(turned / 90.0);
  const double x = (turned - quarter * 90.0) * (std::numbers::pi / 180.0);
  const double s = series_sin(x);
  const double c = series_cos(x);
  switch ((static_cast<int>(quarter) % 4 + 4) % 4) {
    case 0:
      return {s, c};
    case 1:
      return {c, -s};
    case 2:
      return {-s, -c};
    default:
      return {-c, s};
  }
}

}  // namespace wildling::layout
