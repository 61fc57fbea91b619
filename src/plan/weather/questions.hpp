#pragma once
#include "plan/ask.hpp"

namespace wildling::plan {

/// The weather room's questions and notes (src/plan/weather/).
std::vector<Question> weather_questions();
std::vector<Note> weather_notes();

}  // namespace wildling::plan
