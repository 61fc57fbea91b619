// Any bytes as a boundary file: refused with a sentence, or read into sites that have an area.
#include <cstdlib>
#include <string_view>

#include "intake/boundaries.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace wildling::intake;
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);
  try {
    for (const SiteShape& site : read_boundaries_bytes(bytes, "fuzz").sites) {
      if (!(site.area_m2 > 0) || site.name.empty() || site.parts == 0) std::abort();
    }
  } catch (const wildling::Error&) {
  }
  try {
    for (const auto& line : read_lines_bytes(bytes, "fuzz", {"EPSG:32650", true}).lines) {
      if (line.points.size() < 2) std::abort();
    }
  } catch (const wildling::Error&) {
  }
  return 0;
}
