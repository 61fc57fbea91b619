#include "base/random.hpp"

#include <cmath>

#include <Random123/philox.h>

#include "base/exact_math.hpp"

namespace wildling {

Stream::Stream(Seed seed, Purpose purpose, std::uint64_t index) noexcept
    : counter_{0, purpose.value, static_cast<std::uint32_t>(index),
               static_cast<std::uint32_t>(index >> 32U)},
      key_{static_cast<std::uint32_t>(seed.value), static_cast<std::uint32_t>(seed.value >> 32U)} {}

void Stream::refill() noexcept {
  const r123::Philox4x32::ctr_type counter = {{counter_[0], counter_[1], counter_[2], counter_[3]}};
  const r123::Philox4x32::key_type key = {{key_[0], key_[1]}};
  const auto words = r123::Philox4x32{}(counter, key);
  for (unsigned i = 0; i < 4; ++i) block_[i] = words[i];
  ++counter_[0];
  used_ = 0;
}

std::uint32_t Stream::next() noexcept {
  if (used_ == 4) refill();
  return block_[used_++];
}

double Stream::uniform() noexcept {
  const std::uint64_t high = next() >> 6U;
  const std::uint64_t low = next() >> 6U;
  return (static_cast<double>((high << 26U) | low) + 0.5) / 4503599627370496.0;
}

std::uint32_t Stream::below(std::uint32_t n) noexcept {
  std::uint64_t product = static_cast<std::uint64_t>(next()) * n;
  auto low = static_cast<std::uint32_t>(product);
  if (low < n) {
    const std::uint32_t threshold = (0U - n) % n;
    while (low < threshold) {
      product = static_cast<std::uint64_t>(next()) * n;
      low = static_cast<std::uint32_t>(product);
    }
  }
  return static_cast<std::uint32_t>(product >> 32U);
}

double Stream::normal() noexcept {
  if (has_spare_) {
    has_spare_ = false;
    return spare_;
  }
  for (;;) {
    const double u = 2 * uniform() - 1;
    const double v = 2 * uniform() - 1;
    const double s = u * u + v * v;
    if (s >= 1 || s == 0) continue;
    const double factor = std::sqrt(-2 * exact_log(s) / s);
    spare_ = v * factor;
    has_spare_ = true;
    return u * factor;
  }
}

double Stream::gamma(double shape) noexcept {
  if (shape < 1) return gamma(shape + 1) * exact_pow(uniform(), 1 / shape);
  const double d = shape - 1.0 / 3.0;
  const double c = 1 / std::sqrt(9 * d);
  for (;;) {
    const double x = normal();
    const double v = 1 + c * x;
    if (v <= 0) continue;
    const double v3 = v * v * v;
    if (exact_log(uniform()) < 0.5 * x * x + d - d * v3 + d * exact_log(v3)) return d * v3;
  }
}

double Stream::beta(double a, double b) noexcept {
  const double x = gamma(a);
  const double y = gamma(b);
  return x / (x + y);
}

}  // namespace wildling
