#pragma once
/// Workings of two stations laid side by side: ten-day means, their mean and its limits.
#include "base/workings.hpp"
#include "climate/paired.hpp"

namespace wildling::climate {

/// Keys "climate/paired/tmax/mean", "/low", "/high", "/blocks", "/days", the same for "vpd", and
/// "climate/paired/tmax/block/DATE". Nothing for a difference that is empty.
void add_paired_workings(Workings& workings, const PairedResult& result);

}  // namespace wildling::climate
