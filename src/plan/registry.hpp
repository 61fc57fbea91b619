#pragma once
#include "plan/ask.hpp"

namespace wildling::plan {

/// Every question and note, from the parts of this room. A new part adds one line here.
std::vector<Question> gathered_questions();
std::vector<Note> gathered_notes();

}  // namespace wildling::plan
