#include "nursery/nursery_workings.hpp"

#include <gtest/gtest.h>

#include "base/words.hpp"
#include "species/library.hpp"

namespace wildling::nursery {
namespace {

CollectionPlan invented_plan(const Parameters& parameters, const species::Library& library) {
  std::vector<Order> orders;
  int i = 0;
  for (const species::Species& s : library.all()) {
    if (i >= 14) break;
    Order order;
    order.species = s.name();
    order.facts = &s;
    order.to_field = 100 + 37 * i;
    order.ready = i % 3 == 0 ? 0 : 60 * i;
    order.lots = 1 + i % 3;
    orders.push_back(order);
    ++i;
  }
  return collections(orders, {make_date(2027, 11, 10), make_date(2026, 8, 1)}, 0.95, parameters);
}

TEST(NurseryWorkings, ReEvaluateToTheirNumbers) {
  const Parameters parameters = Parameters::shipped();
  const species::Library library = species::Library::shipped();
  Workings workings;
  add_workings(workings, invented_plan(parameters, library), parameters);
  EXPECT_GT(workings.nodes().size(), 200U);
  EXPECT_EQ(nodes_that_do_not_hold(workings, formulas()), std::vector<std::string>{});
}

TEST(NurseryWorkings, SayWhereEveryLeafComesFrom) {
  const Parameters parameters = Parameters::shipped();
  const species::Library library = species::Library::shipped();
  Workings workings;
  add_workings(workings, invented_plan(parameters, library), parameters);
  for (const WorkingsNode& node : workings.nodes()) {
    const bool known = node.origin != Origin::documented || !node.source.empty();
    const bool reasoned =
        node.origin != Origin::assumed || !node.note.empty() || !node.source.empty();
    EXPECT_TRUE(known && reasoned) << node.key;
  }
}

TEST(NurseryWords, ExistForEveryMessageOfAPlan) {
  const Parameters parameters = Parameters::shipped();
  const species::Library library = species::Library::shipped();
  const CollectionPlan plan = invented_plan(parameters, library);
  Workings workings;
  add_workings(workings, plan, parameters);
  for (const Language language : {Language::en, Language::id}) {
    const Words words(language);
    std::vector<Message> all = plan.notes;
    all.push_back(plan.first_line);
    for (const Collection& c : plan.collections) {
      all.push_back(c.first_line);
      all.insert(all.end(), c.notes.begin(), c.notes.end());
    }
    for (const WorkingsNode& node : workings.nodes()) all.push_back(node.label);
    for (const Message& message : all) {
      const std::string text = words.text(message);
      EXPECT_NE(text.front(), '[') << text;
      EXPECT_EQ(text.find('{'), std::string::npos) << text;
    }
  }
}

}  // namespace
}  // namespace wildling::nursery
