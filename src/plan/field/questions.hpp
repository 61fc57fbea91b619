#pragma once
/// What walks, diary and return slips answer, and what is written down in the field.
#include "plan/ask.hpp"

namespace wildling::plan {

std::vector<Question> field_questions();
std::vector<Note> field_notes();

}  // namespace wildling::plan
