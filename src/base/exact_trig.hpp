#pragma once

namespace wildling {

/// Sine, cosine and their inverses with bits that depend on the argument only (see exact_math.hpp):
/// series of fdlibm (Sun Microsystems 1993). Error: a few units in the last place for |x| below
/// 1e4, NaN beyond 1e6.
double exact_sin(double x) noexcept;
double exact_cos(double x) noexcept;
double exact_tan(double x) noexcept;
double exact_atan(double x) noexcept;
/// @param x  in [-1, 1], otherwise NaN. Result in [0, pi].
double exact_acos(double x) noexcept;

}  // namespace wildling
