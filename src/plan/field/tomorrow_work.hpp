#pragma once
/// Which block is worked on a day, with what, and what stands on the leader's page about it.
#include <vector>

#include "plan/field/facts.hpp"
#include "plan/sheet_kinds.hpp"

namespace wildling::plan {

/// Orders of that day; without any, what is due by the due list and the plan, one leader, at most
/// three blocks.
/// @throws Error{input} when a block is not known, or nothing is to be done
std::vector<CrewOrder> orders_for(const FieldBook& book, const SheetWish& wish, Date day,
                                  Date today);

/// @throws Error{input} when the plan does not know the block
TomorrowTask task_for(const FieldBook& book, const SettledBook& settled, const CrewOrder& order,
                      Date day);

SheetJob sheet_job(tending::Job job);

/// Cautions of the day that come from the season and the job (dry months, cut grass).
std::vector<Message> cautions_for(const FieldBook& book, const std::vector<CrewOrder>& orders,
                                  Date day);

/// The due list on a day, by the book as it was.
std::vector<tending::DueLine> due_lines(const FieldBook& book,
                                        const std::vector<PlantedBlock>& planted, Date today);

}  // namespace wildling::plan
