#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "ground/gates.hpp"
#include "ground/shape.hpp"

namespace wildling::ground {

/// What covers the ground now and competes with a seedling.
enum class Cover { cleared, running_grass, tussock_grass, fern, climbers, shrubs, under_trees };

/// "running_grass" ...; the label is word key "ground.cover.NAME".
std::string_view cover_name(Cover cover);
std::optional<Cover> parse_cover(std::string_view name);

/// The piece of ground that is planned, planted and counted as one.
struct Block {
  std::string uid = {};
  std::string code = {};  ///< what people read: "B3"
  std::string site = {};  ///< code of its site
  Shape shape = {};
  std::string ground_type = {};  ///< the user's word: "slope", "river bank", "wet foot"
  Cover cover = Cover::running_grass;
  double slope_deg = 0;  ///< meaningless unless slope_known
  bool slope_known = false;
  double vertex_error_m = 0;  ///< standard deviation of a boundary vertex per coordinate
  Gates gates = {};
  std::vector<Line> water_lines = {};

  bool operator==(const Block&) const = default;
};

}  // namespace wildling::ground
