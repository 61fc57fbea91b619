#include "plan/field/questions.hpp"

namespace wildling::plan {

std::vector<Question> field_questions() {
  return {};
}

std::vector<Note> field_notes() {
  return {};
}

}  // namespace wildling::plan
