// Money adds up whatever is due: random works, costs and payments.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "plan/field/year_money.hpp"

namespace wildling::plan {
namespace {

Date random_day(Date from, int days) {
  return from + std::chrono::days(*rc::gen::inRange(0, days));
}

/// A question of random works of three blocks; only what money_answer reads.
MoneyQuestion random_question() {
  MoneyQuestion question;
  question.start = make_date(2026, 1, 1) + std::chrono::days(*rc::gen::inRange(0, 400));
  question.hard_from = question.start + std::chrono::days(*rc::gen::inRange(0, 400));
  question.dear_from = question.start;
  question.care.years = 3;
  question.opening = *rc::gen::inRange(0, 5000000);
  const int works = *rc::gen::inRange(0, 40);
  const std::vector<tending::Job> jobs = {tending::Job::ring, tending::Job::dig_pits,
                                          tending::Job::refill, tending::Job::firebreak};
  for (int i = 0; i < works; ++i) {
    tending::Work work;
    work.block = "B" + std::to_string(*rc::gen::inRange(1, 4));
    work.job = jobs[*rc::gen::inRange<std::size_t>(0, jobs.size())];
    work.due = random_day(make_date(2026, 1, 1), 1500);
    work.days.used = *rc::gen::inRange(0, 100) / 4.0;
    work.wages = work.days.used * 150000;
    work.materials = *rc::gen::inRange(0, 300000);
    question.paid.works.push_back(work);
  }
  std::stable_sort(question.paid.works.begin(), question.paid.works.end(),
                   [](const auto& a, const auto& b) { return a.due < b.due; });
  question.paid.wage = 150000;
  tending::add_up(question.paid);
  const int costs = *rc::gen::inRange(0, 5);
  for (int i = 0; i < costs; ++i)
    question.other.push_back(
        {random_day(question.start, 900), "B1", "seedlings", 1.0 * *rc::gen::inRange(0, 9000000)});
  const int incomes = *rc::gen::inRange(0, 5);
  for (int i = 0; i < incomes; ++i)
    question.incomes.push_back({random_day(question.start, 900), "", "income",
                                1.0 * *rc::gen::inRange(0, 90000000), true});
  return question;
}

const Parameters& parameters() {
  static const Parameters shipped = Parameters::shipped();
  return shipped;
}

RC_GTEST_PROP(YearMoneyProperties, OpeningPlusInLessOutIsTheLastBalance, ()) {
  const MoneyQuestion question = random_question();
  for (const MoneyRun& run : money_answer(question, parameters()).runs) {
    const double last = run.table.months.back().balance;
    RC_ASSERT(std::abs(*question.opening + run.table.in - run.table.out - last) < 1e-3);
  }
}

RC_GTEST_PROP(YearMoneyProperties, TheMonthItRunsOutIsTheFirstBelowNothing, ()) {
  for (const MoneyRun& run : money_answer(random_question(), parameters()).runs) {
    std::optional<int> first;
    for (const auto& month : run.table.months) {
      if (month.balance < 0 && !first) first = month.month;
    }
    RC_ASSERT(run.table.runs_out == first);
  }
}

RC_GTEST_PROP(YearMoneyProperties, BlocksAddUpToTheMonths, ()) {
  const MoneyAnswer answer = money_answer(random_question(), parameters());
  double blocks = 0, months = 0;
  for (const MonthOfBlock& one : answer.by_block) blocks += one.total();
  for (const auto& month : answer.runs.front().table.months) months += month.out;
  RC_ASSERT(std::abs(blocks - months) < 1e-3);
}

RC_GTEST_PROP(YearMoneyProperties, JobsAddUpToTheMonths, ()) {
  const MoneyAnswer answer = money_answer(random_question(), parameters());
  double jobs = 0;
  for (const auto& [what, amount] : answer.runs.front().table.out_by_what) jobs += amount;
  RC_ASSERT(std::abs(jobs - answer.runs.front().table.out) < 1e-3);
}

RC_GTEST_PROP(YearMoneyProperties, PersonDaysOfBlocksAreThoseOfTheWorks, ()) {
  const MoneyQuestion question = random_question();
  double blocks = 0, works = 0;
  for (const MonthOfBlock& one : money_answer(question, parameters()).by_block) blocks += one.days;
  for (const tending::Work& work : question.paid.works)
    works += work.due < question.start ? 0 : work.days.used;
  RC_ASSERT(std::abs(blocks - works) < 1e-9);
}

RC_GTEST_PROP(YearMoneyProperties, NoBadYearIsCheaperThanTheUsualOne, ()) {
  const MoneyAnswer answer = money_answer(random_question(), parameters());
  for (const MoneyRun& run : answer.runs)
    RC_ASSERT(run.table.out >= answer.runs.front().table.out - 1e-6);
}

RC_GTEST_PROP(YearMoneyProperties, APriceHoldsUntilTheNext, ()) {
  const Date first = make_date(2026, 1, 1);
  std::vector<PriceStep> steps;
  for (int i = 0; i < 4; ++i)
    steps.push_back({"wage", first + std::chrono::days(100 * i), 10.0 * (i + 1), ""});
  const int day = *rc::gen::inRange(-50, 500);
  const double expected = day < 0 ? 7 : 10.0 * (std::min(day / 100, 3) + 1);
  RC_ASSERT(price_on(steps, "wage", first + std::chrono::days(day), 7) == expected);
}

}  // namespace
}  // namespace wildling::plan
