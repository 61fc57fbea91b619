#include <fmt/format.h>

#include "desk/routes.hpp"
#include "plan/land_json.hpp"
#include "plan/places_buffer.hpp"

namespace wildling::desk {
namespace {

Answer land(Desk& desk, const Request& request, const std::vector<std::string>&) {
  std::shared_ptr<const plan::PlanResult> result;
  if (desk.plan_number() > 0) result = desk.newest_plan();
  const auto text = desk.cached<std::string>(
      "land", [&](const store::Store& store) { return plan::land_text(store, result.get()); });
  return tagged(text_answer(text, "application/json"), request,
                "land-" + std::to_string(desk.data_version()));
}

// Thousands of chunks of seedlings, drawn by the map as they come.
Answer places(Desk& desk, const Request& request, const std::vector<std::string>&) {
  const auto result = desk.newest_plan();
  const auto bytes = desk.of_plan<std::string>(
      "places", [&](const store::Store&) { return plan::places_buffer(*result); });
  return tagged(text_answer(bytes, "application/octet-stream"), request,
                "places-" + std::to_string(result->head.number));
}

Answer hillshade(Desk& desk, const Request& request, const std::vector<std::string>&) {
  const auto picture = desk.cached<std::optional<plan::Picture>>(
      "hillshade", [](const store::Store& store) { return plan::picture(store, "hillshade"); });
  if (!*picture) return refusal(404, "", say("desk.no_hillshade"));
  const plan::Picture& found = **picture;
  Answer answer = text_answer(found.bytes, "image/png");
  answer.headers.emplace("X-Bounds", fmt::format("{},{},{},{}", found.west_deg, found.south_deg,
                                                 found.east_deg, found.north_deg));
  return tagged(std::move(answer), request, "hillshade-" + std::to_string(desk.data_version()));
}

}  // namespace

Routes map_routes() {
  return {{"GET", "/api/land", land},
          {"GET", "/api/places", places},
          {"GET", "/api/hillshade", hillshade}};
}

}  // namespace wildling::desk
