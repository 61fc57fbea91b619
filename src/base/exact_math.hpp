#pragma once

namespace wildling {

/// Exponential and natural logarithm whose bits depend on nothing but the argument: the C library's
/// choose their code by processor and differ in the last bits. Within 2 units in the last place of
/// the true value. Method: argument reduction and series of fdlibm (Sun Microsystems 1993), plain
/// double arithmetic without contraction.
///
/// @param x  any double. exact_exp: 0 below -745, infinity above 709.78. NaN gives NaN.
double exact_exp(double x) noexcept;

/// @param x  x > 0; 0 gives -infinity, negative gives NaN.
double exact_log(double x) noexcept;

/// x^y for x > 0, as exact_exp(y exact_log(x)): relative error up to about |y ln x| x 2e-16.
double exact_pow(double x, double y) noexcept;

}  // namespace wildling
