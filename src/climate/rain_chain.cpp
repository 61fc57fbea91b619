#include "climate/rain_chain.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/exact_math.hpp"
#include "base/exact_trig.hpp"

namespace wildling::climate {
namespace {

constexpr int kMostOrder = 3;
constexpr double kRidge = 1e-3;

struct Bin {
  std::vector<double> terms;
  double wet = 0, all = 0;
};

double chance(const std::vector<double>& coefficients, const std::vector<double>& terms) {
  double logit = 0;
  for (std::size_t i = 0; i < terms.size(); ++i) logit += coefficients[i] * terms[i];
  return 1 / (1 + exact_exp(-logit));
}

// Newton steps on the penalised likelihood.
std::vector<double> fit_logit(const std::vector<Bin>& bins, std::size_t size) {
  std::vector<double> c(size, 0.0);
  for (int step = 0; step < 50; ++step) {
    std::vector<double> hessian(size * size, 0.0), gradient(size, 0.0), move;
    for (const Bin& bin : bins) {
      if (bin.all <= 0) continue;
      const double p = chance(c, bin.terms), w = bin.all * p * (1 - p);
      for (std::size_t i = 0; i < size; ++i) {
        gradient[i] += (bin.wet - bin.all * p) * bin.terms[i];
        for (std::size_t j = 0; j < size; ++j)
          hessian[i * size + j] += w * bin.terms[i] * bin.terms[j];
      }
    }
    for (std::size_t i = 0; i < size; ++i) {
      hessian[i * size + i] += kRidge;
      gradient[i] -= kRidge * c[i];
    }
    if (!detail::solve_symmetric(hessian, gradient, move)) break;
    double largest = 0;
    for (std::size_t i = 0; i < size; ++i) {
      c[i] += std::clamp(move[i], -2.0, 2.0);
      largest = std::max(largest, std::abs(move[i]));
    }
    if (largest < 1e-10) break;
  }
  return c;
}

double log_likelihood(const std::vector<Bin>& bins, const std::vector<double>& c) {
  double sum = 0;
  for (const Bin& bin : bins) {
    if (bin.all <= 0) continue;
    const double p = chance(c, bin.terms);
    sum += bin.wet * exact_log(p) + (bin.all - bin.wet) * exact_log(1 - p);
  }
  return sum;
}

}  // namespace

double PairCounts::p01() const {
  return static_cast<double>(n01) / (n00 + n01);
}

double PairCounts::p11() const {
  return static_cast<double>(n11) / (n10 + n11);
}

double PairCounts::stationary_wet() const {
  return p01() / (1 + p01() - p11());
}

double PairCounts::persistence() const {
  return p11() - p01();
}

double PairCounts::mean_wet_spell() const {
  return 1 / (1 - p11());
}

double PairCounts::mean_dry_spell() const {
  return 1 / p01();
}

PairCounts pair_counts(std::span<const double> rain_mm, double wet_day_mm) {
  PairCounts counts;
  for (std::size_t i = 1; i < rain_mm.size(); ++i) {
    if (std::isnan(rain_mm[i]) || std::isnan(rain_mm[i - 1])) continue;
    const bool before = rain_mm[i - 1] >= wet_day_mm, now = rain_mm[i] >= wet_day_mm;
    ++(before ? (now ? counts.n11 : counts.n10) : (now ? counts.n01 : counts.n00));
  }
  return counts;
}

double RainChain::wet_chance(unsigned history, int day_of_year) const {
  const unsigned mask = (1U << static_cast<unsigned>(order)) - 1;
  return chance(coefficients[history & mask], detail::harmonic_terms(day_of_year, harmonics));
}

RainChain fit_chain(std::span<const char> wet, std::span<const int> day_of_year, int order,
                    int harmonics) {
  RainChain chain;
  chain.order = order;
  chain.harmonics = harmonics;
  const std::size_t histories = std::size_t{1} << static_cast<unsigned>(order);
  std::vector<std::vector<Bin>> bins(histories, std::vector<Bin>(366));
  for (auto& one : bins) {
    for (int j = 1; j <= 366; ++j)
      one[static_cast<std::size_t>(j - 1)].terms = detail::harmonic_terms(j, harmonics);
  }
  for (std::size_t i = kMostOrder; i < wet.size(); ++i) {
    bool known = wet[i] >= 0;
    std::size_t history = 0;
    for (std::size_t back = 1; back <= kMostOrder; ++back) {
      known = known && wet[i - back] >= 0;
      if (back <= static_cast<std::size_t>(order) && wet[i - back] == 1)
        history |= std::size_t{1} << (back - 1);
    }
    if (!known) continue;
    Bin& bin = bins[history][static_cast<std::size_t>(day_of_year[i] - 1)];
    bin.all += 1;
    bin.wet += wet[i];
    ++chain.days;
  }
  const auto size = static_cast<std::size_t>(1 + 2 * harmonics);
  for (const auto& one : bins) {
    chain.coefficients.push_back(fit_logit(one, size));
    chain.log_likelihood += log_likelihood(one, chain.coefficients.back());
  }
  const auto parameters = static_cast<double>(histories * size);
  chain.bic = parameters * exact_log(std::max(1, chain.days)) - 2 * chain.log_likelihood;
  return chain;
}

ChainChoice choose_chain(const DailyWeather& daily, const Parameters& parameters) {
  ChainChoice choice;
  const auto wet = detail::wet_days(daily, parameters.value("climate.rain.wet_day_mm"));
  const auto days = detail::days_of_year(daily);
  for (int order = 0; order <= kMostOrder; ++order) {
    for (int harmonics = 0; harmonics <= 2; ++harmonics) {
      RainChain chain = fit_chain(wet, days, order, harmonics);
      choice.candidates.push_back({order, harmonics, chain.bic, chain.log_likelihood});
      if (choice.candidates.size() == 1 || chain.bic < choice.best.bic)
        choice.best = std::move(chain);
    }
  }
  const double needed = parameters.value("climate.chain.days_least");
  if (choice.best.days < needed) {
    choice.refused = say("climate.chain_refused",
                         {{"days", std::int64_t{choice.best.days}}, {"needed", needed}});
  }
  return choice;
}

namespace detail {

std::vector<char> wet_days(const DailyWeather& daily, double wet_day_mm) {
  std::vector<char> wet;
  for (const double r : daily.rain_mm)
    wet.push_back(std::isnan(r) ? char{-1} : static_cast<char>(r >= wet_day_mm));
  return wet;
}

std::vector<int> days_of_year(const DailyWeather& daily) {
  std::vector<int> days;
  for (std::size_t i = 0; i < daily.days(); ++i) days.push_back(day_of_year(daily.day(i)));
  return days;
}

std::vector<double> harmonic_terms(int day, int harmonics) {
  std::vector<double> terms = {1};
  for (int h = 1; h <= harmonics; ++h) {
    const double angle = 2 * std::numbers::pi * h * day / 365.25;
    terms.push_back(exact_cos(angle));
    terms.push_back(exact_sin(angle));
  }
  return terms;
}

bool solve_symmetric(std::vector<double> a, std::vector<double> b, std::vector<double>& x) {
  const std::size_t n = b.size();
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = 0; j <= i; ++j) {
      double sum = a[i * n + j];
      for (std::size_t k = 0; k < j; ++k) sum -= a[i * n + k] * a[j * n + k];
      if (i == j && sum <= 0) return false;
      a[i * n + j] = i == j ? std::sqrt(sum) : sum / a[j * n + j];
    }
  }
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t k = 0; k < i; ++k) b[i] -= a[i * n + k] * b[k];
    b[i] /= a[i * n + i];
  }
  for (std::size_t i = n; i-- > 0;) {
    for (std::size_t k = i + 1; k < n; ++k) b[i] -= a[k * n + i] * b[k];
    b[i] /= a[i * n + i];
  }
  x = std::move(b);
  return true;
}

}  // namespace detail
}  // namespace wildling::climate
