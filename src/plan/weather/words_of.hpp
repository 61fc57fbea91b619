#pragma once
/// Short texts of the store and of fields, and what they mean.
#include <optional>
#include <string>
#include <vector>

#include "climate/fire.hpp"
#include "climate/verdict.hpp"
#include "ground/block.hpp"

namespace wildling::plan::weather {

std::string fire_class_name(
    climate::FireClass value);  ///< "not_high", "high", "very_high", "extreme"
std::optional<climate::FireClass> parse_fire_class(const std::string& name);

std::string verdict_name(
    climate::PlantVerdict verdict);             ///< "plant", "wait", "not_this_season", "no_advice"
std::string soil_name(climate::SoilSeen soil);  ///< "moist_to_bottom", "dry", "not_looked"

/// Month numbers between anything that is no digit; empty when one is not 1 to 12 or there is none.
std::vector<int> parse_months(const std::string& text);

/// Drained peat by its gate answer, or ground that people call peat.
bool is_peat(const ground::Block& block);

}  // namespace wildling::plan::weather
