#pragma once
/// Answers from the field book.
#include "plan/field/book.hpp"
#include "plan/reply.hpp"

namespace wildling::plan {

/// What is due tomorrow and within `days`: blocks by trees at risk per person-day, walks that are
/// missing, and the harm rules that hold now.
Reply due_reply(const FieldBook& book, int days, Date today);

/// The account of every seedling: sent, planted, dead, returned, open; slips set aside and what
/// settles them; planted per row against its places.
Reply settle_reply(const FieldBook& book);

/// Own rates against the book's.
Reply rates_reply(const FieldBook& book);

/// What stands on the sheets of a day.
Reply tomorrow_reply(const FieldBook& book, const std::vector<std::string>& blocks,
                     const std::string& crew, std::optional<Date> day, Date today);

}  // namespace wildling::plan
