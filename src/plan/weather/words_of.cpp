#include "plan/weather/words_of.hpp"

#include <algorithm>
#include <array>
#include <cctype>

namespace wildling::plan::weather {
namespace {

constexpr std::array<const char*, 4> kClasses = {"not_high", "high", "very_high", "extreme"};
constexpr std::array<const char*, 4> kVerdicts = {"plant", "wait", "not_this_season", "no_advice"};
constexpr std::array<const char*, 3> kSoils = {"not_looked", "moist_to_bottom", "dry"};

bool is_digit(char c) {
  return std::isdigit(static_cast<unsigned char>(c)) != 0;
}

}  // namespace

std::string fire_class_name(climate::FireClass value) {
  return kClasses[static_cast<std::size_t>(value)];
}

std::optional<climate::FireClass> parse_fire_class(const std::string& name) {
  const auto found = std::find(kClasses.begin(), kClasses.end(), name);
  if (found == kClasses.end()) return {};
  return static_cast<climate::FireClass>(found - kClasses.begin());
}

std::string verdict_name(climate::PlantVerdict verdict) {
  return kVerdicts[static_cast<std::size_t>(verdict)];
}

std::string soil_name(climate::SoilSeen soil) {
  return kSoils[static_cast<std::size_t>(soil)];
}

std::vector<int> parse_months(const std::string& text) {
  std::vector<int> months;
  for (std::size_t i = 0; i < text.size();) {
    if (!is_digit(text[i])) {
      ++i;
      continue;
    }
    int month = 0;
    while (i < text.size() && is_digit(text[i]) && month < 100)
      month = 10 * month + (text[i++] - '0');
    if (month < 1 || month > 12) return {};
    if (std::find(months.begin(), months.end(), month) == months.end()) months.push_back(month);
  }
  return months;
}

bool is_peat(const ground::Block& block) {
  if (block.gates.drained_peat.answer == ground::Answer::yes) return true;
  std::string type = block.ground_type;
  std::transform(type.begin(), type.end(), type.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return type.find("peat") != std::string::npos || type.find("gambut") != std::string::npos;
}

}  // namespace wildling::plan::weather
