#pragma once
/// Runs of wet or dry days and windows without rain, with the choices that published indices differ
/// in.
#include <cstddef>
#include <span>
#include <vector>

namespace wildling::climate {

/// Which period a run belongs to when it crosses a border.
enum class RunCredit {
  cut,      ///< each part counts in its own period
  at_end,   ///< whole, in the period in which it ends
  at_start  ///< whole, in the period in which it begins
};

/// Longest run of 1 in [begin, end) of `flags`; runs outside may reach in.
int longest_run(std::span<const char> flags, std::size_t begin, std::size_t end, RunCredit credit);

std::vector<char> below(std::span<const double> values, double limit);     ///< NaN is not below
std::vector<char> at_least(std::span<const double> values, double limit);  ///< NaN is not at least

enum class DryWindow {
  sum,       ///< the sum over the window is below the limit
  every_day  ///< every day of it is
};

struct DryEvents {
  int events = 0, days = 0, longest = 0;  ///< runs of days that lie in at least one dry window
};

DryEvents dry_events(std::span<const double> rain_mm, int window, double limit_mm, DryWindow rule);

}  // namespace wildling::climate
