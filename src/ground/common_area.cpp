#include "ground/common_area.hpp"

#include "ground/planar.hpp"

namespace wildling::ground {

double common_area_m2(const Shape& a, const Shape& b) {
  if (a.parts.empty() || b.parts.empty()) return 0;
  const Frame frame(middle(a));
  const planar::Context context;
  double sum = 0;
  const XyShape first = to_xy(a, frame);
  const XyShape second = to_xy(b, frame);
  for (const XyPolygon& one : first) {
    for (const XyPolygon& other : second) sum += area_m2(planar::common(context, one, other));
  }
  return sum;
}

}  // namespace wildling::ground
