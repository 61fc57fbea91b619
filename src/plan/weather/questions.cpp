#include "plan/weather/questions.hpp"

namespace wildling::plan {

std::vector<Question> weather_questions() {
  return {};
}

std::vector<Note> weather_notes() {
  return {};
}

}  // namespace wildling::plan
