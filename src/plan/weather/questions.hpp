#pragma once
/// What the daily weather book answers, and what is written into it.
#include "plan/ask.hpp"

namespace wildling::plan {

std::vector<Question> weather_questions();
std::vector<Note> weather_notes();

}  // namespace wildling::plan
