#include "plan/field/year.hpp"

namespace wildling::plan {

std::vector<Question> year_questions() {
  return {};
}

std::vector<Note> year_notes() {
  return {};
}

}  // namespace wildling::plan
