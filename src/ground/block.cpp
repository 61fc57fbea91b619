#include "ground/block.hpp"

#include <array>
#include <utility>

namespace wildling::ground {
namespace {

constexpr std::array<std::pair<Cover, std::string_view>, 7> kCovers = {{
    {Cover::cleared, "cleared"},
    {Cover::running_grass, "running_grass"},
    {Cover::tussock_grass, "tussock_grass"},
    {Cover::fern, "fern"},
    {Cover::climbers, "climbers"},
    {Cover::shrubs, "shrubs"},
    {Cover::under_trees, "under_trees"},
}};

}  // namespace

std::string_view cover_name(Cover cover) {
  for (const auto& pair : kCovers) {
    if (pair.first == cover) return pair.second;
  }
  return "";
}

std::optional<Cover> parse_cover(std::string_view name) {
  for (const auto& pair : kCovers) {
    if (pair.second == name) return pair.first;
  }
  return {};
}

}  // namespace wildling::ground
