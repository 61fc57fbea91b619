#include "layout/baseline.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <tuple>

#include "layout/corners.hpp"
#include "layout/region.hpp"
#include "layout/turn.hpp"

// Notation as in places.cpp, in metres: u along the rows, v to their right.

namespace wildling::layout {
namespace {

using ground::Xy;

constexpr double kOnEdgeM = 0.5;         // a line this near to the edge still lies on the block
constexpr double kNearlyParallel = 0.5;  // sine of 30 degrees
constexpr std::size_t kPegsTried = 8;    // per side

struct Uv {
  double u = 0;
  double v = 0;
};

Uv turned(Xy p, Direction d) {
  return {p.x_m * d.east + p.y_m * d.north, p.x_m * d.north - p.y_m * d.east};
}

double full_circle(double deg) {
  const double turn = std::fmod(deg, 360.0);
  const double positive = turn < 0 ? turn + 360 : turn;
  return positive >= 360 ? 0 : positive;
}

double bearing_of(Xy from, Xy to) {
  return full_circle(std::atan2(to.x_m - from.x_m, to.y_m - from.y_m) * 180 / std::numbers::pi);
}

/// Twice the area of a, b, c with its sign.
double side_of(Xy a, Xy b, Xy c) {
  return (b.x_m - a.x_m) * (c.y_m - a.y_m) - (b.y_m - a.y_m) * (c.x_m - a.x_m);
}

bool cross(Xy a, Xy b, Xy c, Xy d) {
  return side_of(a, b, c) * side_of(a, b, d) <= 0 && side_of(c, d, a) * side_of(c, d, b) <= 0;
}

bool crosses_any(Xy a, Xy b, std::span<const std::vector<Xy>> water) {
  for (const auto& line : water) {
    for (std::size_t i = 0; i + 1 < line.size(); ++i) {
      if (cross(a, b, line[i], line[i + 1])) return true;
    }
  }
  return false;
}

struct Peg {
  Xy at;
  Uv turned;
};

/// At most kPegsTried of them, spread over u with both ends.
std::vector<Peg> few(std::vector<Peg> pegs) {
  std::sort(pegs.begin(), pegs.end(), [](const Peg& a, const Peg& b) {
    return std::tie(a.turned.u, a.turned.v) < std::tie(b.turned.u, b.turned.v);
  });
  if (pegs.size() <= kPegsTried) return pegs;
  std::vector<Peg> out;
  for (std::size_t i = 0; i < kPegsTried; ++i)
    out.push_back(pegs[i * (pegs.size() - 1) / (kPegsTried - 1)]);
  return out;
}

struct Ends {
  std::vector<Peg> before;  // corners on the near side of the first row
  std::vector<Peg> after;   // and on the far side of the last
};

Ends possible_pegs(const ground::XyShape& block, Direction along, double first_v, double last_v,
                   double tolerance_m) {
  Ends ends;
  Peg lowest;
  Peg highest;
  bool any = false;
  const auto look = [&](const std::vector<Xy>& ring) {
    for (const Xy& p : ring) {
      const Peg peg{.at = p, .turned = turned(p, along)};
      if (!any || peg.turned.v < lowest.turned.v) lowest = peg;
      if (!any || peg.turned.v > highest.turned.v) highest = peg;
      any = true;
      if (peg.turned.v <= first_v) ends.before.push_back(peg);
      if (peg.turned.v >= last_v) ends.after.push_back(peg);
    }
  };
  for (const auto& ring : corners(block, tolerance_m)) look(ring);
  if (ends.before.empty() || ends.after.empty()) {  // thinning took the outermost corner away
    for (const auto& part : block) look(part.outer);
  }
  if (ends.before.empty()) ends.before.push_back(lowest);
  if (ends.after.empty()) ends.after.push_back(highest);
  return {.before = few(std::move(ends.before)), .after = few(std::move(ends.after))};
}

/// Where the line from a to b crosses the row at v.
double u_at(const Peg& a, const Peg& b, double v) {
  return a.turned.u + (b.turned.u - a.turned.u) * ((v - a.turned.v) / (b.turned.v - a.turned.v));
}

struct RowEnds {
  double v = 0;
  double first_u = 0;
  double last_u = 0;
};

/// Share of the rows' length that lies against the row direction from the line: 0 = all places on
/// one side.
double share_behind(const Peg& a, const Peg& b, const std::vector<RowEnds>& rows) {
  double behind = 0;
  double all = 0;
  for (const RowEnds& row : rows) {
    const double u = u_at(a, b, row.v);
    const double low = std::min(row.first_u, u);
    const double high = std::max(row.last_u, u);
    behind += std::max(0.0, u - low);
    all += high - low;
  }
  return all > 0 ? behind / all : 0;
}

struct Choice {
  Peg a;
  Peg b;
  double outside_m = 0;
  bool water = false;
};

Choice choose(const Ends& ends, const BlockGround& block, std::span<const std::vector<Xy>> water,
              const std::vector<RowEnds>& rows) {
  Choice best;
  std::tuple<long, bool, bool, long, double> least;
  bool any = false;
  for (const Peg& a : ends.before) {
    for (const Peg& b : ends.after) {
      const double length = std::hypot(b.at.x_m - a.at.x_m, b.at.y_m - a.at.y_m);
      if (b.turned.v <= a.turned.v) continue;
      const double outside = block.outside_m(a.at, b.at);
      const bool wet = crosses_any(a.at, b.at, water);
      const bool parallel = (b.turned.v - a.turned.v) / length < kNearlyParallel;
      const std::tuple<long, bool, bool, long, double> rank{
          std::lround(outside), wet, parallel, std::lround(share_behind(a, b, rows) * 50), length};
      if (any && !(rank < least)) continue;
      any = true;
      least = rank;
      best = {.a = a, .b = b, .outside_m = outside, .water = wet};
    }
  }
  return best;
}

std::vector<RowEnds> row_ends(const Places& places, Direction along) {
  std::vector<RowEnds> out;
  for (const Row& row : places.rows) {
    const Uv first = turned(places.at(row.first), along);
    const Uv last = turned(places.at(row.first + row.count - 1), along);
    out.push_back({.v = (first.v + last.v) / 2, .first_u = first.u, .last_u = last.u});
  }
  return out;
}

void put_rows_on_tape(Baseline& line, const Choice& pegs, const Places& places,
                      const std::vector<RowEnds>& rows, Direction along) {
  for (std::size_t r = 0; r < rows.size(); ++r) {
    const Row& row = places.rows[r];
    const double u = u_at(pegs.a, pegs.b, rows[r].v);
    const double share = (rows[r].v - pegs.a.turned.v) / (pegs.b.turned.v - pegs.a.turned.v);
    line.rows.push_back({.tape_m = share * line.length_m,
                         .first_m = rows[r].first_u - u,
                         .last_m = rows[r].last_u - u,
                         .count = row.count,
                         .first_part = static_cast<std::uint32_t>(line.parts.size()),
                         .parts = row.runs});
    for (std::uint32_t i = row.first_run; i < row.first_run + row.runs; ++i) {
      const Run& run = places.runs[i];
      line.parts.push_back({.first_number = run.first - row.first + 1,
                            .count = run.count,
                            .along_m = turned(places.at(run.first), along).u - u});
    }
  }
}

void add_cautions(Baseline& line, double sine) {
  if (line.outside_m >= 1)
    line.cautions.push_back(say("layout.baseline_leaves_block", {{"metres", line.outside_m}}));
  if (line.crosses_water) line.cautions.push_back(say("layout.baseline_crosses_water"));
  if (sine < kNearlyParallel)
    line.cautions.push_back(say("layout.baseline_nearly_parallel", {{"degrees", line.turn_deg}}));
  if (!line.declination_deg) line.cautions.push_back(say("layout.set_declination"));
}

}  // namespace

double rounded_cm(double metres) {
  return std::round(metres * 100) / 100;
}

std::optional<Baseline> baseline(const ground::XyShape& block,
                                 std::span<const std::vector<Xy>> water, const Places& places,
                                 double corner_tolerance_m, std::optional<double> declination_deg) {
  if (places.rows.empty()) return std::nullopt;
  const Direction along = direction_of(places.grid.row_bearing_deg);
  const std::vector<RowEnds> rows = row_ends(places, along);
  const Ends ends = possible_pegs(block, along, rows.front().v, rows.back().v, corner_tolerance_m);
  const Choice pegs = choose(ends, BlockGround(block, kOnEdgeM), water, rows);
  Baseline line;
  line.peg_a = pegs.a.at;
  line.peg_b = pegs.b.at;
  line.length_m = std::hypot(line.peg_b.x_m - line.peg_a.x_m, line.peg_b.y_m - line.peg_a.y_m);
  line.bearing_deg = bearing_of(line.peg_a, line.peg_b);
  line.row_bearing_deg = full_circle(places.grid.row_bearing_deg);
  line.turn_deg = full_circle(line.bearing_deg - line.row_bearing_deg);
  line.spacing_m = places.grid.spacing_m;
  line.declination_deg = declination_deg;
  if (declination_deg) {
    line.bearing_magnetic_deg = full_circle(line.bearing_deg - *declination_deg);
    line.row_bearing_magnetic_deg = full_circle(line.row_bearing_deg - *declination_deg);
  }
  line.outside_m = pegs.outside_m;
  line.crosses_water = pegs.water;
  put_rows_on_tape(line, pegs, places, rows, along);
  add_cautions(line, (pegs.b.turned.v - pegs.a.turned.v) / line.length_m);
  return line;
}

std::optional<Xy> locate(const Baseline& baseline, Address address) {
  if (address.row == 0 || address.row > baseline.rows.size()) return std::nullopt;
  const RowOnTape& row = baseline.rows[address.row - 1];
  if (address.number == 0 || address.number > row.count) return std::nullopt;
  const RowPart* part = &baseline.parts[row.first_part];
  for (std::uint32_t i = 1; i < row.parts && part[1].first_number <= address.number; ++i) ++part;
  const double tape = rounded_cm(row.tape_m);
  const double along =
      rounded_cm(part->along_m) + (address.number - part->first_number) * baseline.spacing_m;
  const Direction rows = direction_of(baseline.row_bearing_deg);
  const double share = tape / baseline.length_m;
  return Xy{.x_m = baseline.peg_a.x_m + (baseline.peg_b.x_m - baseline.peg_a.x_m) * share +
                   along * rows.east,
            .y_m = baseline.peg_a.y_m + (baseline.peg_b.y_m - baseline.peg_a.y_m) * share +
                   along * rows.north};
}

}  // namespace wildling::layout
