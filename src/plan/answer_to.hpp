#pragma once
#include "plan/ask.hpp"

namespace wildling::plan {

/// Whether an error tells why a question cannot be answered (input, infeasible: the programme lacks
/// something, or no answer exists) and so is an answer itself. Senseless requests, faults of the
/// disk and our own are not.
bool is_an_answer(const Error& error) noexcept;

/// The question's reply; when the programme does not hold what an answer needs, a reply whose
/// answer is the sentence that says so, without parts, tables, charts, findings or workings.
/// @throws Error{usage} for entries that do not fit; Error{conflict, io, internal} as the question
Reply answer_to(const Question& question, const store::Store& store, const Entries& entries,
                Date today, const Progress& progress);

}  // namespace wildling::plan
