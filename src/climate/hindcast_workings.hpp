#pragma once
/// Workings of the hindcast: scores as sums over years and bins.
#include "base/workings.hpp"
#include "climate/outlook.hpp"

namespace wildling::climate {

/// Keys: "climate/hindcast/brier", "/brier_usual", "/skill", "/days"; "climate/hindcast/year/YEAR/
/// squares", ".../squares_usual", ".../days"; "climate/hindcast/bin/BIN/days", "/forecast",
/// "/good" (BIN = 1 to 5). The ten-day periods of the newest year are added; sums of other years
/// are leaves. Nothing when refused.
void add_hindcast_workings(Workings& workings, const Hindcast& hindcast,
                           const Parameters& parameters);

}  // namespace wildling::climate
