#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "intake/boundaries.hpp"
#include "intake/projection.hpp"
#include "intake/raw_shape.hpp"

namespace wildling::intake {

/// A file of shapes whose coordinate system is settled.
struct PlacedFile {
  RawFile raw;  ///< axes in order: x east, y north
  Projection way;
};

/// Reads the bytes, orders the axes and settles the coordinate system: the user's word, else the
/// file's. @throws Error{input} when neither says it or the numbers contradict it
PlacedFile read_placed(std::string_view bytes, const std::string& name,
                       const BoundaryOptions& options, const Companions& companions);

/// Nothing could be used: the first thing that was set aside says why.
/// @throws Error{input} always
[[noreturn]] void refuse_by(const Findings& findings, const std::string& name);

/// Every point on WGS 84; empty if one of them is no place.
std::optional<ground::Ring> placed(const RawLine& line, const Projection& way);

/// What the conversion cost in accuracy, when it is worth telling.
void tell_accuracy(const PlacedFile& file, const std::string& name, Findings& findings);

/// The file's bytes, and a shapefile's companions beside it.
struct FileOnDisk {
  std::string bytes;
  std::string name;  ///< without folders
  Companions companions;
};

FileOnDisk read_from_disk(const std::string& path);

}  // namespace wildling::intake
