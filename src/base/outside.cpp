#include "base/outside.hpp"

#include <chrono>
#include <random>

#include <fmt/format.h>

#include "base/date.hpp"

namespace wildling {
namespace {

std::string utc_text(std::int64_t unix_ms) {
  using std::chrono::floor;
  const std::chrono::sys_time<std::chrono::milliseconds> time{std::chrono::milliseconds{unix_ms}};
  const Date day = floor<std::chrono::days>(time);
  const auto ms = (time - day).count();
  return fmt::format("{}T{:02}:{:02}:{:02}.{:03}Z", iso_date(day), ms / 3600000, ms / 60000 % 60,
                     ms / 1000 % 60, ms % 1000);
}

}  // namespace

std::string Machine::new_uid() {
  std::random_device device;  // getrandom on Linux
  return fmt::format("{:08x}{:08x}{:08x}{:08x}", device(), device(), device(), device());
}

std::string Machine::now_utc() {
  const auto now = std::chrono::system_clock::now().time_since_epoch();
  return utc_text(std::chrono::duration_cast<std::chrono::milliseconds>(now).count());
}

Rehearsal::Rehearsal(Seed seed, std::int64_t start_unix_s)
    : stream_(seed, Purpose{"uid"}, 0), unix_s_(start_unix_s) {}

std::string Rehearsal::new_uid() {
  return fmt::format("{:08x}{:08x}{:08x}{:08x}", stream_.next(), stream_.next(), stream_.next(),
                     stream_.next());
}

std::string Rehearsal::now_utc() {
  return utc_text(1000 * unix_s_++);
}

}  // namespace wildling
