#pragma once
#include <cstdint>
#include <memory>
#include <span>
#include <vector>

#include "ground/frame.hpp"

namespace wildling::layout {

/// A point in whole millimetres of the frame: from here on all arithmetic is the same on every
/// machine.
struct PointMm {
  std::int64_t x = 0;
  std::int64_t y = 0;

  bool operator==(const PointMm&) const = default;
};

using RingMm = std::vector<PointMm>;  ///< open: the first point is not repeated

/// The part of a block on which places may stand, as rings to be read by the even-odd rule.
struct Region {
  std::vector<RingMm> rings;
  double block_area_m2 = 0;
  double lost_at_edge_m2 = 0;  ///< taken by the setback from the edge
  double lost_at_water_m2 =
      0;  ///< taken by the setback from water, beyond what the edge took already
  double usable_area_m2 = 0;
};

/// Takes the setbacks off a block. Arcs are drawn outside the true circle and the result is shrunk
/// by 2 mm, so the setback holds after rounding to millimetres; it may be up to 1 % wider in bends.
/// A water line whose first and last point are the same is a pond: its inside is lost too.
/// @throws Error{input} when the shape is empty, not finite, farther than 1,000 km from the frame's
/// origin,
///         or its boundary crosses itself
Region usable_region(const ground::XyShape& block, std::span<const std::vector<ground::Xy>> water,
                     double setback_edge_m, double setback_water_m);

/// Answers how far a straight line leaves a block. Points up to `tolerance_m` outside count as
/// inside, so that a line along the edge is not outside by rounding.
class BlockGround {
 public:
  /// @throws Error{input} as usable_region
  BlockGround(const ground::XyShape& block, double tolerance_m);
  BlockGround(const BlockGround&) = delete;
  BlockGround& operator=(const BlockGround&) = delete;
  ~BlockGround();
  /// Metres of the line from a to b that are not on the block.
  [[nodiscard]] double outside_m(ground::Xy a, ground::Xy b) const;

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace wildling::layout
