#include "tending/diary.hpp"

#include <gtest/gtest.h>

#include "invented.hpp"

namespace wildling::tending {
namespace {

DiaryLine line_of(std::string who, Date day, double hours, double quantity,
                  Job job = Job::dig_pits) {
  DiaryLine line;
  line.who = std::move(who);
  line.day = day;
  line.block = "B1";
  line.job = job;
  line.hours = hours;
  line.quantity = quantity;
  line.where = "diary.csv:2";
  return line;
}

const std::map<std::string, BlockFacts> kBlocks = {{"B1", {true, make_date(2026, 11, 10)}},
                                                   {"B2", {false, {}}}};
const std::map<std::string, double> kWages = {{"Ani", 160000}, {"", 150000}};

PayList paid(const std::vector<DiaryLine>& lines) {
  return pay_list(lines, make_date(2026, 11, 1), make_date(2026, 11, 30), kWages, kBlocks,
                  shipped());
}

TEST(OwnRates, AreShrunkToTheBookByTenPersonDays) {
  const std::vector lines = {line_of("Ani", make_date(2026, 10, 1), 8, 30)};
  const OwnRate own = own_rates(lines, shipped()).at(0);
  EXPECT_EQ(own.rate, "pits");
  EXPECT_DOUBLE_EQ(own.own, 30);
  EXPECT_NEAR(own.used, (30 + 10 * 50.0) / 11, 1e-12);  // (own x 1 day + book x 10 days) / 11
  EXPECT_FALSE(own.replaces_book);
}

TEST(OwnRates, ReplaceTheBookAfterASeason) {
  std::vector<DiaryLine> lines;
  for (int i = 0; i < 40; ++i) {
    lines.push_back(
        line_of("Ani", make_date(2026, 1, 1) + std::chrono::days(4 * i), 8, i % 2 == 0 ? 30 : 40));
  }
  const OwnRate own = own_rates(lines, shipped()).at(0);
  EXPECT_TRUE(own.replaces_book);
  EXPECT_DOUBLE_EQ(own.used, 35);
  EXPECT_DOUBLE_EQ(own.book, 50);  // stays visible
  ASSERT_TRUE(own.own_low && own.own_high);
  EXPECT_LT(*own.own_low, 35);
  EXPECT_GT(*own.own_high, 35);
}

// Equal days: the jackknife of a ratio is the usual standard error of a mean. 30, 40 in turn, n =
// 40: sd 5.0637, se 0.8006, t(39) = 2.0227 (tables): half width 1.619; the 1.96 + 2.4/39 used here
// gives 1.618.
TEST(OwnRates, HaveTheIntervalOfAMeanWhenDaysAreEqual) {
  std::vector<DiaryLine> lines;
  for (int i = 0; i < 40; ++i)
    lines.push_back(line_of("Ani", make_date(2026, 1, 1), 8, i % 2 == 0 ? 30 : 40));
  EXPECT_NEAR(*own_rates(lines, shipped()).at(0).own_high - 35, 1.619, 0.003);
}

TEST(OwnRates, HaveNoIntervalFromFourLines) {
  const std::vector<DiaryLine> lines(4, line_of("Ani", make_date(2026, 1, 1), 8, 30));
  EXPECT_FALSE(own_rates(lines, shipped()).at(0).own_low);
}

TEST(WithOwnRates, MoveTheRangeWithTheValueAndSayMeasured) {
  std::vector<DiaryLine> lines;
  for (int i = 0; i < 40; ++i)
    lines.push_back(line_of("Ani", make_date(2026, 1, 1) + std::chrono::days(4 * i), 8, 25));
  const Parameters own = with_own_rates(shipped(), own_rates(lines, shipped()));
  EXPECT_DOUBLE_EQ(own.value("tending.rate.pits"), 25);
  EXPECT_DOUBLE_EQ(own.value("tending.rate.pits.slow"), 15);
  EXPECT_DOUBLE_EQ(own.value("tending.rate.pits.fast"), 40);
  EXPECT_EQ(own.at("tending.rate.pits").origin, Origin::measured);
}

TEST(PayList, PaysHoursAtEachPersonsWage) {
  const PayList list = paid({line_of("Ani", make_date(2026, 11, 2), 8, 40),
                             line_of("Budi", make_date(2026, 11, 2), 4, 20)});
  ASSERT_EQ(list.people.size(), 2U);
  EXPECT_DOUBLE_EQ(list.people[0].amount, 160000);
  EXPECT_DOUBLE_EQ(list.people[1].amount, 75000);
  EXPECT_DOUBLE_EQ(list.amount, 235000);
  EXPECT_DOUBLE_EQ(list.by_block.at("B1"), 235000);
  EXPECT_TRUE(list.findings.empty());
}

TEST(PayList, CountsDaysOfWomenAndMen) {
  auto ani = line_of("Ani", make_date(2026, 11, 2), 8, 40);
  ani.sex = DiaryLine::Sex::woman;
  const PayList list = paid({ani, line_of("Budi", make_date(2026, 11, 2), 4, 20)});
  EXPECT_DOUBLE_EQ(list.women_days, 1);
  EXPECT_DOUBLE_EQ(list.not_said_days, 0.5);
  EXPECT_DOUBLE_EQ(list.women_days + list.men_days + list.not_said_days, list.days);
}

struct Fault {
  const char* name;
  DiaryLine line;
  const char* key;
};

TEST(PayList, KeepsALineThatBreaksARuleAside) {
  const Date day = make_date(2026, 11, 2);
  auto without_consent = line_of("Ani", day, 8, 1);
  without_consent.block = "B2";
  auto unknown = line_of("Ani", day, 8, 1);
  unknown.block = "B9";
  const std::vector<Fault> faults = {
      {"25 hours", line_of("Ani", day, 25, 1), "tending.slip.hours"},
      {"no hours", line_of("Ani", day, 0, 1), "tending.slip.hours"},
      {"no consent", without_consent, "tending.slip.no_consent"},
      {"unknown block", unknown, "tending.slip.block_unknown"},
      {"ring before planting", line_of("Ani", day, 8, 1, Job::ring),
       "tending.slip.before_planting"},
  };
  for (const Fault& fault : faults) {
    SCOPED_TRACE(fault.name);
    const PayList list = paid({fault.line});
    ASSERT_EQ(list.findings.size(), 1U);
    EXPECT_EQ(list.findings[0].message.key, fault.key);
    EXPECT_EQ(list.findings[0].where, "diary.csv:2");
    EXPECT_EQ(list.set_aside, std::vector<std::size_t>{0});
    EXPECT_DOUBLE_EQ(list.amount, 0);
  }
}

TEST(PayList, RefusesMoreThan24HoursOfOnePersonOnOneDay) {
  const Date day = make_date(2026, 11, 12);
  const PayList list = paid({line_of("Ani", day, 13, 1), line_of("Ani", day, 12, 1, Job::ring),
                             line_of("Budi", day, 8, 1)});
  EXPECT_EQ(list.set_aside.size(), 2U);
  EXPECT_EQ(list.people.size(), 1U);
}

TEST(PayList, KeepsALineAsideWhenNoWageIsKnown) {
  const std::vector lines = {line_of("Citra", make_date(2026, 11, 2), 8, 1)};
  const PayList list = pay_list(lines, make_date(2026, 11, 1), make_date(2026, 11, 30),
                                {{"Ani", 1}}, kBlocks, shipped());
  EXPECT_EQ(list.findings.at(0).message.key, "tending.slip.no_wage");
}

TEST(PayList, PaysTheSameLineOnce) {
  const auto line = line_of("Ani", make_date(2026, 11, 2), 8, 40);
  const PayList list = paid({line, line});
  EXPECT_DOUBLE_EQ(list.amount, 160000);
  EXPECT_EQ(list.findings.at(0).message.key, "tending.slip.twice");
}

}  // namespace
}  // namespace wildling::tending
