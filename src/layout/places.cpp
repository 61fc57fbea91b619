#include "layout/places.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>

#include <fmt/format.h>

#include "base/error.hpp"
#include "layout/region.hpp"
#include "layout/turn.hpp"

// Notation: u along the row direction, v to its right, mm from the anchor; lattice row k lies at v
// = k b, lattice column j of it at u = (j + shift) a, shift = 1/2 in odd rows of a triangular grid.

namespace wildling::layout {
namespace {

constexpr double kMostPlaces = 5e7;

struct Uv {
  double u = 0;
  double v = 0;
};

struct Lattice {
  Direction along;
  double a = 0;  // mm
  double b = 0;
  double x0 = 0;
  double y0 = 0;
  bool triangular = false;

  explicit Lattice(const Grid& grid)
      : along(direction_of(grid.row_bearing_deg)),
        a(grid.spacing_m * 1000),
        b(grid.row_spacing_m * 1000),
        x0(grid.anchor.x_m * 1000),
        y0(grid.anchor.y_m * 1000),
        triangular(grid.pattern == Pattern::triangular) {}

  [[nodiscard]] Uv turned(PointMm p) const {
    const double x = static_cast<double>(p.x) - x0;
    const double y = static_cast<double>(p.y) - y0;
    return {x * along.east + y * along.north, x * along.north - y * along.east};
  }

  [[nodiscard]] double shift(std::int64_t k) const {
    return triangular && (k & 1) != 0 ? 0.5 : 0.0;
  }

  [[nodiscard]] double u_of(std::int64_t k, std::int64_t j) const {
    return (static_cast<double>(j) + shift(k)) * a;
  }

  /// First column at or beyond u; the comparison is with u_of, whatever the division rounds to.
  [[nodiscard]] std::int64_t first_column(std::int64_t k, double u) const {
    auto j = static_cast<std::int64_t>(std::ceil(u / a - shift(k)));
    while (u_of(k, j) < u) ++j;
    while (u_of(k, j - 1) >= u) --j;
    return j;
  }

  /// First row at or beyond v.
  [[nodiscard]] std::int64_t first_row(double v) const {
    auto k = static_cast<std::int64_t>(std::ceil(v / b));
    while (static_cast<double>(k) * b < v) ++k;
    while (static_cast<double>(k - 1) * b >= v) --k;
    return k;
  }
};

/// An edge from its lower to its upper end, so that two blocks that share it cut it at the same
/// bits.
struct Edge {
  Uv low;
  Uv high;
  std::int64_t first_row = 0;  // rows with low.v <= v < high.v
  std::int64_t end_row = 0;
};

std::vector<Edge> edges_of(const Region& region, const Lattice& lattice) {
  std::vector<Edge> edges;
  for (const RingMm& ring : region.rings) {
    for (std::size_t i = 0; i < ring.size(); ++i) {
      Uv low = lattice.turned(ring[i]);
      Uv high = lattice.turned(ring[(i + 1) % ring.size()]);
      if (low.v > high.v) std::swap(low, high);
      const std::int64_t first = lattice.first_row(low.v);
      const std::int64_t end = lattice.first_row(high.v);
      if (first < end)
        edges.push_back({.low = low, .high = high, .first_row = first, .end_row = end});
    }
  }
  return edges;
}

/// Crossings of all row lines with all edges, sorted within each row.
struct Crossings {
  std::int64_t first_row = 0;
  std::vector<std::size_t> begin;  // per row, and the end
  std::vector<double> u;
};

Crossings cross(const std::vector<Edge>& edges, const Lattice& lattice) {
  Crossings out;
  if (edges.empty()) return out;
  out.first_row = edges.front().first_row;
  std::int64_t end = edges.front().end_row;
  for (const Edge& e : edges) {
    out.first_row = std::min(out.first_row, e.first_row);
    end = std::max(end, e.end_row);
  }
  out.begin.assign(static_cast<std::size_t>(end - out.first_row) + 1, 0);
  for (const Edge& e : edges) {
    for (std::int64_t k = e.first_row; k < e.end_row; ++k)
      ++out.begin[static_cast<std::size_t>(k - out.first_row) + 1];
  }
  for (std::size_t i = 1; i < out.begin.size(); ++i) out.begin[i] += out.begin[i - 1];
  out.u.resize(out.begin.back());
  std::vector<std::size_t> next(out.begin.begin(), out.begin.end() - 1);
  for (const Edge& e : edges) {
    for (std::int64_t k = e.first_row; k < e.end_row; ++k) {
      const double share = (static_cast<double>(k) * lattice.b - e.low.v) / (e.high.v - e.low.v);
      out.u[next[static_cast<std::size_t>(k - out.first_row)]++] =
          e.low.u + (e.high.u - e.low.u) * share;
    }
  }
  return out;
}

void add_run(Places& out, const Lattice& lattice, std::int64_t k, std::int64_t j,
             std::int64_t end) {
  Row& row = out.rows.back();
  const auto first = static_cast<std::uint32_t>(out.size());
  const auto count = static_cast<std::uint32_t>(end - j);
  const bool joins = row.runs > 0 &&
                     out.runs.back().column + static_cast<std::int64_t>(out.runs.back().count) == j;
  if (joins) {
    out.runs.back().count += count;
  } else {
    out.runs.push_back({.first = first, .count = count, .column = static_cast<std::int32_t>(j)});
    ++row.runs;
  }
  row.count += count;
  const double v = static_cast<double>(k) * lattice.b;
  for (; j < end; ++j) {
    const double u = lattice.u_of(k, j);
    out.x_mm.push_back(static_cast<std::int32_t>(
        std::llround(lattice.x0 + u * lattice.along.east + v * lattice.along.north)));
    out.y_mm.push_back(static_cast<std::int32_t>(
        std::llround(lattice.y0 + u * lattice.along.north - v * lattice.along.east)));
  }
}

void add_row(Places& out, const Lattice& lattice, std::int64_t k, std::span<double> crossings) {
  std::sort(crossings.begin(), crossings.end());
  const Row start{.lattice = static_cast<std::int32_t>(k),
                  .first = static_cast<std::uint32_t>(out.size()),
                  .count = 0,
                  .first_run = static_cast<std::uint32_t>(out.runs.size()),
                  .runs = 0};
  out.rows.push_back(start);
  for (std::size_t i = 0; i + 1 < crossings.size(); i += 2) {
    const std::int64_t j = lattice.first_column(k, crossings[i]);
    const std::int64_t end = lattice.first_column(k, crossings[i + 1]);
    if (j < end) add_run(out, lattice, k, j, end);
  }
  if (out.rows.back().count == 0) out.rows.pop_back();
}

void check_number(const Region& region, const Grid& grid) {
  const double about = region.usable_area_m2 / (grid.spacing_m * grid.row_spacing_m);
  if (about <= kMostPlaces) return;
  throw Error(ErrorKind::usage, "spacing_m",
              say("layout.too_many_places", {{"places", about}, {"most", kMostPlaces}}));
}

}  // namespace

Places places(const ground::XyShape& block, std::span<const std::vector<ground::Xy>> water,
              const Grid& grid) {
  check_grid(grid);
  const Region region = usable_region(block, water, grid.setback_edge_m, grid.setback_water_m);
  check_number(region, grid);
  const Lattice lattice(grid);
  Places out;
  out.grid = grid;
  out.block_area_m2 = region.block_area_m2;
  out.lost_at_edge_m2 = region.lost_at_edge_m2;
  out.lost_at_water_m2 = region.lost_at_water_m2;
  out.usable_area_m2 = region.usable_area_m2;
  const auto about = static_cast<std::size_t>(region.usable_area_m2 /
                                              (grid.spacing_m * grid.row_spacing_m) * 1.01);
  out.x_mm.reserve(about + 64);
  out.y_mm.reserve(about + 64);
  Crossings crossings = cross(edges_of(region, lattice), lattice);
  for (std::size_t i = 0; i + 1 < crossings.begin.size(); ++i) {
    const std::span<double> row(crossings.u.data() + crossings.begin[i],
                                crossings.begin[i + 1] - crossings.begin[i]);
    add_row(out, lattice, crossings.first_row + static_cast<std::int64_t>(i), row);
  }
  return out;
}

namespace {

std::size_t row_index(const Places& places, std::size_t place) {
  const auto after = std::upper_bound(places.rows.begin(), places.rows.end(), place,
                                      [](std::size_t p, const Row& row) { return p < row.first; });
  return static_cast<std::size_t>(after - places.rows.begin()) - 1;
}

}  // namespace

Address address_of(const Places& places, std::size_t place) {
  const std::size_t r = row_index(places, place);
  return {.row = static_cast<std::uint32_t>(r + 1),
          .number = static_cast<std::uint32_t>(place - places.rows[r].first + 1)};
}

std::optional<std::size_t> place_at(const Places& places, Address address) {
  if (address.row == 0 || address.row > places.rows.size()) return std::nullopt;
  const Row& row = places.rows[address.row - 1];
  if (address.number == 0 || address.number > row.count) return std::nullopt;
  return row.first + (address.number - 1);
}

std::optional<std::size_t> place_at_lattice(const Places& places, std::int32_t row,
                                            std::int32_t column) {
  const auto it = std::lower_bound(places.rows.begin(), places.rows.end(), row,
                                   [](const Row& r, std::int32_t k) { return r.lattice < k; });
  if (it == places.rows.end() || it->lattice != row) return std::nullopt;
  for (std::uint32_t i = it->first_run; i < it->first_run + it->runs; ++i) {
    const Run& run = places.runs[i];
    const std::int64_t step = std::int64_t{column} - run.column;
    if (step >= 0 && step < std::int64_t{run.count})
      return run.first + static_cast<std::size_t>(step);
  }
  return std::nullopt;
}

std::int32_t column_of(const Places& places, std::size_t place) {
  const auto after = std::upper_bound(places.runs.begin(), places.runs.end(), place,
                                      [](std::size_t p, const Run& run) { return p < run.first; });
  const Run& run = *(after - 1);
  return run.column + static_cast<std::int32_t>(place - run.first);
}

std::uint32_t walking_turn(const Places& places, std::size_t place) {
  const Address address = address_of(places, place);
  const Row& row = places.rows[address.row - 1];
  const bool outward = address.row % 2 == 1;
  return row.first + (outward ? address.number : row.count + 1 - address.number);
}

std::string seedling_id(std::string_view block_code, Address address) {
  return fmt::format("{}-r{:03}-{:03}", block_code, address.row, address.number);
}

namespace {

std::optional<std::uint32_t> digits(std::string_view text) {
  std::uint32_t value = 0;
  const auto end = text.data() + text.size();
  const auto [stop, fault] = std::from_chars(text.data(), end, value);
  if (fault != std::errc{} || stop != end || text.size() < 3 || value == 0) return std::nullopt;
  return value;
}

}  // namespace

std::optional<SeedlingId> parse_seedling_id(std::string_view text) {
  const std::size_t second = text.rfind('-');
  if (second == std::string_view::npos || second == 0) return std::nullopt;
  const std::size_t first = text.rfind("-r", second - 1);
  if (first == std::string_view::npos || first == 0) return std::nullopt;
  const auto row = digits(text.substr(first + 2, second - first - 2));
  const auto number = digits(text.substr(second + 1));
  if (!row || !number) return std::nullopt;
  return SeedlingId{.block_code = std::string(text.substr(0, first)),
                    .address = {.row = *row, .number = *number}};
}

}  // namespace wildling::layout
