#pragma once
/// Two stations at once, one in the open and one under trees: is the forest cooling the air?
#include <optional>
#include <span>
#include <vector>

#include "base/message.hpp"
#include "base/parameters.hpp"
#include "climate/weather.hpp"

namespace wildling::climate {

/// Ten days, counted from the first day of the log in the open.
struct PairedBlock {
  Date first = {};
  int days = 0;  ///< read at both
  double mean = 0;
};

struct PairedDifference {
  int days = 0;              ///< days read at both, in the blocks used
  int blocks = 0;            ///< ten-day means, taken as independent
  double mean = 0;           ///< open less forest
  double low = 0, high = 0;  ///< Student 95 % limits over the blocks
  std::vector<PairedBlock> parts = {};
};

struct PairedResult {
  std::optional<PairedDifference> tmax_c, vpd_kpa;  ///< VPD at the day's highest temperature
  std::optional<Message> refused;
  Message first_line;
};

/// Blocks of ten days because neighbouring days are alike; refused below
/// climate.paired.blocks_least blocks.
PairedResult paired_stations(const WeatherBook& open, const WeatherBook& forest,
                             const Parameters& parameters);

namespace detail {
/// t(0.975, n - 1) s / sqrt(n) of the means.
double student_reach(std::span<const double> means);
}  // namespace detail

}  // namespace wildling::climate
