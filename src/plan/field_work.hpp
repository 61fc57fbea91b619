#pragma once
#include "nursery/collection.hpp"
#include "plan/land.hpp"
#include "plan/season.hpp"
#include "tending/care.hpp"

namespace wildling::plan {

/// Seed and wildling seedlings for the order of the open blocks.
nursery::CollectionPlan collect(const Programme& programme, const std::vector<SpeciesPart>& species,
                                const PlantingDays& days, Date today);

/// Tending, planting work and firebreaks of the open blocks; empty when nothing is planted there.
std::optional<tending::CarePlan> tend(const Programme& programme, const Land& land,
                                      const PlantingDays& days);

/// Length of firebreak of a block: the site's outline, shared out to its blocks by their own
/// outlines. 0 when the outline is not known.
double firebreak_m(const BlockPart& part, const Programme& programme,
                   const std::vector<BlockPart>& blocks);

std::vector<CollectPart> collect_parts(const nursery::CollectionPlan& plan,
                                       const std::vector<SpeciesPart>& species);
void put_care(PlanResult& result, const tending::CarePlan& care);

}  // namespace wildling::plan
