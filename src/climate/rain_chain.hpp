#pragma once
/// Wet and dry days as a Markov chain: does today's rain depend on yesterday's, or on more days
/// back, and on the season? Gabriel & Neumann (1962), QJRMS 88:90-95; Stern & Coe (1984), J. R.
/// Statist. Soc. A 147:1-34 (harmonics of the year); order and harmonics chosen by the Bayesian
/// information criterion (Katz 1981, Technometrics 23:243-249).
#include <array>
#include <optional>
#include <span>
#include <vector>

#include "base/message.hpp"
#include "base/parameters.hpp"
#include "climate/weather.hpp"

namespace wildling::climate {

/// Counts of pairs of days: n01 = dry then wet. Missing days make no pair.
struct PairCounts {
  int n00 = 0, n01 = 0, n10 = 0, n11 = 0;
  [[nodiscard]] double p01() const;
  [[nodiscard]] double p11() const;
  [[nodiscard]] double stationary_wet() const;  ///< p01 / (1 + p01 - p11)
  [[nodiscard]] double persistence() const;     ///< r1 = p11 - p01
  [[nodiscard]] double mean_wet_spell() const;  ///< 1 / (1 - p11)
  [[nodiscard]] double mean_dry_spell() const;  ///< 1 / p01
};

PairCounts pair_counts(std::span<const double> rain_mm, double wet_day_mm);

/// One chain: for each history of the last `order` days (bit 0 = yesterday wet) the chance of a wet
/// day as logit = c0 + sum over h of (c cos + d sin)(2 pi h day/365.25).
struct RainChain {
  int order = 0;
  int harmonics = 0;
  std::vector<std::vector<double>> coefficients;  ///< [2^order][1 + 2 harmonics]
  double log_likelihood = 0;
  double bic = 0;
  int days = 0;
  [[nodiscard]] double wet_chance(unsigned history, int day_of_year) const;
};

/// @param day_of_year  of each day, 1 to 366
/// Fitted by Newton's method on counts per day of year, with a ridge of 1e-3 per coefficient so
/// that a history that was always dry stays finite. Every order is judged on the same days: those
/// with three known days before them.
RainChain fit_chain(std::span<const char> wet, std::span<const int> day_of_year, int order,
                    int harmonics);

struct ChainChoice {
  RainChain best;

  struct Candidate {
    int order, harmonics;
    double bic;
    double log_likelihood;
  };

  std::vector<Candidate> candidates;  ///< orders 0 to 3, harmonics 0 to 2
  std::optional<Message> refused;     ///< fewer than climate.chain.days_least usable days
};

ChainChoice choose_chain(const DailyWeather& daily, const Parameters& parameters);

namespace detail {
/// 1 wet, 0 dry, -1 missing.
std::vector<char> wet_days(const DailyWeather& daily, double wet_day_mm);
/// 1, cos, sin, cos 2, sin 2 of a day of the year (1 to 366), at most two waves.
std::vector<double> harmonic_terms(int day_of_year, int harmonics);
/// The five terms of two waves, made once.
const double* year_terms(int day_of_year);
/// The same without copies; reads the lower triangle of a, leaves x in b.
bool solve_in_place(double* a, double* b, std::size_t n);
/// Solves a x = b for symmetric positive definite a (row-major, n x n) by Cholesky; false if it is
/// not.
bool solve_symmetric(std::vector<double> a, std::vector<double> b, std::vector<double>& x);
}  // namespace detail

}  // namespace wildling::climate
