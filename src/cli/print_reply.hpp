#pragma once
#include <ostream>
#include <string>
#include <vector>

#include "base/words.hpp"
#include "plan/reply.hpp"

namespace wildling::cli {

/// Headings and sentences, folded at 100 columns.
void print_parts(std::ostream& out, const std::vector<plan::LetterPart>& parts, const Words& words);

/// The whole reply for people: answer, sentences, tables, captions of charts, findings.
void print_reply(std::ostream& out, const plan::Reply& reply, const Words& words);

/// One table as CSV; numbers in full, days as 2026-11-25. @param name  empty: the first table
/// @throws Error{usage} that lists the tables when there is none of that name
void print_table_csv(std::ostream& out, const plan::Reply& reply, const std::string& name,
                     const Words& words);

}  // namespace wildling::cli
