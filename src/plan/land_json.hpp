#pragma once
#include <memory>
#include <optional>
#include <string>

#include "plan/result.hpp"
#include "store/store.hpp"

namespace wildling::plan {

/// {"sites", "blocks", "water", "stations"}: GeoJSON FeatureCollections (RFC 7946; WGS 84,
/// longitude first). Properties of a block: uid, code, site, ground_type, cover, area_ha, open,
/// method; from the plan, else null: planted (seedlings of an open block), draft (seedlings meant
/// for one on hold), rows, places. A block that the plan does not know is judged by its gates as
/// they stand.
/// @param plan  the newest plan; may be null
std::string land_text(const store::Store& store, const PlanResult* plan);

/// A picture of the land.
struct Picture {
  double west_deg = 0, south_deg = 0, east_deg = 0, north_deg = 0;
  std::string source = {};
  std::shared_ptr<const std::string> bytes = {};  ///< PNG
};

/// @param name  "hillshade". Empty when there is none.
std::optional<Picture> picture(const store::Store& store, const std::string& name);

}  // namespace wildling::plan
