// Any bytes as an elevation model: refused with a sentence, or read into a grid of which a picture
// of bounded size is made.
#include <cstdlib>
#include <string_view>

#include "intake/elevation.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace wildling;
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);
  static const Parameters parameters = [] {
    Parameters small = Parameters::shipped();
    small.set("intake.elevation.most_pixels", 10000, Origin::told, "fuzz", "");
    return small;
  }();
  ground::Shape site;
  site.parts = {{{{113.5, -0.81}, {113.502, -0.81}, {113.502, -0.808}, {113.5, -0.808}}, {}}};
  for (const char* crs : {"", "EPSG:4326"}) {
    try {
      intake::ElevationOptions options;
      options.crs = crs;
      const auto file = intake::read_elevation_bytes(bytes, "fuzz", options);
      if (!(file.cell_m > 0) || file.columns < 1 || file.rows < 1) std::abort();
      const auto shade = intake::hillshade(file, {site}, parameters);
      if (shade.png.empty() || !(shade.covered_share > 0)) std::abort();
    } catch (const Error&) {
    }
  }
  return 0;
}
