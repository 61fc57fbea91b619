#pragma once
#include <span>

#include "base/workings.hpp"
#include "tending/crew.hpp"
#include "tending/diary.hpp"
#include "tending/money.hpp"
#include "tending/refill.hpp"
#include "tending/smother.hpp"

namespace wildling::tending {

/// Formulas of the field year; part of formulas().
const Formulas& field_formulas();

/// Nodes under "tending/walk/BLOCK/...", of blocks with a fresh walk.
void add_workings(Workings& workings, std::span<const DueLine> lines, const Parameters& parameters);
/// Nodes under "tending/diary/RATE/...". @param parameters  the book's, not those with own rates
/// laid over
void add_workings(Workings& workings, std::span<const OwnRate> rates, const Parameters& parameters);
/// Nodes under "tending/crew/NAME/...". @param name  of the window
void add_workings(Workings& workings, const std::string& name, const CrewNeed& need,
                  const Parameters& parameters);
/// Nodes under "tending/refill/BLOCK/...".
void add_workings(Workings& workings, const std::string& block, const RefillAdvice& advice);
/// Nodes under "tending/money/NAME/...": in, out and balance of each month, the month in which it
/// runs out.
/// @param name  "plain" or the name of a bad year
void add_workings(Workings& workings, const std::string& name, const CashTable& table);
/// Nodes under "tending/per_tree/YEARS/...".
void add_workings(Workings& workings, const CostPerTree& cost);

}  // namespace wildling::tending
