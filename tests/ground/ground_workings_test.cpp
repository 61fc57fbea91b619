#include "ground/ground_workings.hpp"

#include <gtest/gtest.h>

#include "base/words.hpp"

namespace wildling::ground {
namespace {

Block counted() {
  Block block;
  block.code = "B1";
  block.vertex_error_m = 4;
  block.shape = {{Polygon{{{113, 0}, {113.001, 0}, {113.001, 0.001}, {113, 0.001}}, {}}}};
  block.gates.natural_trees_counted = {Answer::yes, "Pak Budi", {}, ""};
  block.gates.natural_trees_per_ha = 600;
  return block;
}

TEST(GroundWorkings, EveryNumberIsItsFormulaOfItsInputs) {
  const Workings workings = block_workings(counted(), Parameters::shipped());
  EXPECT_TRUE(nodes_that_do_not_hold(workings, formulas()).empty());
  ASSERT_NE(workings.find("ground/B1/missing_stems"), nullptr);
  EXPECT_NEAR(workings.find("ground/B1/missing_stems")->value, 2500 * 1.23089, 1);
}

TEST(GroundWorkings, ALargeAreaErrorIsTheOneOfTheWalk) {
  const Parameters parameters = Parameters::shipped();
  const Block block = counted();
  EXPECT_EQ(block_workings(block, parameters).find("ground/B1/area_sd")->value,
            area_sd_walked_m2(block.shape, 4, parameters.value("ground.vertex_error_over_m")));
}

TEST(GroundWorkings, TreesThatWereNotCountedDoNotAppear) {
  Block block = counted();
  block.gates.natural_trees_counted.answer = Answer::not_asked;
  EXPECT_EQ(block_workings(block, Parameters::shipped()).find("ground/B1/natural"), nullptr);
}

TEST(GroundWorkings, TheUsualPointErrorIsShownAsAssumed) {
  Block block = counted();
  block.vertex_error_m = Parameters::shipped().value("ground.vertex_error_m");
  const Workings workings = block_workings(block, Parameters::shipped());
  ASSERT_NE(workings.find("parameter/ground.vertex_error_m"), nullptr);
  EXPECT_EQ(workings.find("parameter/ground.vertex_error_m")->origin, Origin::assumed);
}

TEST(GroundWorkings, EveryLabelHasWords) {
  const Words words(Language::id);
  const Workings workings = block_workings(counted(), Parameters::shipped());
  for (const WorkingsNode& node : workings.nodes()) {
    EXPECT_TRUE(words.has(node.label.key)) << node.label.key;
  }
}

}  // namespace
}  // namespace wildling::ground
