#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "stat/yield_chain.hpp"

namespace wildling::stat {
namespace {

std::vector<Stage> any_stages() {
  const int count = *rc::gen::inRange(1, 8);
  std::vector<Stage> stages;
  for (int i = 0; i < count; ++i) {
    stages.push_back({*rc::gen::inRange(30, 101) / 100.0, *rc::gen::inRange(0, 31) / 200.0});
  }
  return stages;
}

RC_GTEST_PROP(SmallestCount, GrowsWithTheNeedAndTheConfidence, ()) {
  const YieldDistribution yield = product_of_stages(any_stages());
  const long long need = *rc::gen::inRange(1, 3000);
  const long long more = need + *rc::gen::inRange(1, 500);
  const double low = *rc::gen::inRange(50, 90) / 100.0;
  const double high = low + 0.09;
  RC_ASSERT(smallest_count(need, yield, low) < smallest_count(more, yield, low));
  RC_ASSERT(smallest_count(need, yield, low) <= smallest_count(need, yield, high));
}

RC_GTEST_PROP(SmallestCount, IsEnoughAndOneLessIsNot, ()) {
  const YieldDistribution yield = product_of_stages(any_stages());
  const long long need = *rc::gen::inRange(1, 20000);
  const long long n = smallest_count(need, yield, 0.95);
  RC_ASSERT(n >= need);
  RC_ASSERT(chance_of_enough(need, n, yield) >= 0.95);
  RC_ASSERT(chance_of_enough(need, n - 1, yield) < 0.95);
}

RC_GTEST_PROP(ProductOfStages, HasMassOneAndStaysBelowOne, ()) {
  const YieldDistribution yield = product_of_stages(any_stages());
  double sum = 0;
  for (std::size_t i = 0; i < yield.cells(); ++i) {
    RC_ASSERT(yield.mass[i] >= 0 && yield.high[i] <= 1 && yield.low[i] >= 0);
    sum += yield.mass[i];
  }
  RC_ASSERT(std::abs(sum - 1) < 1e-9);
}

}  // namespace
}  // namespace wildling::stat
