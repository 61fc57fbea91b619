#pragma once

namespace wildling::layout {

/// East and north parts of the unit vector with a compass bearing, from series in plain arithmetic:
/// the C library's sine chooses its code by processor, and positions must not depend on the
/// machine. Multiples of 90 degrees are exact. Error below 2e-15.
struct Direction {
  double east = 0;
  double north = 1;
};

Direction direction_of(double bearing_deg);

}  // namespace wildling::layout
