#include "species/survival.hpp"

#include <cmath>
#include <limits>

#include <gtest/gtest.h>

#include "base/csv.hpp"
#include "base/error.hpp"
#include "base/files.hpp"
#include "species/library.hpp"

namespace wildling::species {
namespace {

const Parameters& parameters() {
  static const Parameters shipped = Parameters::shipped();
  return shipped;
}

const Library& library() {
  static const Library shipped = Library::shipped();
  return shipped;
}

CsvTable reference(const std::string& name) {
  return parse_csv_table(read_file(std::string(WILDLING_REFERENCE) + "/" + name + "/data.csv"));
}

Candidate candidate(const char* name) {
  Candidate c;
  c.species = *library().find(name);
  return c;
}

Survival expect(const Candidate& c, bool cover, double months) {
  return expected_survival(c, cover, months, library().survival(), parameters());
}

TEST(PooledShareAlive, ReproducesBanin2023) {
  for (const CsvRow& row : reference("banin_2023").rows) {
    SCOPED_TRACE(row.line);
    const double age = *parse_number(row.cells[1]);
    double value = pooled_share_alive(age, parameters());
    if (row.cells[0] == "annual_survival_years_2_5")
      value /= pooled_share_alive(age - 12, parameters());
    EXPECT_NEAR(value, *parse_number(row.cells[2]), *parse_number(row.cells[3]));
  }
}

TEST(PooledShareAlive, StartsWithAllAliveAndNeverRises) {
  EXPECT_EQ(pooled_share_alive(0, parameters()), 1);
  for (int month = 1; month < 200; ++month) {
    EXPECT_LT(pooled_share_alive(month, parameters()), pooled_share_alive(month - 1, parameters()));
  }
}

TEST(ShareAlive, PassesThroughItsReference) {
  for (const double share : {0.05, 0.3, 0.56, 0.9, 1.0}) {
    EXPECT_NEAR(share_alive(12, share, 12, parameters()), share, 1e-12);
    EXPECT_NEAR(share_alive(81, share, 81, parameters()), share, 1e-12);
  }
}

TEST(ShareAlive, NeverRisesWithAge) {
  for (const double share : {0.0, 0.2, 0.82, 0.97, 1.0}) {
    for (int month = 1; month < 120; ++month) {
      EXPECT_LE(share_alive(month, share, 12, parameters()),
                share_alive(month - 1, share, 12, parameters()));
    }
  }
}

TEST(ShareAlive, NeverFallsWhenTheCountWasBetter) {
  for (const double age : {6.0, 12.0, 36.0, 90.0}) {
    for (int percent = 1; percent <= 100; ++percent) {
      EXPECT_GE(share_alive(age, percent / 100.0, 12, parameters()),
                share_alive(age, (percent - 1) / 100.0, 12, parameters()));
    }
  }
}

TEST(ShareAlive, AFullFirstYearStillLosesTreesLater) {
  EXPECT_NEAR(share_alive(60, 1, 12, parameters()), 0.56 / 0.82, 1e-12);
}

TEST(ShareAlive, NobodyAliveStaysSo) {
  EXPECT_EQ(share_alive(36, 0, 12, parameters()), 0);
}

TEST(ShareAlive, RefusesWhatIsNoShareAndNoAge) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  EXPECT_THROW(share_alive(nan, 0.5, 12, parameters()), Error);
  EXPECT_THROW(share_alive(12, nan, 12, parameters()), Error);
  EXPECT_THROW(share_alive(12, 1.2, 12, parameters()), Error);
  EXPECT_THROW(share_alive(-1, 0.5, 12, parameters()), Error);
  EXPECT_THROW(share_alive(12, 0.5, 0, parameters()), Error);
}

TEST(ExpectedSurvival, ReproducesEveryGrasslandCountOfHattori2013) {
  int seen = 0;
  for (const CsvRow& row : reference("hattori_2013").rows) {
    if (row.cells[1] != "open") continue;
    SCOPED_TRACE(row.line);
    Candidate c;
    c.species.scientific_name = row.cells[0];
    if (const Species* known = library().find(row.cells[0])) c.species = *known;
    const Survival s = expect(c, false, *parse_number(row.cells[3]));
    EXPECT_NEAR(s.share, *parse_number(row.cells[4]) / 100, 1e-12);  // but for rounding
    EXPECT_EQ(s.origin, Origin::documented);
    ++seen;
  }
  EXPECT_EQ(seen, 7);
}

TEST(ExpectedSurvival, TakesTheMeanOfTwoHabitatsUnderTreesAndTheirRange) {
  const Survival s = expect(candidate("Dryobalanops beccarii"), true, 81);
  EXPECT_NEAR(s.share, (0.454 + 0.452) / 2, 1e-12);
  EXPECT_NEAR(s.low, 0.452, 1e-12);
  EXPECT_NEAR(s.high, 0.454, 1e-12);
}

TEST(ExpectedSurvival, OwnCountBeatsTheBook) {
  Candidate c = candidate("Dryobalanops beccarii");
  c.own_open =
      OwnSurvival{.alive_pct = 71, .age_months = 12, .origin = Origin::measured, .source = "count"};
  const Survival s = expect(c, false, 12);
  EXPECT_NEAR(s.share, 0.71, 1e-12);
  EXPECT_EQ(s.from, SurvivalFrom::own);
  EXPECT_EQ(s.origin, Origin::measured);
}

TEST(ExpectedSurvival, LateSpeciesDoWorseInTheOpenThanUnderTrees) {
  const Candidate c = candidate("Eusideroxylon zwageri");
  EXPECT_LT(expect(c, false, 36).share, expect(c, true, 36).share);
}

TEST(ExpectedSurvival, WhatDipterocarpsDidIsAnAssumptionForOtherFamilies) {
  EXPECT_EQ(expect(candidate("Eusideroxylon zwageri"), false, 36).origin, Origin::assumed);
  EXPECT_EQ(expect(candidate("Hopea sangal"), false, 36).origin, Origin::documented);
}

TEST(ExpectedSurvival, SaysWhenTheAgeLiesBeyondTheCounts) {
  const Candidate c = candidate("Macaranga gigantea");
  EXPECT_FALSE(expect(c, false, 60).beyond_published_age);
  EXPECT_TRUE(expect(c, false, 61).beyond_published_age);
}

TEST(ExpectedSurvival, TheShareLiesBetweenLowAndHigh) {
  for (const Species& species : library().all()) {
    Candidate c;
    c.species = species;
    for (const bool cover : {false, true}) {
      const Survival s = expect(c, cover, 36);
      EXPECT_LE(s.low, s.share) << species.scientific_name;
      EXPECT_GE(s.high, s.share) << species.scientific_name;
      EXPECT_GE(s.low, 0);
      EXPECT_LE(s.high, 1);
    }
  }
}

TEST(ExpectedSurvival, RefusesOwnFiguresThatCannotBe) {
  Candidate c = candidate("Macaranga gigantea");
  c.own_open = OwnSurvival{
      .alive_pct = 101, .age_months = {}, .origin = Origin::told, .source = "list.csv:3"};
  EXPECT_THROW(expect(c, false, 12), Error);
  c.own_open->alive_pct = std::numeric_limits<double>::quiet_NaN();
  EXPECT_THROW(expect(c, false, 12), Error);
  c.own_open->alive_pct = 50;
  c.own_open->age_months = 0;
  EXPECT_THROW(expect(c, false, 12), Error);
}

TEST(SurvivalWorkings, EveryNodeHoldsForEveryKindOfReference) {
  Workings workings;
  int n = 0;
  for (const char* name :
       {"Macaranga gigantea", "Hopea sangal", "Eusideroxylon zwageri", "Shorea seminis"}) {
    for (const bool cover : {false, true}) {
      Candidate c = candidate(name);
      add_survival(workings, "s/" + std::to_string(n++), name, expect(c, cover, 36), parameters());
      c.own_open = OwnSurvival{
          .alive_pct = 60, .age_months = {}, .origin = Origin::told, .source = "the nursery"};
      add_survival(workings, "s/" + std::to_string(n++), name, expect(c, cover, 36), parameters());
    }
  }
  EXPECT_GT(workings.nodes().size(), 30U);
  EXPECT_EQ(nodes_that_do_not_hold(workings, formulas()), std::vector<std::string>{});
}

}  // namespace
}  // namespace wildling::species
