#include "plan/sheets.hpp"

#include <array>
#include <string_view>

namespace wildling::plan {

std::vector<std::string> species_codes(std::size_t count) {
  constexpr std::string_view letters = "ABCDEFGHJKLMNPRSTUVWXYZ";
  const std::size_t digits = count <= letters.size() ? 0 : (count <= 9 * letters.size() ? 9 : 99);
  std::vector<std::string> codes;
  codes.reserve(count);
  for (std::size_t i = 0; i < count; ++i) {
    std::string code(1, letters[digits == 0 ? i : (i / digits) % letters.size()]);
    if (digits == 9) code += std::to_string(i % digits + 1);
    if (digits == 99) code += (i % digits < 9 ? "0" : "") + std::to_string(i % digits + 1);
    codes.push_back(code);
  }
  return codes;
}

std::string job_word(SheetJob job) {
  constexpr std::array keys{"mark_places",  "dig_pits",   "plant",      "refill",
                            "weed_rings",   "weed_lines", "weed_whole", "press_grass",
                            "cut_climbers", "firebreak",  "count"};
  return keys[static_cast<std::size_t>(job)];
}

std::string hazard_word(Hazard hazard) {
  constexpr std::array keys{"heat",     "lightning", "tools",          "snakes",    "large_animals",
                            "water",    "slope",     "smoke_and_fire", "dead_wood", "lone_work",
                            "vehicles", "wasps",     "herbicide",      "climbing"};
  return keys[static_cast<std::size_t>(hazard)];
}

}  // namespace wildling::plan
