#include "tending/crew.hpp"

#include <cmath>

#include <gtest/gtest.h>

#include "base/error.hpp"
#include "invented.hpp"

namespace wildling::tending {
namespace {

// By hand, 3,100 trees: 2.6 t, 130 carries of 20 kg (3,100 x 0.84 / 20 = 130.2), 62 person-days of
// pits at 50 a day.
TEST(CrewFor, ReproducesTheHandbooksLoadOfOneHectare) {
  const CrewNeed need = crew_for(3100, make_date(2026, 11, 10), make_date(2026, 11, 23), 1,
                                 normals_of(kEverWet), shipped());
  EXPECT_NEAR(need.load_t, 2.6, 0.05);
  EXPECT_NEAR(need.carries, 130, 0.5);
  EXPECT_NEAR(need.pits.used, 62, 1e-9);
  EXPECT_NEAR(need.pits.low, 39, 0.5);
  EXPECT_NEAR(need.pits.high, 103, 0.5);
}

// By hand: 40,000 trees in 14 days of November: 14 x 6/7 x (1 - 0.3 x 17.33/30) = 9.92 days.
// Planting 400 x 16/15 = 426.7, carrying 1,680 carries / 10 = 168: 594.7 / 9.92 = 59.9, so 60
// people. Planters 400 / 9.92 = 40.3 need 2.7, so 3 distributors. Crates 1,667, trips 28.
TEST(CrewFor, NeedsThePeopleOfAHandCalculation) {
  const CrewNeed need = crew_for(40000, make_date(2026, 11, 10), make_date(2026, 11, 23), 1,
                                 normals_of(kEverWet), shipped());
  EXPECT_NEAR(need.work_days, 9.92, 0.005);
  EXPECT_EQ(need.people_planting, 60);
  EXPECT_EQ(need.distributors, 3);
  EXPECT_EQ(need.crates, 1667);
  EXPECT_EQ(need.trips, 28);
}

TEST(CrewFor, NeedsMorePeopleInARainierMonth) {
  auto rainy = normals_of(kEverWet);
  rainy[10].rain_days_mean = 28;
  const Date first = make_date(2026, 11, 10);
  EXPECT_GT(crew_for(40000, first, make_date(2026, 11, 23), 1, rainy, shipped()).people_planting,
            crew_for(40000, first, make_date(2026, 11, 23), 1, normals_of(kEverWet), shipped())
                .people_planting);
}

TEST(CrewFor, RefusesAnEmptyWindow) {
  EXPECT_THROW(crew_for(10, make_date(2026, 11, 10), make_date(2026, 11, 9), 1,
                        normals_of(kEverWet), shipped()),
               Error);
  EXPECT_THROW(
      crew_for(std::nan(""), make_date(2026, 11, 10), make_date(2026, 11, 12), 1, {}, shipped()),
      Error);
}

}  // namespace
}  // namespace wildling::tending
