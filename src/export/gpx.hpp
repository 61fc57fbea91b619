#pragma once
#include <optional>
#include <string>
#include <vector>

#include "export/laid_block.hpp"

namespace wildling::exports {

struct Waypoint {
  ground::LonLat at;
  std::string name;         ///< short, as a phone shows it: "B3-A"
  std::string description;  ///< a sentence
  std::string type;         ///< "peg" or "corner"
};

/// Pegs (open blocks only) and corners of the blocks. A phone errs by 3 to 10 m, wider than a row
/// of seedlings: single places never go into a GPX file. Corners of closed blocks carry "draft, not
/// for crews".
/// @param corner_tolerance_m  as layout::corners
std::vector<Waypoint> pegs_and_corners(std::span<const LaidBlock> blocks, double corner_tolerance_m,
                                       const Words& words);

/// GPX 1.1 (topografix.com/GPX/1/1): one wpt per waypoint, WGS 84, 7 decimals. What XML cannot hold
/// is replaced by U+FFFD.
/// @param made_at_utc  "2026-11-25T04:37:13Z" or empty
std::string gpx_text(std::span<const Waypoint> waypoints, const std::string& title,
                     const std::string& made_at_utc);

/// Text as XML content or attribute: & < > " ' escaped, control characters and broken UTF-8
/// replaced by U+FFFD.
std::string xml_text(std::string_view text);

/// @return what the file contains
/// @throws Error{io}, Error{usage} as write_file
std::vector<Message> write_gpx(const std::string& path, std::span<const LaidBlock> blocks,
                               double corner_tolerance_m, const std::string& title,
                               const std::string& made_at_utc, const Words& words, bool overwrite);

}  // namespace wildling::exports
