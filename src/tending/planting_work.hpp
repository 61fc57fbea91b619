#pragma once
#include <span>
#include <vector>

#include "tending/care.hpp"

namespace wildling::tending {

/// Marking places and digging pits before the window (ILO 1993 section 4.1: dig before the rains to
/// spread labour), carrying and planting in it, and the allowance for refill a year later. Wages
/// are not set yet; `materials` are.
///
/// Refill: tending.refill.share of the planted; each costs tending.refill.times the work of a first
/// planting (ILO 1993 Appendix 3: 2-3 times). It is an allowance of money and people; whether to
/// refill is decided by count (refill.hpp).
std::vector<Work> planting_works(const BlockCare& block, const Parameters& parameters);

/// Person-days of carrying and planting one tree, with its share of a distributor (ILO 1993 section
/// 4: one per 10-20 planters).
PersonDays planting_days_per_tree(const Parameters& parameters);

/// Working days from `first` to `last`, both inside: rest days (7 - tending.work_days_per_week) and
/// rain days, of which tending.rain_day_lost_share stops work, are taken out. A month without
/// figures has tending.rain_days_unknown rain days.
double working_days(Date first, Date last, const std::array<climate::MonthNormal, 12>& normals,
                    const Parameters& parameters);

/// Weeks from the first to the last planting day of any block; carrying and planting of each block
/// spread evenly over its window.
std::vector<PlantingWeek> planting_weeks(std::span<const BlockCare> blocks,
                                         const std::array<climate::MonthNormal, 12>& normals,
                                         const Parameters& parameters);

}  // namespace wildling::tending
