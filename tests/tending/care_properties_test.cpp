#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "invented.hpp"

namespace wildling::tending {
namespace {

std::vector<BlockCare> any_blocks() {
  std::vector<BlockCare> blocks;
  const int count = *rc::gen::inRange(1, 5);
  for (int i = 0; i < count; ++i) {
    BlockCare block = invented_block("B" + std::to_string(i));
    block.area_ha = *rc::gen::inRange(1, 400) / 10.0;
    block.cover = static_cast<ground::Cover>(*rc::gen::inRange(0, 7));
    block.slope_deg = *rc::gen::inRange(0, 45);
    block.planted_by_group = {1.0 * *rc::gen::inRange(1, 5000), 1.0 * *rc::gen::inRange(0, 5000),
                              1.0 * *rc::gen::inRange(0, 5000)};
    block.firebreak_m = *rc::gen::inRange(0, 3000);
    blocks.push_back(block);
  }
  return blocks;
}

bool near(double a, double b) {
  return std::abs(a - b) <= 1e-9 * (1 + std::abs(a));
}

RC_GTEST_PROP(Care, SumsOverBlocksJobsAndMonthsAreTheTotal, ()) {
  std::array<double, 12> rain{};
  for (double& mm : rain) mm = *rc::gen::inRange(0, 400);
  const CarePlan plan = care(any_blocks(), 3, normals_of(rain), shipped());
  double works = 0;
  for (const Work& work : plan.works) works += work.days.used;
  RC_ASSERT(near(works, plan.total.days.used));
  for (const auto* sums : {&plan.by_block, &plan.by_job, &plan.by_month}) {
    double days = 0;
    double cost = 0;
    for (const auto& [key, sum] : *sums) {
      days += sum.days.used;
      cost += sum.cost();
    }
    RC_ASSERT(near(days, plan.total.days.used));
    RC_ASSERT(near(cost, plan.total.cost()));
  }
}

RC_GTEST_PROP(Care, RoundsComeInOrderAndAtLeastFourWeeksApart, ()) {
  std::array<double, 12> rain{};
  for (double& mm : rain) mm = *rc::gen::inRange(0, 400);
  const auto blocks = any_blocks();
  for (const BlockCare& block : blocks) {
    const BlockRounds result = rounds(block, 3, normals_of(rain), shipped());
    for (std::size_t i = 1; i < result.rounds.size(); ++i) {
      RC_ASSERT(result.rounds[i].due - result.rounds[i - 1].due >= std::chrono::days(28));
    }
  }
}

}  // namespace
}  // namespace wildling::tending
