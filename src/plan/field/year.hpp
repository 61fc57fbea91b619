#pragma once
/// The year ahead: fire calendar, money, crews and refill, and the notes they need.
#include "plan/ask.hpp"

namespace wildling::plan {

std::vector<Question> year_questions();
std::vector<Note> year_notes();

}  // namespace wildling::plan
