#pragma once
#include <optional>
#include <string_view>

namespace wildling::intake {

/// An angle in degrees, minutes and seconds as phones and maps write it: 113°16'52.6"E, 0° 50' 12"
/// LS, 113 16 52,6 BT, 113°16.877' E. Hemisphere letters N, S, E, W or Indonesian LU, LS, BT, BB;
/// south and west are negative. A sign and a letter together are refused, minutes and seconds must
/// lie below 60, and at least two parts must stand there (a plain number is no such text).
/// @return decimal degrees; empty for anything else
std::optional<double> read_angle(std::string_view text);

}  // namespace wildling::intake
