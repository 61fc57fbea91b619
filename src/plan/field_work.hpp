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

std::vector<CollectPart> collect_parts(const nursery::CollectionPlan& plan,
                                       const std::vector<SpeciesPart>& species);
void put_care(PlanResult& result, const tending::CarePlan& care);

}  // namespace wildling::plan
