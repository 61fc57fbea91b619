#include "base/error.hpp"
#include "plan/field/year_money.hpp"
#include "tending/crew.hpp"
#include "year_fixture.hpp"

namespace wildling::plan {
namespace {

std::string block_of(const Year& year) {
  for (const BlockPart& part : year.plan.blocks) {
    if (part.open && part.planted > 0) return part.block.code;
  }
  return {};
}

TEST_F(YearAhead, EveryQuestionOpensEveryNumberAndHasItsWords) {
  const std::string block = block_of(year());
  note("income", {{"money", {"opening"}}, {"amount", {"90000000"}}});
  note("income", {{"money", {"payment"}}, {"amount", {"5000000"}}, {"day", {"2025-12-01"}}});
  note("price", {{"item", {"wage"}}, {"price", {"120000"}}});
  note("price", {{"item", {"trip"}}, {"price", {"400000"}}});
  note("price", {{"item", {"month"}}, {"price", {"300000"}}});
  note("told", {{"who", {"Estate beyond the river (invented)"}}, {"day", {"2025-01-30"}}});
  note("firebreak", {{"block", {block}}, {"metres", {"50"}}});
  note("burn", {{"day", {"2025-01-20"}}, {"block", {block}}, {"edge", {"from the road east"}}});
  note("count", {{"block", {block}},
                 {"row-number", {"1"}},
                 {"alive", {"7"}},
                 {"counted", {"10"}},
                 {"dead-places", {"3-5"}}});
  note("count", {{"block", {block}},
                 {"row-number", {"2"}},
                 {"alive", {"4"}},
                 {"counted", {"9"}},
                 {"cohort", {"resprout"}}});
  for (const Question& question : year_questions()) {
    SCOPED_TRACE(question.name);
    expect_sound(ask(question.name));
  }
}

TEST_F(YearAhead, MoneyWithoutAnOpeningBalanceSaysSo) {
  const Reply reply = ask("money");
  EXPECT_EQ(reply.answer.key, "year.money.no_opening");
  expect_sound(reply);
}

TEST_F(YearAhead, MoneyRunsOutInTheFirstMonthBelowNothing) {
  note("income", {{"money", {"opening"}}, {"amount", {"30000000"}}});
  const Reply reply = ask("money");
  ASSERT_EQ(reply.answer.key, "year.money.runs_out");
  const Date month = std::get<Date>(reply.answer.arguments.at("month"));
  for (const auto& row : table_of(reply, "months").rows) {
    const double balance = number_in(row[3]);
    if (std::get<std::string>(row[0].value) < iso_date(month).substr(0, 7)) {
      EXPECT_GE(balance, 0);
    } else {
      EXPECT_LT(balance, 0);
      break;
    }
  }
}

TEST_F(YearAhead, MoneyOfBlocksAndMonthsAndJobsIsTheSame) {
  const Reply reply = ask("money");
  const double months = column_sum(table_of(reply, "months"), "out");
  EXPECT_NEAR(column_sum(table_of(reply, "month_by_block"), "total"), months, 1e-6 * months);
  const double jobs = column_sum(table_of(reply, "jobs"), "saves");
  const double seedlings = column_sum(table_of(reply, "month_by_block"), "seedlings");
  EXPECT_NEAR(jobs + seedlings, months, 1e-6 * months);
  EXPECT_NEAR(column_sum(table_of(reply, "jobs"), "person_days"),
              column_sum(table_of(reply, "month_by_block"), "person_days"), 1e-6);
}

TEST_F(YearAhead, OwnRatesStandBesideTheBooksAndAreUsed) {
  const double before = column_sum(table_of(ask("money"), "jobs"), "person_days");
  const std::string block = block_of(year());
  store::ChangeSet act;
  act.who = "tester";
  act.why = "diary";
  act.face = "test";
  for (int i = 0; i < 40; ++i) {
    act.rows.push_back(store::RowChange::insert(
        "diary_lines", {{"worker", std::string("A")},
                        {"day", store::from(make_date(2024, 1, 1) + std::chrono::days(5 * i))},
                        {"block", block},
                        {"job", std::string("dig_pits")},
                        {"hours", store::from(8.0)},
                        {"quantity", store::from(100.0)}}));
  }
  store->apply(act);
  const Reply reply = ask("money");
  const Table& rates = table_of(reply, "rates");
  ASSERT_EQ(rates.rows.size(), 1U);
  EXPECT_DOUBLE_EQ(number_in(rates.rows[0][1]), 50);
  EXPECT_DOUBLE_EQ(number_in(rates.rows[0][2]), 100);
  EXPECT_DOUBLE_EQ(number_in(rates.rows[0][3]), 100);  // a season: the diary stands alone
  EXPECT_LT(column_sum(table_of(reply, "jobs"), "person_days"), before);
  EXPECT_NEAR(column_sum(table_of(reply, "jobs"), "person_days_book"), before, 1e-6);
  expect_sound(reply);
}

TEST_F(YearAhead, AWageRiseFromAMonthChangesOnlyWagesAfterIt) {
  const MoneyQuestion before = money_question(year(), 5);
  const Date rise = make_date(2026, 6, 1);
  note("price", {{"item", {"wage"}}, {"price", {"300000"}}, {"from", {iso_date(rise)}}});
  const MoneyQuestion after = money_question(year(), 5);
  for (std::size_t i = 0; i < before.paid.works.size(); ++i) {
    const double factor = before.paid.works[i].due < rise ? 1 : 2;
    EXPECT_NEAR(after.paid.works[i].wages, factor * before.paid.works[i].wages, 1e-6);
  }
}

TEST_F(YearAhead, HopedMoneyIsNotCounted) {
  note("income", {{"money", {"opening"}}, {"amount", {"1000000"}}});
  note("income", {{"money", {"payment"}},
                  {"amount", {"900000000"}},
                  {"state", {"hoped"}},
                  {"day", {"2025-03-01"}}});
  EXPECT_DOUBLE_EQ(column_sum(table_of(ask("money"), "months"), "in"), 0);
}

TEST_F(YearAhead, ADroughtTriplesTheRefillAndAddsItsWatch) {
  const Year now = year();
  const MoneyQuestion question = money_question(now, 5);
  const MoneyAnswer answer = money_answer(question, now.rates);
  double refill = 0;
  for (const tending::Work& work : question.paid.works)
    refill += work.job == tending::Job::refill ? work.cost() : 0;
  const double watch =
      now.rates.value("tending.bad.drought_watch_days") * now.rates.value("tending.wage_per_day");
  EXPECT_NEAR(answer.runs[1].table.out - answer.runs[0].table.out, 2 * refill + watch, 1e-3);
}

TEST_F(YearAhead, CostPerLivingTreeIsMoneyOverSurvivors) {
  const Reply reply = ask("money");
  for (const auto& row : table_of(reply, "cost_per_tree").rows) {
    EXPECT_NEAR(number_in(row[5]) * number_in(row[2]), number_in(row[1]), 1e-3);
    EXPECT_LT(number_in(row[8]), number_in(row[5]));  // per planted flatters
    EXPECT_LE(number_in(row[6]), number_in(row[5]));
    EXPECT_GE(number_in(row[7]), number_in(row[5]));
  }
}

TEST_F(YearAhead, PersonDaysOfBlocksAreThoseOfTheWholeCrew) {
  const Reply reply = ask("crew");
  const Table& needs = table_of(reply, "needs");
  EXPECT_NEAR(column_sum(table_of(reply, "blocks"), "days_planting"), number_in(needs.rows[4][1]),
              1e-6);
  EXPECT_NEAR(column_sum(table_of(reply, "blocks"), "days_pits"), number_in(needs.rows[2][1]),
              1e-6);
  EXPECT_NEAR(column_sum(table_of(reply, "weeks"), "person_days"),
              number_in(needs.rows[3][1]) + number_in(needs.rows[4][1]), 1e-6);
}

TEST_F(YearAhead, TwoWeeksNeedMorePeopleThanTheWholeWindow) {
  const Table needs = table_of(ask("crew"), "needs");
  EXPECT_GE(number_in(needs.rows[9][2]), number_in(needs.rows[9][1]));
}

TEST_F(YearAhead, FirebreaksAreDueBeforeTheDryMonths) {
  const Reply reply = ask("calendar");
  ASSERT_EQ(reply.answer.key, "year.calendar.clear");
  // The invented rain is dry from June to September.
  EXPECT_EQ(std::get<Date>(reply.answer.arguments.at("due")), make_date(2025, 5, 18));
}

TEST_F(YearAhead, CutFirebreaksLessenWhatIsLeft) {
  const std::string block = block_of(year());
  const double before = column_sum(table_of(ask("calendar"), "firebreaks"), "left_m");
  note("firebreak", {{"block", {block}}, {"metres", {"40"}}});
  const double after = column_sum(table_of(ask("calendar"), "firebreaks"), "left_m");
  EXPECT_NEAR(before - after, 40, 1e-9);
}

TEST_F(YearAhead, BlocksOnHoldGetNoFirebreakWork) {
  const FireCalendar sheet = fire_sheet(year());
  for (const FirebreakJob& job : sheet.breaks) {
    for (const BlockPart& part : year().plan.blocks) {
      EXPECT_TRUE(part.open || part.block.code != job.block_code);
    }
  }
  EXPECT_FALSE(sheet.breaks.empty());
}

TEST_F(YearAhead, DeadThatStandTogetherAreRefilled) {
  const std::string block = block_of(year());
  for (int row = 1; row <= 12; ++row) {
    note("count", {{"block", {block}},
                   {"row-number", {std::to_string(row)}},
                   {"alive", {"60"}},
                   {"counted", {"100"}},
                   {"dead-places", {"11-50"}}});
  }
  const Reply reply = ask("refill");
  EXPECT_EQ(reply.answer.key, "year.refill.refill");
  expect_sound(reply);
}

TEST_F(YearAhead, ManyDeadWithoutTheirPlacesCannotTellWhere) {
  const std::string block = block_of(year());
  for (int row = 1; row <= 12; ++row)
    note("count", {{"block", {block}},
                   {"row-number", {std::to_string(row)}},
                   {"alive", {"60"}},
                   {"counted", {"100"}}});
  EXPECT_EQ(ask("refill").answer.key, "year.refill.places_missing");
}

TEST_F(YearAhead, ALaterCountOfARowReplacesTheEarlierOne) {
  const std::string block = block_of(year());
  note("count", {{"block", {block}},
                 {"row-number", {"1"}},
                 {"alive", {"1"}},
                 {"counted", {"10"}},
                 {"day", {"2025-01-01"}}});
  note("count", {{"block", {block}},
                 {"row-number", {"1"}},
                 {"alive", {"9"}},
                 {"counted", {"10"}},
                 {"day", {"2025-01-20"}}});
  const Table cohorts = table_of(ask("refill"), "cohorts");
  ASSERT_EQ(cohorts.rows.size(), 1U);
  EXPECT_DOUBLE_EQ(number_in(cohorts.rows[0][4]), 1);
}

TEST_F(YearAhead, CohortsAreNeverMixed) {
  const std::string block = block_of(year());
  note("count", {{"block", {block}}, {"row-number", {"1"}}, {"alive", {"2"}}, {"counted", {"10"}}});
  note("count", {{"block", {block}},
                 {"row-number", {"1"}},
                 {"alive", {"8"}},
                 {"counted", {"8"}},
                 {"cohort", {"refill_1"}}});
  const Table cohorts = table_of(ask("refill"), "cohorts");
  ASSERT_EQ(cohorts.rows.size(), 2U);
  EXPECT_DOUBLE_EQ(number_in(cohorts.rows[0][4]), 8);
  EXPECT_DOUBLE_EQ(number_in(cohorts.rows[1][4]), 0);
}

TEST_F(YearAhead, AfterAFireTheCountComesEightWeeksLater) {
  note("burn", {{"day", {"2025-01-20"}}, {"edge", {"along the road"}}});
  const Reply reply = ask("burnt");
  ASSERT_EQ(reply.answer.key, "year.burnt.wait");
  EXPECT_EQ(std::get<Date>(reply.answer.arguments.at("from")),
            make_date(2025, 1, 20) + std::chrono::days(56));
}

TEST_F(YearAhead, NotesOfTheYearDoNotMakeThePlanOld) {
  note("income", {{"money", {"opening"}}, {"amount", {"1"}}});
  note("price", {{"item", {"wage"}}, {"price", {"1"}}});
  note("told", {{"who", {"Somebody (invented)"}}});
  EXPECT_FALSE(year().stale);
}

TEST_F(YearAhead, BadNotesAreRefusedAndNothingIsKept) {
  const std::string block = block_of(year());
  const std::vector<std::pair<std::string, Entries>> bad = {
      {"income", {{"money", {"opening"}}, {"amount", {"-1"}}}},
      {"income", {{"money", {"opening"}}, {"amount", {"5"}}, {"day", {"2030-01-01"}}}},
      {"price", {{"item", {"wage"}}, {"price", {"much"}}}},
      {"told", {{"who", {"A"}}, {"day", {"2030-01-01"}}}},
      {"burn", {{"day", {"2025-01-01"}}}},
      {"burn", {{"day", {"2025-01-01"}}, {"track", {"no-such-file.gpx"}}}},
      {"access",
       {{"shut", {"river"}}, {"way", {"ford"}}, {"from", {"2025-02-01"}}, {"to", {"2025-01-01"}}}},
      {"depot", {{"depot", {"D"}}, {"lon", {"113"}}}},
      {"firebreak", {{"block", {"B99"}}, {"metres", {"10"}}}},
      {"count",
       {{"block", {block}}, {"row-number", {"1"}}, {"alive", {"11"}}, {"counted", {"10"}}}},
      {"count",
       {{"block", {block}},
        {"row-number", {"1"}},
        {"alive", {"8"}},
        {"counted", {"10"}},
        {"dead-places", {"3-99"}}}},
      {"count",
       {{"block", {block}},
        {"row-number", {"1"}},
        {"alive", {"8"}},
        {"counted", {"10"}},
        {"dead-places", {"3"}}}}};
  for (const auto& [name, entries] : bad) EXPECT_THROW(note(name, entries), Error) << name;
  for (const char* table : {"incomes", "prices", "neighbours", "fires", "shut_ways", "depots",
                            "firebreak_days", "row_counts"})
    EXPECT_EQ(store->count(table), 0) << table;
}

TEST(YearPlaces, ReadRangesAndRefuseWhatIsTwice) {
  EXPECT_EQ(parse_places("3, 9-11;1", 12), (std::vector<int>{1, 3, 9, 10, 11}));
  EXPECT_EQ(parse_places("3, 3", 12), std::nullopt);
  EXPECT_EQ(parse_places("0", 12), std::nullopt);
  EXPECT_EQ(parse_places("5-4", 12), std::nullopt);
  EXPECT_EQ(parse_places("1-99999999999", 12), std::nullopt);
  EXPECT_EQ(parse_places("", 12), std::vector<int>{});
}

}  // namespace
}  // namespace wildling::plan
