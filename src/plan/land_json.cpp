#include "plan/land_json.hpp"

#include <nlohmann/json.hpp>

#include "plan/geometry.hpp"
#include "plan/land.hpp"
#include "plan/programme.hpp"

namespace wildling::plan {
namespace {

using nlohmann::json;
using store::blob_of;
using store::is_null;
using store::Row;
using store::text_of;

json position(const ground::LonLat& at) {
  return json::array({at.lon_deg, at.lat_deg});
}

json line(const std::vector<ground::LonLat>& points) {
  json list = json::array();
  for (const ground::LonLat& at : points) list.push_back(position(at));
  return list;
}

// GeoJSON closes its rings.
json ring(const std::vector<ground::LonLat>& points) {
  json list = line(points);
  if (!points.empty() && !(points.front() == points.back()))
    list.push_back(position(points.front()));
  return list;
}

json shape_json(const ground::Shape& shape) {
  json polygons = json::array();
  for (const ground::Polygon& part : shape.parts) {
    json rings = json::array({ring(part.outer)});
    for (const auto& hole : part.holes) rings.push_back(ring(hole));
    polygons.push_back(std::move(rings));
  }
  return {{"type", "MultiPolygon"}, {"coordinates", std::move(polygons)}};
}

json feature(json geometry, json properties) {
  return {{"type", "Feature"},
          {"geometry", std::move(geometry)},
          {"properties", std::move(properties)}};
}

json collection(json features) {
  return {{"type", "FeatureCollection"}, {"features", std::move(features)}};
}

const BlockPart* part_of(const PlanResult* plan, const std::string& uid) {
  if (plan == nullptr) return nullptr;
  for (const BlockPart& part : plan->blocks) {
    if (part.block.uid == uid) return &part;
  }
  return nullptr;
}

json block_json(const ground::Block& block, const BlockPart* planned,
                const Parameters& parameters) {
  const BlockPart judged = planned == nullptr ? judge_block(block, parameters) : BlockPart{};
  const BlockPart& part = planned == nullptr ? judged : *planned;
  json properties = {{"uid", block.uid},
                     {"code", block.code},
                     {"site", block.site},
                     {"ground_type", block.ground_type},
                     {"cover", ground::cover_name(block.cover)},
                     {"area_ha", part.area_ha},
                     {"open", part.open},
                     {"method", part.method},
                     {"planted", nullptr},
                     {"draft", nullptr},
                     {"rows", nullptr},
                     {"places", nullptr}};
  if (planned != nullptr) {
    properties["planted"] = part.open ? part.planted : 0;
    properties["draft"] = part.open ? 0 : part.planted;
    properties["rows"] = part.rows;
    properties["places"] = part.places;
  }
  return feature(shape_json(block.shape), std::move(properties));
}

json sites_json(const store::Store& store) {
  json features = json::array();
  for (const Row& row : store.rows("sites"))
    features.push_back(feature(shape_json(to_shape(store::decode(blob_of(row, "geom")))),
                               {{"code", text_of(row, "code")}, {"name", text_of(row, "name")}}));
  return collection(std::move(features));
}

json water_json(const store::Store& store) {
  json features = json::array();
  for (const Row& row : store.rows("water_lines")) {
    const ground::Line found = to_line(store::decode(blob_of(row, "geom")));
    features.push_back(feature({{"type", "LineString"}, {"coordinates", line(found.points)}},
                               {{"name", text_of(row, "name")}, {"kind", text_of(row, "kind")}}));
  }
  return collection(std::move(features));
}

json stations_json(const store::Store& store) {
  json features = json::array();
  for (const Row& row : store.rows("stations")) {
    if (is_null(row, "geom")) continue;
    const auto geometry = store::decode(blob_of(row, "geom"));
    const auto* at = std::get_if<store::Position>(&geometry);
    if (at == nullptr) continue;
    features.push_back(
        feature({{"type", "Point"}, {"coordinates", json::array({at->lon_deg, at->lat_deg})}},
                {{"name", text_of(row, "name")}}));
  }
  return collection(std::move(features));
}

}  // namespace

std::string land_text(const store::Store& store, const PlanResult* plan) {
  const Parameters parameters = programme_parameters(store);
  json blocks = json::array();
  for (const ground::Block& block : programme_blocks(store))
    blocks.push_back(block_json(block, part_of(plan, block.uid), parameters));
  return json{{"sites", sites_json(store)},
              {"blocks", collection(std::move(blocks))},
              {"water", water_json(store)},
              {"stations", stations_json(store)}}
      .dump(-1, ' ', false, json::error_handler_t::replace);
}

std::optional<Picture> picture(const store::Store& store, const std::string& name) {
  const auto rows = store.rows("pictures", store::Filter{}.with("name", store::Value{name}));
  if (rows.empty()) return {};
  const Row& row = rows.front();
  Picture found;
  found.west_deg = store::real_of(row, "west_deg").value_or(0);
  found.south_deg = store::real_of(row, "south_deg").value_or(0);
  found.east_deg = store::real_of(row, "east_deg").value_or(0);
  found.north_deg = store::real_of(row, "north_deg").value_or(0);
  found.source = text_of(row, "source");
  const store::Blob bytes = blob_of(row, "picture");
  found.bytes = std::make_shared<const std::string>(bytes.begin(), bytes.end());
  return found;
}

}  // namespace wildling::plan
