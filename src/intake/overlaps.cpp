#include "intake/overlaps.hpp"

#include <algorithm>
#include <cstddef>
#include <vector>

#include "ground/frame.hpp"
#include "ground/planar.hpp"

namespace wildling::intake {
namespace {

struct Box {
  double west = 0, south = 0, east = 0, north = 0;
};

Box box_of(const ground::Shape& shape) {
  const ground::LonLat first = shape.parts.front().outer.front();
  Box box{first.lon_deg, first.lat_deg, first.lon_deg, first.lat_deg};
  for (const ground::Polygon& part : shape.parts) {
    for (const ground::LonLat p : part.outer) {
      box.west = std::min(box.west, p.lon_deg);
      box.east = std::max(box.east, p.lon_deg);
      box.south = std::min(box.south, p.lat_deg);
      box.north = std::max(box.north, p.lat_deg);
    }
  }
  return box;
}

bool apart(const Box& a, const Box& b) {
  return a.east <= b.west || b.east <= a.west || a.north <= b.south || b.north <= a.south;
}

double shared_m2(const ground::Shape& a, const ground::Shape& b) {
  const ground::Frame frame(ground::middle(a));
  const ground::planar::Context context;
  const ground::XyShape ours = ground::to_xy(a, frame);
  const ground::XyShape theirs = ground::to_xy(b, frame);
  // a corner that touches its own outline may cross it by a rounding in another plane
  if (!ground::planar::valid(context, ours) || !ground::planar::valid(context, theirs)) return 0;
  double area = 0;
  for (const ground::XyPolygon& one : ours) {
    for (const ground::XyPolygon& other : theirs) {
      area += ground::area_m2(ground::planar::common(context, one, other));
    }
  }
  return area;
}

}  // namespace

void tell_overlaps(BoundaryFile& file, const std::string& name, double share_told) {
  std::vector<Box> boxes;
  for (const SiteShape& site : file.sites) boxes.push_back(box_of(site.shape));
  for (std::size_t i = 0; i < file.sites.size(); ++i) {
    for (std::size_t k = i + 1; k < file.sites.size(); ++k) {
      if (apart(boxes[i], boxes[k])) continue;
      const SiteShape& one = file.sites[i];
      const SiteShape& other = file.sites[k];
      const double shared = shared_m2(one.shape, other.shape);
      if (shared < share_told * std::min(one.area_m2, other.area_m2)) continue;
      file.findings.push_back(
          {Severity::note, name,
           say("intake.sites_overlap",
               {{"one", one.name}, {"other", other.name}, {"ha", shared / 10000}})});
    }
  }
}

}  // namespace wildling::intake
