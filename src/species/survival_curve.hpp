#pragma once

/// The pure curves behind survival.hpp, in plain numbers so that workings can re-evaluate them.
namespace wildling::species {

/// B(t): share alive at t months, constant death rate to month 12 and from there through month 60
/// on. b12, b60 the published shares, 0 < b60 < b12 < 1.
double pooled_share(double t, double b12, double b60);

/// share^times with 0 and 1 kept.
double power_share(double share, double times);

/// S(t): B^k up to the reference age with k = ln s_r / ln B(t_r); after it s_r
/// (B(t)/B(t_r))^max(1,k): a good early count does not promise fewer deaths later, a bad one warns
/// of more.
double referred_share(double t, double s_r, double t_r, double b12, double b60);

}  // namespace wildling::species
