#include "tending/field_workings.hpp"

#include <gtest/gtest.h>

#include "base/words.hpp"
#include "invented.hpp"
#include "tending/tending_workings.hpp"

namespace wildling::tending {
namespace {

Workings invented_field_year() {
  Workings workings;
  const auto normals = normals_of(kSeasonal);
  const std::vector blocks = {invented_block("B1"), invented_block("B2"), invented_block("B3")};
  std::vector<WalkLine> walks(2);
  walks[0] = {"B1", make_date(2027, 2, 27), ground::Cover::running_grass, 0.6, 0.5, 0.2, {}, false,
              {}};
  walks[1] = {"B2", make_date(2027, 2, 27), ground::Cover::climbers, 2.4, {}, {}, 0.1, true, {}};
  add_workings(workings,
               due_list(blocks, std::vector{0.8, 0.7, 0.9}, walks, make_date(2027, 3, 1), normals,
                        shipped()),
               shipped());
  std::vector<DiaryLine> diary(40);
  for (std::size_t i = 0; i < diary.size(); ++i) {
    diary[i].who = "Ani";
    diary[i].day = make_date(2026, 1, 1) + std::chrono::days(static_cast<int>(4 * i));
    diary[i].job = i < 4 ? Job::pressing : Job::dig_pits;
    diary[i].hours = 7;
    diary[i].quantity = 31;
  }
  add_workings(workings, own_rates(diary, shipped()), shipped());
  add_workings(
      workings, "2026-11",
      crew_for(40000, make_date(2026, 11, 10), make_date(2026, 11, 23), 1.2, normals, shipped()),
      shipped());
  const PlaceRows rows = {{PlaceState::dead, PlaceState::dead, PlaceState::alive},
                          {PlaceState::dead, PlaceState::alive}};
  add_workings(workings, "B1", refill_advice(rows, 0, shipped()));
  const CarePlan plan = care(blocks, 5, normals, shipped());
  add_workings(workings, "plain", cash_table(3e8, cash_of(plan)));
  for (const double years : {3.0, 5.0}) {
    add_workings(workings, cost_per_tree(plan, years, std::vector{0.6, 0.5, 0.4}, 1e8));
  }
  return workings;
}

TEST(FieldWorkings, ReEvaluateToTheirNumbers) {
  const Workings workings = invented_field_year();
  EXPECT_GT(workings.nodes().size(), 100U);
  EXPECT_EQ(nodes_that_do_not_hold(workings, formulas()), std::vector<std::string>{});
}

TEST(FieldWorkings, HaveALabelInBothLanguages) {
  const Workings workings = invented_field_year();
  for (const Language language : {Language::en, Language::id}) {
    const Words words(language);
    for (const WorkingsNode& node : workings.nodes()) {
      const std::string text = words.text(node.label);
      EXPECT_NE(text.front(), '[') << text;
      EXPECT_EQ(text.find('{'), std::string::npos) << text;
    }
  }
}

}  // namespace
}  // namespace wildling::tending
