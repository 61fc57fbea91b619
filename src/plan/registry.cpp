#include "plan/registry.hpp"

#include "plan/field/questions.hpp"
#include "plan/field/year.hpp"
#include "plan/weather/questions.hpp"

namespace wildling::plan {
namespace {

template <class T>
void add(std::vector<T>& to, std::vector<T> from) {
  for (T& one : from) to.push_back(std::move(one));
}

}  // namespace

std::vector<Question> gathered_questions() {
  std::vector<Question> list;
  add(list, weather_questions());
  add(list, field_questions());
  add(list, year_questions());
  return list;
}

std::vector<Note> gathered_notes() {
  std::vector<Note> list;
  add(list, weather_notes());
  add(list, field_notes());
  add(list, year_notes());
  return list;
}

}  // namespace wildling::plan
