#include "tending/tending_workings.hpp"

#include <gtest/gtest.h>

#include "base/words.hpp"
#include "invented.hpp"

namespace wildling::tending {
namespace {

std::vector<BlockCare> one_block_of_each_cover() {
  std::vector<BlockCare> blocks;
  for (int i = 0; i < 7; ++i) {
    BlockCare block = invented_block("B" + std::to_string(i));
    block.cover = static_cast<ground::Cover>(i);
    if (i == 2) block.slope_deg.reset();
    if (i == 3) block.own_growth_per_month = 0.4;
    if (i == 4) block.firebreak_m = 0;
    if (i == 5) block.planted_by_group = {90000, 0, 0};
    blocks.push_back(block);
  }
  return blocks;
}

TEST(TendingWorkings, ReEvaluateToTheirNumbers) {
  for (const auto* rain : {&kEverWet, &kSeasonal}) {
    const CarePlan plan = care(one_block_of_each_cover(), 3, normals_of(*rain), shipped());
    Workings workings;
    add_workings(workings, plan, shipped());
    EXPECT_GT(workings.nodes().size(), 400U);
    EXPECT_EQ(nodes_that_do_not_hold(workings, formulas()), std::vector<std::string>{});
  }
}

TEST(TendingWorkings, ReEvaluateWithoutRainFigures) {
  const CarePlan plan = care(one_block_of_each_cover(), 3, {}, shipped());
  Workings workings;
  add_workings(workings, plan, shipped());
  EXPECT_EQ(nodes_that_do_not_hold(workings, formulas()), std::vector<std::string>{});
}

TEST(TendingWords, ExistForEveryMessageOfAPlan) {
  const CarePlan plan = care(one_block_of_each_cover(), 3, normals_of(kSeasonal), shipped());
  Workings workings;
  add_workings(workings, plan, shipped());
  std::vector<Message> all = plan.notes;
  all.push_back(plan.first_line);
  for (const BlockRounds& block : plan.blocks)
    all.insert(all.end(), block.notes.begin(), block.notes.end());
  for (const Work& work : plan.works) all.push_back(work.why);
  for (const WorkingsNode& node : workings.nodes()) all.push_back(node.label);
  for (const Language language : {Language::en, Language::id}) {
    const Words words(language);
    for (const Message& message : all) {
      const std::string text = words.text(message);
      EXPECT_NE(text.front(), '[') << text;
      EXPECT_EQ(text.find('{'), std::string::npos) << text;
    }
    for (int i = 0; i < kJobs; ++i)
      EXPECT_TRUE(words.has("tending.job." + std::string(job_name(static_cast<Job>(i)))));
  }
}

}  // namespace
}  // namespace wildling::tending
