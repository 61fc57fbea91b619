#include "ground/gates.hpp"

#include <gtest/gtest.h>

#include "base/words.hpp"
#include "ground/advice.hpp"

namespace wildling::ground {
namespace {

GateAnswer answered(Answer answer) {
  return GateAnswer{answer, "Ibu Sari", {}, ""};
}

Gates good(double natural_per_ha) {
  return Gates{answered(Answer::yes), answered(Answer::yes), answered(Answer::yes), natural_per_ha,
               answered(Answer::no)};
}

Method method_for(const Gates& gates, Cover cover) {
  return advise(gates, cover, Parameters::shipped()).method;
}

TEST(Gates, UnaskedIsClosedWithFourReasons) {
  const GateVerdict verdict = judge(Gates{});
  EXPECT_FALSE(verdict.open);
  EXPECT_EQ(verdict.reasons.size(), 4U);
}

TEST(Gates, GoodAnswersOpen) {
  EXPECT_TRUE(judge(good(0)).open);
}

TEST(Gates, DrainedPeatCloses) {
  Gates gates = good(100);
  gates.drained_peat = answered(Answer::yes);
  ASSERT_EQ(judge(gates).reasons.size(), 1U);
  EXPECT_EQ(judge(gates).reasons[0].key, "ground.gate.drained_peat_adverse");
}

TEST(Gates, CountedWithoutANumberCloses) {
  Gates gates = good(0);
  gates.natural_trees_per_ha.reset();
  EXPECT_EQ(judge(gates).reasons.at(0).key, "ground.gate.natural_trees_no_number");
}

TEST(Gates, ANegativeNumberOfTreesCloses) {
  EXPECT_FALSE(judge(good(-1)).open);
}

TEST(Advice, FewNaturalTreesMeansPlantTheMissing) {
  const Advice advice = advise(good(600), Cover::fern, Parameters::shipped());
  EXPECT_EQ(advice.method, Method::plant);
  EXPECT_EQ(advice.missing_per_ha, 2500);
}

TEST(Advice, EnoughTreesUnderGrassAreFreed) {
  EXPECT_EQ(method_for(good(3100), Cover::running_grass), Method::assist);
}

TEST(Advice, EnoughTreesUnderShrubsAreProtected) {
  EXPECT_EQ(method_for(good(3100), Cover::shrubs), Method::protect);
}

TEST(Advice, OneTreeShortOfEnoughIsPlanted) {
  EXPECT_EQ(method_for(good(3099), Cover::shrubs), Method::plant);
}

TEST(Advice, WhileAGateIsClosedItIsNotYet) {
  Gates gates = good(3100);
  gates.fire_and_cattle = {};
  const Advice advice = advise(gates, Cover::fern, Parameters::shipped());
  EXPECT_EQ(advice.method, Method::not_yet);
  EXPECT_EQ(advice.missing_per_ha, 0);
}

TEST(Advice, EverySentenceHasWordsInBothLanguages) {
  Gates adverse = good(10);
  adverse.consent = adverse.fire_and_cattle = answered(Answer::no);
  adverse.drained_peat = answered(Answer::yes);
  adverse.natural_trees_counted = answered(Answer::no);
  Gates no_number = good(1);
  no_number.natural_trees_per_ha.reset();
  for (const Language language : {Language::en, Language::id}) {
    const Words words(language);
    for (const Gates& gates : {Gates{}, adverse, no_number, good(10), good(1000), good(5000)}) {
      for (const Cover cover : {Cover::fern, Cover::shrubs}) {
        const Advice advice = advise(gates, cover, Parameters::shipped());
        EXPECT_TRUE(words.has("ground.method." + std::string(method_name(advice.method))));
        for (const Message& reason : advice.reasons)
          EXPECT_TRUE(words.has(reason.key)) << reason.key;
        for (const Message& next : advice.would_change)
          EXPECT_TRUE(words.has(next.key)) << next.key;
      }
    }
  }
}

TEST(Cover, EveryNameComesBack) {
  const Words words(Language::id);
  for (int i = 0; i <= static_cast<int>(Cover::under_trees); ++i) {
    const Cover cover = static_cast<Cover>(i);
    EXPECT_EQ(parse_cover(cover_name(cover)), cover);
    EXPECT_TRUE(words.has("ground.cover." + std::string(cover_name(cover))));
  }
}

}  // namespace
}  // namespace wildling::ground
