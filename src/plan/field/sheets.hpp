#pragma once
/// Fills the sheets of the field year from the field book.
#include <vector>

#include "plan/field/book.hpp"
#include "plan/sheet_kinds.hpp"

namespace wildling::plan {

/// One per crew leader with an order for the day (of SheetWish::crew only, if said); without orders
/// one sheet with the leader left to be written by hand, for the blocks wished for, or those that
/// are most due. Day: the day after today unless said.
/// @throws Error{input} when nothing is to be done, or a block is not known
std::vector<TomorrowSheet> tomorrow_sheets(const store::Store& store, const SheetWish& wish,
                                           Date today);
std::vector<TomorrowSheet> tomorrow_sheets(const FieldBook& book, const SheetWish& wish,
                                           Date today);

/// Of the week (Monday to Sunday) that the day lies in; the day before today unless said.
std::vector<PayList> pay_lists(const store::Store& store, const SheetWish& wish, Date today);

/// All blocks that are planted or to be planted; those whose walk is due are marked.
/// @throws Error{input} when there is no block
WalkSheet walk_sheet(const store::Store& store, const SheetWish& wish, Date today);

}  // namespace wildling::plan
