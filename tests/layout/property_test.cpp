#include <numeric>
#include <set>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "help.hpp"
#include "layout/assign.hpp"
#include "layout/baseline.hpp"
#include "layout/code.hpp"
#include "layout/turn.hpp"

namespace wildling::layout {
namespace {

using ground::Xy;
using ground::XyShape;

double between(double low, double high) {
  return low + (high - low) * (*rc::gen::inRange(0, 10'001) / 10'000.0);
}

XyShape any_block() {
  std::vector<double> radii;
  const std::size_t n = *rc::gen::inRange<std::size_t>(3, 14);
  for (std::size_t i = 0; i < n; ++i) radii.push_back(between(15, 45));
  ground::XyPolygon part;
  part.outer = star(radii, between(-500, 500), between(-500, 500));
  XyShape block = {part};
  if (*rc::gen::inRange(0, 2) == 1 && n > 5) {
    const Xy middle{(part.outer[0].x_m + part.outer[n / 2].x_m) / 2,
                    (part.outer[0].y_m + part.outer[n / 2].y_m) / 2};
    ground::XyPolygon house;
    house.outer = star({3, 4, 5, 3, 4}, middle.x_m, middle.y_m);
    bool fits = true;
    for (const Xy& p : house.outer) fits = fits && depth_m(p, block) > 1;
    if (fits) block[0].holes.push_back(house.outer);
  }
  return block;
}

Grid any_grid(double least_m) {
  Grid grid = *rc::gen::inRange(0, 2) == 0 ? square_grid(between(least_m, 4), 0, 0, 0)
                                           : triangular_grid(between(least_m, 4), 0, 0, 0);
  if (*rc::gen::inRange(0, 3) == 0) grid.row_spacing_m *= 1.5;
  grid.row_bearing_deg = between(-180, 540);
  return grid;
}

/// Every lattice point near the block, the slow way.
std::vector<Xy> lattice_points(const Grid& grid, double reach_m, Xy middle) {
  const Direction d = direction_of(grid.row_bearing_deg);
  const double u0 = middle.x_m * d.east + middle.y_m * d.north;
  const double v0 = middle.x_m * d.north - middle.y_m * d.east;
  std::vector<Xy> out;
  for (int k = static_cast<int>((v0 - reach_m) / grid.row_spacing_m) - 1;
       k * grid.row_spacing_m < v0 + reach_m; ++k) {
    const double shift = grid.pattern == Pattern::triangular && (k & 1) != 0 ? 0.5 : 0;
    for (int j = static_cast<int>((u0 - reach_m) / grid.spacing_m) - 1;
         j * grid.spacing_m < u0 + reach_m; ++j) {
      const double u = (j + shift) * grid.spacing_m;
      const double v = k * grid.row_spacing_m;
      out.push_back({u * d.east + v * d.north, u * d.north - v * d.east});
    }
  }
  return out;
}

RC_GTEST_PROP(PlacesProperty, AreTheLatticePointsInsideAndFarEnoughFromTheEdge, ()) {
  const XyShape block = any_block();
  Grid grid = any_grid(1);
  grid.setback_edge_m = *rc::gen::inRange(0, 2) == 0 ? 0 : between(0.1, 6);
  const Places p = places(block, {}, grid);
  std::set<std::pair<std::int32_t, std::int32_t>> drawn;
  for (std::size_t i = 0; i < p.size(); ++i) drawn.emplace(p.x_mm[i], p.y_mm[i]);
  RC_ASSERT(drawn.size() == p.size());
  for (std::size_t i = 0; i < p.size(); ++i) {
    // never nearer than the setback; without one, a place on the line may round 1 mm outside
    RC_ASSERT(depth_m(p.at(i), block) >= (grid.setback_edge_m > 0 ? grid.setback_edge_m : -0.002));
  }
  std::size_t must = 0;
  for (const Xy& q : lattice_points(grid, 100, block[0].outer[0])) {
    if (depth_m(q, block) < grid.setback_edge_m * 1.011 + 0.006)
      continue;  // bends are taken up to 1 % wider
    ++must;
    const std::pair<std::int32_t, std::int32_t> key{std::lround(q.x_m * 1000),
                                                    std::lround(q.y_m * 1000)};
    bool found = false;
    for (int dx = -1; dx <= 1; ++dx) {
      for (int dy = -1; dy <= 1; ++dy)
        found = found || drawn.count({key.first + dx, key.second + dy}) > 0;
    }
    RC_ASSERT(found);
  }
  RC_ASSERT(must <= p.size());
}

RC_GTEST_PROP(PlacesProperty, TwoBlocksThatShareABorderShareTheirPlacesWithoutLossOrDouble, ()) {
  Grid grid = any_grid(0.7);
  grid.anchor = {
      0.3137171717,
      0.1713131313};  // so that no place lies on the outer edge, which is cut in other pieces
  const double x = between(10, 40);
  const double tilt = between(-8, 8);
  ground::XyPolygon left;
  left.outer = {{0, 0}, {x, 0}, {x + tilt, 40}, {0, 40}};
  ground::XyPolygon right;
  right.outer = {{x, 0}, {60, 0}, {60, 40}, {x + tilt, 40}};
  const std::size_t parts = places({left}, {}, grid).size() + places({right}, {}, grid).size();
  RC_ASSERT(parts == places(rectangle(60, 40), {}, grid).size());
}

RC_GTEST_PROP(PlacesProperty, AddressesAndLatticePlacesAreFoundAgain, ()) {
  const Places p = places(any_block(), {}, any_grid(2));
  std::set<std::uint32_t> turns;
  for (std::size_t i = 0; i < p.size(); ++i) {
    const Address address = address_of(p, i);
    RC_ASSERT(place_at(p, address) == std::optional<std::size_t>(i));
    RC_ASSERT(place_at_lattice(p, p.rows[address.row - 1].lattice, column_of(p, i)) ==
              std::optional<std::size_t>(i));
    turns.insert(walking_turn(p, i));
  }
  RC_ASSERT(turns.size() == p.size());
  RC_ASSERT(turns.empty() || (*turns.begin() == 1 && *turns.rbegin() == p.size()));
}

std::vector<int> equal_counts(std::size_t sum, int species) {
  std::vector<int> counts(static_cast<std::size_t>(species), static_cast<int>(sum) / species);
  for (std::size_t i = 0; i < sum % static_cast<std::size_t>(species); ++i) ++counts[i];
  return counts;
}

RC_GTEST_PROP(AssignProperty, CountsAreExactAndLikeNeighboursAreApartBelowAFifthEach, ()) {
  const Places p = places(any_block(), {}, any_grid(1));
  RC_PRE(p.size() >= 60U);
  const bool corners = *rc::gen::inRange(0, 2) == 1;
  const Neighbours near = corners ? Neighbours::sides_and_corners : Neighbours::sides;
  const int species =
      corners ? *rc::gen::inRange(9, 31) : *rc::gen::inRange(6, 31);  // shares to 11 and 17 %
  const std::size_t planted = p.size() - (*rc::gen::inRange(0, 2) == 0 ? 0 : p.size() / 5);
  const std::vector<int> counts = equal_counts(planted, species);
  const auto seed = *rc::gen::arbitrary<std::uint64_t>();
  const Assignment a = assign(p, counts, Seed{seed}, 3, near);
  std::vector<int> got(counts.size(), 0);
  std::size_t empty = 0;
  for (const std::uint8_t s : a.species) {
    if (s == kEmptyPlace) {
      ++empty;
    } else {
      ++got[s];
    }
  }
  RC_ASSERT(got == counts);
  RC_ASSERT(empty == p.size() - planted);
  RC_ASSERT(a.like_pairs == count_like_pairs(p, a.species, near));
  RC_ASSERT(a.like_pairs == 0);
}

RC_GTEST_PROP(AssignProperty, CountsStayExactWhenNoArrangementExists, ()) {
  const Places p = places(any_block(), {}, any_grid(2));
  RC_PRE(p.size() >= 4U);
  const int n = static_cast<int>(p.size());
  const int most = *rc::gen::inRange(0, n + 1);
  const std::vector<int> counts = {most, (n - most) / 2, n - most - (n - most) / 2};
  const Assignment a = assign(p, counts, Seed{1}, 0);
  std::vector<int> got(3, 0);
  for (const std::uint8_t s : a.species) ++got.at(s);
  RC_ASSERT(got == counts);
  RC_ASSERT(a.like_pairs >= a.fewest_like_pairs);
}

RC_GTEST_PROP(CodeProperty, ALayoutReadsBackAndItsPlacesAreRecomputed, ()) {
  const XyShape block = any_block();
  const Places p = places(block, {}, any_grid(2));
  const Assignment a = assign(p, std::vector<int>{static_cast<int>(p.size() / 2)}, Seed{4}, 0);
  const StoredLayout stored = decode(encode(p, a.species));
  RC_ASSERT(stored.grid == p.grid);
  RC_ASSERT(stored.species == a.species);
  RC_ASSERT(recompute(stored, block, {}).x_mm == p.x_mm);
}

RC_GTEST_PROP(BaselineProperty, FromItsNumbersAloneEachSeedlingIsFoundWithinFiveCentimetres, ()) {
  const XyShape block = any_block();
  Grid grid = any_grid(1.5);
  grid.setback_edge_m = *rc::gen::inRange(0, 2) == 0 ? 0 : 2;
  const std::vector<std::vector<Xy>> water = {
      {{-600, between(-500, 500)}, {600, between(-500, 500)}}};
  grid.setback_water_m = 3;
  const Places p = places(block, water, grid);
  const auto line = baseline(block, water, p, 5);
  RC_ASSERT(line.has_value() == (p.size() > 0));
  RC_CLASSIFY(p.size() > 100, "more than 100 places");
  for (std::size_t i = 0; i < p.size(); ++i) {
    const auto found = locate(*line, address_of(p, i));
    RC_ASSERT(found.has_value());
    RC_ASSERT(std::hypot(found->x_m - p.at(i).x_m, found->y_m - p.at(i).y_m) < 0.05);
  }
}

}  // namespace
}  // namespace wildling::layout
