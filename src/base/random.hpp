#pragma once
#include <array>
#include <cstdint>
#include <string_view>

namespace wildling {

/// The programme's seed; a type so that it is never mixed up with an index.
struct Seed {
  std::uint64_t value = 0;
};

/// What the numbers are for, from a short name: `constexpr Purpose kMortality{"mortality"};`
/// (FNV-1a over the name, so that a new purpose never renumbers the old ones).
struct Purpose {
  std::uint32_t value = 0;

  constexpr explicit Purpose(std::string_view name) : value(2166136261U) {
    for (const char c : name) value = (value ^ static_cast<std::uint8_t>(c)) * 16777619U;
  }
};

/// A counter-based random stream keyed by (seed, purpose, index): the numbers depend on the key and
/// on how many were drawn, on nothing else, so that any thread may draw any tree's luck. Generator:
/// Philox4x32-10, Salmon et al. (2011), Parallel random numbers: as easy as 1, 2, 3 (Random123).
class Stream {
 public:
  using result_type = std::uint32_t;
  Stream(Seed seed, Purpose purpose, std::uint64_t index) noexcept;

  static constexpr result_type min() { return 0; }

  static constexpr result_type max() { return 0xffffffffU; }

  result_type operator()() noexcept { return next(); }

  std::uint32_t next() noexcept;
  /// In (0, 1), 52 bits; never 0 or 1.
  double uniform() noexcept;
  /// In [0, n), n >= 1, without bias (Lemire 2019).
  std::uint32_t below(std::uint32_t n) noexcept;
  /// Standard normal (Marsaglia's polar method).
  double normal() noexcept;
  /// Gamma with mean `shape` and scale 1, shape > 0 (Marsaglia & Tsang 2000).
  double gamma(double shape) noexcept;
  /// Beta(a, b), a, b > 0.
  double beta(double a, double b) noexcept;

 private:
  void refill() noexcept;
  std::array<std::uint32_t, 4> counter_;
  std::array<std::uint32_t, 2> key_;
  std::array<std::uint32_t, 4> block_{};
  unsigned used_ = 4;
  double spare_ = 0;
  bool has_spare_ = false;
};

}  // namespace wildling
