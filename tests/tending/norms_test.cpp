#include "tending/norms.hpp"

#include <fstream>
#include <sstream>

#include <gtest/gtest.h>

#include "base/csv.hpp"

namespace wildling::tending {
namespace {

const Parameters& shipped() {
  static const Parameters parameters = Parameters::shipped();
  return parameters;
}

CsvTable reference(const std::string& name) {
  std::ifstream file(WILDLING_REFERENCE "/tending_practice/" + name);
  std::stringstream text;
  text << file.rdbuf();
  return parse_csv_table(text.str());
}

double worked(const std::string& what, double a, double b) {
  if (what == "ring_share") return ring_share(a, b);
  if (what == "pit_days_fast") return person_days(a, rate("pits", shipped())).low;
  if (what == "pit_days_slow") return person_days(a, rate("pits", shipped())).high;
  if (what == "slash_days_fast") return person_days(a, rate("slash", shipped())).low;
  if (what == "slash_days_slow") return person_days(a, rate("slash", shipped())).high;
  if (what == "fertiliser_kg") return fertiliser_kg(a, b);
  if (what == "seedlings_per_carry") return seedlings_per_carry(shipped());
  ADD_FAILURE() << what;
  return 0;
}

// ILO 1993, Friday et al. 1999, FORRU: see tests/reference/tending_practice/README.md.
TEST(Norms, ReproduceTheWorkedNumbersOfTheTrade) {
  const CsvTable table = reference("data.csv");
  ASSERT_EQ(table.rows.size(), 16U);
  for (const CsvRow& row : table.rows) {
    SCOPED_TRACE(row.cells[0] + " " + row.cells[1]);
    EXPECT_NEAR(worked(row.cells[0], *parse_number(row.cells[1]), *parse_number(row.cells[2])),
                *parse_number(row.cells[3]), *parse_number(row.cells[4]));
  }
}

TEST(Norms, NeverTreatMoreThanAllOfTheGround) {
  EXPECT_DOUBLE_EQ(ring_share(10000, 3), 1);
  EXPECT_DOUBLE_EQ(line_share(4, 2), 1);
}

TEST(Norms, KeepTheUsedRateBetweenSlowAndFast) {
  for (const char* name :
       {"slash", "pressing", "climber_cutting", "pits", "plant", "carries", "mark_places"}) {
    const PersonDays days = person_days(1000, rate(name, shipped()));
    EXPECT_LT(days.low, days.used) << name;
    EXPECT_LT(days.used, days.high) << name;
  }
}

TEST(SlopeFactor, IsOneOnFlatLandAndWhereNothingIsKnown) {
  EXPECT_DOUBLE_EQ(slope_factor({}, shipped()), 1);
  EXPECT_DOUBLE_EQ(slope_factor(5.0, shipped()), 1);
  EXPECT_NEAR(slope_factor(30.0, shipped()), 1.3, 1e-12);
  EXPECT_DOUBLE_EQ(slope_factor(80.0, shipped()), 1.6);
}

TEST(JobName, ReadsBackToItsJob) {
  for (int i = 0; i < kJobs; ++i)
    EXPECT_EQ(*parse_job(job_name(static_cast<Job>(i))), static_cast<Job>(i));
  EXPECT_FALSE(parse_job("felling"));
}

}  // namespace
}  // namespace wildling::tending
