#pragma once
#include <optional>
#include <span>
#include <vector>

#include "base/message.hpp"
#include "layout/places.hpp"

namespace wildling::layout {

/// Places of a row that follow each other at the grid's spacing: number `first_number` stands
/// `along_m` from the baseline. A new part begins behind each gap (a hole, a stream, a bend of the
/// edge).
struct RowPart {
  std::uint32_t first_number = 1;
  std::uint32_t count = 0;
  double along_m = 0;  ///< from the baseline in the row direction; negative = against it
};

/// What a crew needs to find one row.
struct RowOnTape {
  double tape_m = 0;  ///< along the baseline from peg A to where the row crosses it
  double first_m =
      0;  ///< along the row from the baseline to number 1; negative = against the row direction
  double last_m = 0;  ///< to the last number
  std::uint32_t count = 0;
  std::uint32_t first_part = 0;
  std::uint32_t parts = 0;
};

/// Two pegs at corners of the block, and everything measured from the straight line between them.
/// A phone's error of 3 to 10 m is wider than a row: set the pegs once, mark them, and measure from
/// them only.
struct Baseline {
  ground::Xy peg_a;  ///< on the side of row 1
  ground::Xy peg_b;
  double length_m = 0;
  double bearing_deg = 0;      ///< from peg A to peg B, from true north, [0, 360)
  double row_bearing_deg = 0;  ///< of the rows, from true north, [0, 360)
  double turn_deg = 0;   ///< from the baseline to the row direction, counter-clockwise, (0, 180)
  double spacing_m = 0;  ///< along a row
  std::optional<double> declination_deg;       ///< as told; east positive
  std::optional<double> bearing_magnetic_deg;  ///< what the needle shows; empty without declination
  std::optional<double> row_bearing_magnetic_deg;
  double outside_m = 0;  ///< how much of the line is not on the block
  bool crosses_water = false;
  std::vector<RowOnTape> rows;  ///< as Places::rows
  std::vector<RowPart> parts;
  std::vector<Message> cautions;
};

/// Chooses the pegs among the corners of the block beyond the first and the last row, so that every
/// row crosses the line between them. Lines that stay on the block come first, then those that
/// cross no water, then those not nearly parallel to the rows (30 degrees), then those with the
/// places on one side. Deterministic.
///
/// Tape distances are of level ground: on a slope hold the tape level.
/// @param corner_tolerance_m  pegs are taken from corners(block, corner_tolerance_m)
/// @param declination_deg     of the compass here and now, east positive; without it only true
/// bearings are given
///                            and a caution says to set it
/// @return empty when the block has no place
std::optional<Baseline> baseline(const ground::XyShape& block,
                                 std::span<const std::vector<ground::Xy>> water,
                                 const Places& places, double corner_tolerance_m,
                                 std::optional<double> declination_deg = {});

/// Where a person ends who measures with tape and compass: from the pegs, the row's tape distance
/// and the distance along the row, both rounded to the centimetre as printed, and the row's
/// bearing. Nothing else is used.
/// @return empty when there is no such row or number
std::optional<ground::Xy> locate(const Baseline& baseline, Address address);

/// As printed: whole centimetres.
double rounded_cm(double metres);

}  // namespace wildling::layout
