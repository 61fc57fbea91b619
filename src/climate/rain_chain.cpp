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

constexpr std::size_t kDays = 366;
constexpr std::size_t kMostTerms = 5;  // constant, two waves
using Terms = std::array<double, kMostTerms>;

/// Days and wet days by history (order 3) and day of the year.
struct Counts {
  std::vector<double> wet, all;  // [history * kDays + day of the year - 1]
  int days = 0;
};

Counts count_days(std::span<const char> wet, std::span<const int> day_of_year) {
  Counts counts;
  counts.wet.assign(8 * kDays, 0);
  counts.all.assign(8 * kDays, 0);
  for (std::size_t i = kMostOrder; i < wet.size(); ++i) {
    if (wet[i] < 0 || wet[i - 1] < 0 || wet[i - 2] < 0 || wet[i - 3] < 0) continue;
    const auto history =
        static_cast<std::size_t>(wet[i - 1] | (wet[i - 2] << 1) | (wet[i - 3] << 2));
    const std::size_t bin = history * kDays + static_cast<std::size_t>(day_of_year[i] - 1);
    counts.all[bin] += 1;
    counts.wet[bin] += wet[i];
    ++counts.days;
  }
  return counts;
}

/// One history's days as bins that share their terms.
struct Bins {
  std::vector<const double*> terms;
  std::vector<double> wet, all;
};

// Without waves every day is alike: one bin.
Bins bins_of(const Counts& counts, int order, std::size_t history, int harmonics) {
  const std::size_t mask = (std::size_t{1} << static_cast<unsigned>(order)) - 1;
  Bins bins;
  for (std::size_t day = 0; day < kDays; ++day) {
    double wet = 0, all = 0;
    for (std::size_t h = 0; h < 8; ++h) {
      if ((h & mask) != history) continue;
      wet += counts.wet[h * kDays + day];
      all += counts.all[h * kDays + day];
    }
    if (all <= 0) continue;
    if (harmonics == 0 && !bins.all.empty()) {
      bins.wet[0] += wet;
      bins.all[0] += all;
      continue;
    }
    bins.terms.push_back(detail::year_terms(static_cast<int>(day) + 1));
    bins.wet.push_back(wet);
    bins.all.push_back(all);
  }
  return bins;
}

double logit(const double* coefficients, const double* terms, std::size_t size) {
  double sum = 0;
  for (std::size_t i = 0; i < size; ++i) sum += coefficients[i] * terms[i];
  return sum;
}

double chance(double z) {
  return 1 / (1 + exact_exp(-z));
}

struct Normal {
  std::array<double, kMostTerms * kMostTerms> hessian{};
  Terms gradient{};
};

// One Newton system of the penalised likelihood; only the lower triangle of the hessian is filled.
Normal normal_of(const Bins& bins, const Terms& c, std::size_t size) {
  Normal normal;
  for (std::size_t b = 0; b < bins.all.size(); ++b) {
    const double* terms = bins.terms[b];
    const double p = chance(logit(c.data(), terms, size));
    const double weight = bins.all[b] * p * (1 - p), off = bins.wet[b] - bins.all[b] * p;
    for (std::size_t i = 0; i < size; ++i) {
      normal.gradient[i] += off * terms[i];
      const double row = weight * terms[i];
      for (std::size_t j = 0; j <= i; ++j) normal.hessian[i * size + j] += row * terms[j];
    }
  }
  for (std::size_t i = 0; i < size; ++i) {
    normal.hessian[i * size + i] += kRidge;
    normal.gradient[i] -= kRidge * c[i];
  }
  return normal;
}

// Newton steps on the penalised likelihood, from `start`.
std::vector<double> fit_logit(const Bins& bins, std::size_t size, std::span<const double> start) {
  Terms c{};
  std::copy_n(start.begin(), std::min(size, start.size()), c.begin());
  for (int step = 0; step < 50; ++step) {
    Normal normal = normal_of(bins, c, size);
    if (!detail::solve_in_place(normal.hessian.data(), normal.gradient.data(), size)) break;
    double largest = 0;
    for (std::size_t i = 0; i < size; ++i) {
      c[i] += std::clamp(normal.gradient[i], -2.0, 2.0);
      largest = std::max(largest, std::abs(normal.gradient[i]));
    }
    if (largest < 1e-10) break;
  }
  return {c.begin(), c.begin() + static_cast<std::ptrdiff_t>(size)};
}

// ln p = -ln(1 + e^-z), ln(1 - p) = ln p - z.
double log_likelihood(const Bins& bins, const std::vector<double>& c) {
  double sum = 0;
  for (std::size_t b = 0; b < bins.all.size(); ++b) {
    const double z = logit(c.data(), bins.terms[b], c.size());
    const double log_p = z > -30 ? -exact_log(1 + exact_exp(-z)) : z;
    sum += bins.all[b] * log_p - (bins.all[b] - bins.wet[b]) * z;
  }
  return sum;
}

// `before`: the same order with fewer waves, to start from; may be null.
RainChain fit_counts(const Counts& counts, int order, int harmonics, const RainChain* before) {
  RainChain chain;
  chain.order = order;
  chain.harmonics = harmonics;
  chain.days = counts.days;
  const std::size_t histories = std::size_t{1} << static_cast<unsigned>(order);
  const auto size = static_cast<std::size_t>(1 + 2 * harmonics);
  for (std::size_t h = 0; h < histories; ++h) {
    const Bins bins = bins_of(counts, order, h, harmonics);
    std::span<const double> start;
    if (before != nullptr) start = before->coefficients[h];
    chain.coefficients.push_back(fit_logit(bins, size, start));
    chain.log_likelihood += log_likelihood(bins, chain.coefficients.back());
  }
  const auto parameters = static_cast<double>(histories * size);
  chain.bic = parameters * exact_log(std::max(1, chain.days)) - 2 * chain.log_likelihood;
  return chain;
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
  const std::vector<double>& c = coefficients[history & ((1U << static_cast<unsigned>(order)) - 1)];
  return chance(logit(c.data(), detail::year_terms(day_of_year), c.size()));
}

RainChain fit_chain(std::span<const char> wet, std::span<const int> day_of_year, int order,
                    int harmonics) {
  return fit_counts(count_days(wet, day_of_year), order, harmonics, nullptr);
}

ChainChoice choose_chain(const DailyWeather& daily, const Parameters& parameters) {
  ChainChoice choice;
  const auto wet = detail::wet_days(daily, parameters.value("climate.rain.wet_day_mm"));
  const Counts counts = count_days(wet, detail::days_of_year(daily));
  for (int order = 0; order <= kMostOrder; ++order) {
    RainChain before;
    for (int harmonics = 0; harmonics <= 2; ++harmonics) {
      RainChain chain = fit_counts(counts, order, harmonics, harmonics > 0 ? &before : nullptr);
      choice.candidates.push_back({order, harmonics, chain.bic, chain.log_likelihood});
      if (choice.candidates.size() == 1 || chain.bic < choice.best.bic) choice.best = chain;
      before = std::move(chain);
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
  wet.reserve(daily.days());
  for (const double r : daily.rain_mm)
    wet.push_back(std::isnan(r) ? char{-1} : static_cast<char>(r >= wet_day_mm));
  return wet;
}

std::vector<double> harmonic_terms(int day_of_year, int harmonics) {
  const double* terms = year_terms(day_of_year);
  return {terms, terms + 1 + 2 * harmonics};
}

const double* year_terms(int day_of_year) {
  static const std::vector<double> table = [] {
    std::vector<double> all;
    for (int day = 1; day <= static_cast<int>(kDays); ++day) {
      all.push_back(1);
      for (int h = 1; h <= 2; ++h) {
        const double angle = 2 * std::numbers::pi * h * day / 365.25;
        all.push_back(exact_cos(angle));
        all.push_back(exact_sin(angle));
      }
    }
    return all;
  }();
  return table.data() + static_cast<std::size_t>(day_of_year - 1) * kMostTerms;
}

bool solve_in_place(double* a, double* b, std::size_t n) {
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
  return true;
}

bool solve_symmetric(std::vector<double> a, std::vector<double> b, std::vector<double>& x) {
  if (!solve_in_place(a.data(), b.data(), b.size())) return false;
  x = std::move(b);
  return true;
}

}  // namespace detail
}  // namespace wildling::climate
