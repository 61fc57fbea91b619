#pragma once
#include "base/parameters.hpp"
#include "plan/result.hpp"
#include "plan/sheets.hpp"

namespace wildling::plan {

/// Blocks up to this area print the species of every place; larger ones the counts of each row.
inline constexpr double kOrderMostHa = 5;

/// One planting sheet per open block with seedlings, and one draft per block on hold, in the plan's
/// order. Species have the same code on every sheet of a plan. Spares are rounded up per species
/// (parameter plan.spares_share). A sheet's crew is not known to the plan: crew_people stays empty.
/// @throws Error{input} when a kept layout does not fit its block any more
CrewSheets crew_sheets(const PlanResult& plan, const Parameters& parameters);

/// The sheet of one block whatever its gate says; rows only where something was laid out.
/// @return empty when the plan has no such block
std::optional<CrewSheet> crew_sheet(const PlanResult& plan, const Parameters& parameters,
                                    const std::string& block);

/// Codes of the plan's species as on its sheets, in the order of PlanResult::species; empty for
/// those that are not planted.
std::vector<std::string> planted_species_codes(const PlanResult& plan);

/// `count` and spares of a share of it, rounded up.
int with_spares(int count, double share);

/// For the month after the plan's day.
RainSheet rain_sheet(const PlanResult& plan);

/// The letter on one page. Lists are cut to what fits, and the page says how many are left out.
SummaryPage summary_page(const PlanResult& plan);

/// All sites on one picture, metres from the middle of all blocks. Seedlings are points up to
/// kMapPointLimit, then rows up to kMapRowLimit, then filled blocks. Blocks on hold are drafts.
/// @throws Error{input} when there is no block, or a kept layout does not fit its block any more
MapPicture map_picture(const PlanResult& plan);

}  // namespace wildling::plan
