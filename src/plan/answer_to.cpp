#include "plan/answer_to.hpp"

namespace wildling::plan {

bool is_an_answer(const Error& error) noexcept {
  return error.kind() == ErrorKind::input || error.kind() == ErrorKind::infeasible;
}

Reply answer_to(const Question& question, const store::Store& store, const Entries& entries,
                Date today, const Progress& progress) {
  check_entries(question.fields, entries);
  try {
    return question.reply(store, entries, today, progress);
  } catch (const Error& error) {
    if (!is_an_answer(error)) throw;
    Reply reply;
    reply.name = question.name;
    reply.answer = error.message();
    return reply;
  }
}

}  // namespace wildling::plan
