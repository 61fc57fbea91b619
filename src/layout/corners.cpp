#include "layout/corners.hpp"

#include <algorithm>
#include <cmath>

namespace wildling::layout {
namespace {

using ground::Xy;

double distance_to_segment_m(Xy p, Xy a, Xy b) {
  const double dx = b.x_m - a.x_m;
  const double dy = b.y_m - a.y_m;
  const double square = dx * dx + dy * dy;
  double t = square > 0 ? ((p.x_m - a.x_m) * dx + (p.y_m - a.y_m) * dy) / square : 0;
  t = std::clamp(t, 0.0, 1.0);
  const double ex = p.x_m - a.x_m - t * dx;
  const double ey = p.y_m - a.y_m - t * dy;
  return std::sqrt(ex * ex + ey * ey);
}

/// Marks what to keep between ring[first] and ring[last]; its own stack, as walked tracks are long.
void mark(const std::vector<Xy>& ring, std::size_t from, std::size_t to, double tolerance_m,
          std::vector<bool>& keep) {
  std::vector<std::pair<std::size_t, std::size_t>> open = {{from, to}};
  while (!open.empty()) {
    const std::size_t first = open.back().first;
    const std::size_t last = open.back().second;
    open.pop_back();
    double worst = tolerance_m;
    std::size_t at = last;
    for (std::size_t i = first + 1; i < last; ++i) {
      const double d = distance_to_segment_m(ring[i], ring[first], ring[last]);
      if (d > worst) {
        worst = d;
        at = i;
      }
    }
    if (at == last) continue;
    keep[at] = true;
    open.emplace_back(first, at);
    open.emplace_back(at, last);
  }
}

std::size_t farthest_from(const std::vector<Xy>& ring, std::size_t last, Xy a, Xy b) {
  std::size_t at = 1;
  double worst = -1;
  for (std::size_t i = 1; i < last; ++i) {
    const double d = distance_to_segment_m(ring[i], a, b);
    if (d > worst) {
      worst = d;
      at = i;
    }
  }
  return at;
}

std::vector<Xy> thinned(std::vector<Xy> ring, double tolerance_m) {
  if (ring.size() <= 3) return ring;
  const auto north = std::max_element(ring.begin(), ring.end(), [](const Xy& a, const Xy& b) {
    return a.y_m != b.y_m ? a.y_m < b.y_m : a.x_m > b.x_m;
  });
  std::rotate(ring.begin(), north, ring.end());
  ring.push_back(ring.front());
  const std::size_t last = ring.size() - 1;
  std::vector<bool> keep(ring.size(), false);
  const std::size_t far = farthest_from(ring, last, ring[0], ring[0]);
  keep[0] = true;
  keep[far] = true;
  keep[farthest_from(ring, last, ring[0], ring[far])] = true;  // so that a thin ring keeps an area
  std::size_t from = 0;
  for (std::size_t i = 1; i <= last; ++i) {
    if (!keep[i] && i != last) continue;
    mark(ring, from, i, tolerance_m, keep);
    from = i;
  }
  std::vector<Xy> out;
  for (std::size_t i = 0; i < last; ++i) {
    if (keep[i]) out.push_back(ring[i]);
  }
  return out;
}

}  // namespace

std::vector<std::vector<Xy>> corners(const ground::XyShape& block, double tolerance_m) {
  std::vector<std::vector<Xy>> out;
  for (const auto& part : block) out.push_back(thinned(part.outer, tolerance_m));
  return out;
}

}  // namespace wildling::layout
