#include "climate/rain_runs.hpp"

#include <algorithm>

namespace wildling::climate {

int longest_run(std::span<const char> flags, std::size_t begin, std::size_t end, RunCredit credit) {
  std::size_t longest = 0;
  for (std::size_t i = 0; i < flags.size();) {
    std::size_t j = i;
    while (j < flags.size() && flags[j] != 0) ++j;
    if (j > i) {
      const bool ends = j - 1 >= begin && j - 1 < end, starts = i >= begin && i < end;
      std::size_t length = 0;
      if (credit == RunCredit::cut)
        length = std::min(j, end) > std::max(i, begin) ? std::min(j, end) - std::max(i, begin) : 0;
      if ((credit == RunCredit::at_end && ends) || (credit == RunCredit::at_start && starts))
        length = j - i;
      longest = std::max(longest, length);
    }
    i = j + 1;
  }
  return static_cast<int>(longest);
}

std::vector<char> below(std::span<const double> values, double limit) {
  std::vector<char> flags;
  for (const double v : values) flags.push_back(v < limit ? 1 : 0);
  return flags;
}

std::vector<char> at_least(std::span<const double> values, double limit) {
  std::vector<char> flags;
  for (const double v : values) flags.push_back(v >= limit ? 1 : 0);
  return flags;
}

DryEvents dry_events(std::span<const double> rain_mm, int window, double limit_mm, DryWindow rule) {
  const auto w = static_cast<std::size_t>(std::max(1, window));
  std::vector<char> dry(rain_mm.size(), 0);
  for (std::size_t i = 0; i + w <= rain_mm.size(); ++i) {
    double sum = 0, most = 0;
    for (std::size_t j = i; j < i + w; ++j) {
      sum += rain_mm[j];
      most = std::max(most, rain_mm[j]);
    }
    if (!((rule == DryWindow::sum ? sum : most) < limit_mm)) continue;
    std::fill_n(dry.begin() + static_cast<std::ptrdiff_t>(i), w, 1);
  }
  DryEvents events;
  int run = 0;
  for (const char d : dry) {
    run = d != 0 ? run + 1 : 0;
    if (run == 1) ++events.events;
    if (run > 0) ++events.days;
    events.longest = std::max(events.longest, run);
  }
  return events;
}

}  // namespace wildling::climate
