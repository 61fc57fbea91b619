#pragma once
#include <cstdint>
#include <string>
#include <string_view>

#include "base/random.hpp"

namespace wildling {

/// Where ids and times come from, passed in so that tests can fix them. No other code reads a
/// clock.
class Outside {
 public:
  Outside() = default;
  Outside(const Outside&) = default;
  Outside& operator=(const Outside&) = default;
  virtual ~Outside() = default;

  /// 32 hexadecimal digits: 128 random bits, never given twice.
  virtual std::string new_uid() = 0;
  /// "2026-11-25T04:37:13.123Z".
  virtual std::string now_utc() = 0;
};

/// The machine's random source and clock.
class Machine : public Outside {
 public:
  std::string new_uid() override;
  std::string now_utc() override;
};

/// The same ids and times every time: uids from a stream, the clock steps one second a call.
class Rehearsal : public Outside {
 public:
  explicit Rehearsal(Seed seed, std::int64_t start_unix_s = 1'700'000'000);
  std::string new_uid() override;
  std::string now_utc() override;

 private:
  Stream stream_;
  std::int64_t unix_s_;
};

}  // namespace wildling
