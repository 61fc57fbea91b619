#pragma once
/// "Why we waited": one page to be signed, for a donor or a park: what the spade, the gauge, the
/// stock and past years said on the day nobody planted.
#include "plan/ask.hpp"
#include "plan/sheets.hpp"

namespace wildling::plan {

/// @param blocks  codes or sites; empty = every block that was not planted that day
/// @throws Error{input} when a block is not known, or when every one of them was open for planting
WaitingPage waiting_page(const store::Store& store, Date day,
                         const std::vector<std::string>& blocks);

}  // namespace wildling::plan
