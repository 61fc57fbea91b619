#include "layout/code.hpp"

#include <gtest/gtest.h>

#include "base/error.hpp"
#include "help.hpp"

namespace wildling::layout {
namespace {

struct Stored : testing::Test {
  ground::XyShape block = rectangle(30, 20);
  Places p = places(block, {}, triangular_grid(2, 30, 1, 0));
  Assignment a = assign(p, std::vector<int>{20, 20}, Seed{1}, 0);
  std::string bytes = encode(p, a.species);
};

TEST_F(Stored, TakesOneBytePerPlaceAndAShortHead) {
  EXPECT_EQ(bytes.size(), 88 + p.size());
}

TEST_F(Stored, RefusesEveryCut) {
  for (std::size_t n = 0; n < bytes.size(); ++n)
    EXPECT_THROW((void)decode(bytes.substr(0, n)), Error) << n;
  EXPECT_THROW((void)decode(bytes + "x"), Error);
}

TEST_F(Stored, RefusesAnotherVersionAndAGridOutOfRange) {
  std::string other = bytes;
  other[4] = 2;
  EXPECT_THROW((void)decode(other), Error);
  other = bytes;
  other[15] = '\x7f';  // the spacing becomes enormous
  EXPECT_THROW((void)decode(other), Error);
}

TEST_F(Stored, NoticesThatTheBlockChanged) {
  const StoredLayout stored = decode(bytes);
  EXPECT_NO_THROW((void)recompute(stored, block, {}));
  EXPECT_THROW((void)recompute(stored, rectangle(31, 20), {}), Error);
  ground::XyShape moved = rectangle(30, 20, 0.4, 0);
  EXPECT_THROW((void)recompute(stored, moved, {}), Error);
}

}  // namespace
}  // namespace wildling::layout
