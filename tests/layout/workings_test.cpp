#include <gtest/gtest.h>

#include "base/parameters.hpp"
#include "base/words.hpp"
#include "help.hpp"
#include "layout/layout_workings.hpp"

namespace wildling::layout {
namespace {

Workings example(const Grid& grid) {
  const std::vector<std::vector<ground::Xy>> water = {{{0, 30}, {60, 30}}};
  const Places p = places(rectangle(60, 60), water, grid);
  return layout_workings("B3", p, assign(p, std::vector<int>{100, 50}, Seed{1}, 0));
}

TEST(LayoutWorkings, HoldWhenEvaluatedAgain) {
  EXPECT_TRUE(nodes_that_do_not_hold(example(square_grid(2, 0, 2, 5)), formulas()).empty());
  EXPECT_TRUE(nodes_that_do_not_hold(example(triangular_grid(2, 0, 2, 5)), formulas()).empty());
}

TEST(LayoutWorkings, DrawnPlacesAreNearThoseExpectedFromTheArea) {
  const Workings w = example(triangular_grid(1, 10, 2, 5));
  const double expected = w.find("layout/B3/expected")->value;
  EXPECT_NEAR(w.find("layout/B3/places")->value, expected, 0.02 * expected);
}

TEST(LayoutWorkings, EveryLabelAndParameterHasWordsInBothLanguages) {
  const Workings w = example(square_grid(2, 0, 2, 5));
  const Parameters parameters = Parameters::shipped();
  for (const Language language : {Language::en, Language::id}) {
    const Words words(language);
    for (const WorkingsNode& node : w.nodes())
      EXPECT_TRUE(words.has(node.label.key)) << node.label.key;
    for (const char* key : {"spacing", "setback_edge", "setback_water", "corner_tolerance"}) {
      EXPECT_NE(parameters.find("layout." + std::string(key)), nullptr) << key;
      EXPECT_TRUE(words.has("parameter.layout." + std::string(key))) << key;
    }
  }
}

TEST(LayoutWords, AreTheSameKeysAndArgumentsInBothLanguages) {
  const Words en(Language::en);
  const Words id(Language::id);
  int n = 0;
  for (const std::string& key : en.keys()) {
    if (key.rfind("layout.", 0) != 0) continue;
    ++n;
    EXPECT_TRUE(id.has(key)) << key;
    EXPECT_EQ(en.argument_names(key), id.argument_names(key)) << key;
  }
  EXPECT_GT(n, 30);
}

}  // namespace
}  // namespace wildling::layout
