#include "plan/answer_to.hpp"

#include <gtest/gtest.h>

#include "invented_programme.hpp"

namespace wildling::plan {
namespace {

Question failing(ErrorKind kind) {
  Question question;
  question.name = "weighed";
  question.fields = {{"day", FieldKind::day, "", false, false, {}, {}, {}}};
  question.reply = [kind](const store::Store&, const Entries&, Date, const Progress&) -> Reply {
    throw Error(kind, "block B1", say("plan.no_plan"));
  };
  return question;
}

Reply asked(const Question& question, const Entries& entries = {}) {
  Rehearsal outside{Seed{3}};
  const auto store = invented_programme(outside, 0);
  return answer_to(question, *store, entries, make_date(2025, 2, 1), {});
}

class AnAnswer : public testing::TestWithParam<ErrorKind> {};

TEST_P(AnAnswer, IsTheSentenceThatSaysWhyThereIsNone) {
  const Reply reply = asked(failing(GetParam()));
  EXPECT_EQ(reply.name, "weighed");
  EXPECT_EQ(reply.answer.key, "plan.no_plan");
  EXPECT_TRUE(reply.parts.empty() && reply.tables.empty() && reply.charts.empty());
  EXPECT_TRUE(reply.findings.empty() && reply.workings.nodes().empty());
}

INSTANTIATE_TEST_SUITE_P(Kinds, AnAnswer, testing::Values(ErrorKind::input, ErrorKind::infeasible));

class NoAnswer : public testing::TestWithParam<ErrorKind> {};

TEST_P(NoAnswer, IsAnError) {
  try {
    asked(failing(GetParam()));
    FAIL();
  } catch (const Error& error) {
    EXPECT_EQ(error.kind(), GetParam());
  }
}

INSTANTIATE_TEST_SUITE_P(Kinds, NoAnswer,
                         testing::Values(ErrorKind::usage, ErrorKind::conflict, ErrorKind::io,
                                         ErrorKind::internal));

TEST(AnswerTo, RefusesEntriesThatDoNotFitBeforeItAsks) {
  try {
    asked(failing(ErrorKind::input), {{"day", {"yesterday"}}});
    FAIL();
  } catch (const Error& error) {
    EXPECT_EQ(error.kind(), ErrorKind::usage);
  }
}

TEST(AnswerTo, GivesTheReplyOfAQuestionThatCanBeAnswered) {
  Question question = failing(ErrorKind::io);
  question.reply = [](const store::Store&, const Entries& entries, Date, const Progress&) {
    Reply reply;
    reply.name = text_of(entries, "day").value_or("none");
    return reply;
  };
  EXPECT_EQ(asked(question, {{"day", {"2025-02-01"}}}).name, "2025-02-01");
}

}  // namespace
}  // namespace wildling::plan
