#include "mix/blanks.hpp"

#include <gtest/gtest.h>

#include "base/words.hpp"
#include "small_cases.hpp"

namespace wildling::mix {
namespace {

std::vector<Blank> blanks(const Question& q, std::size_t most = 3) {
  return blanks_that_matter(q.grounds, q.candidates, q.survival, q.demands, answer(q), most);
}

Question with_doubt() {
  Question q = four_trees();
  for (species::Survival& s : q.survival[0].of_candidate) {
    s.low = s.share - 0.1;
    s.high = s.share + 0.1;
  }
  q.survival[0].of_candidate[2].low = 0.1;
  return q;
}

TEST(Blanks, FewerSurvivorsNeverMakeTheOrderCheaper) {
  const Question q = with_doubt();
  for (const Blank& b : blanks(q)) {
    Question low = q;
    low.survival[0].of_candidate[b.candidate].share = b.low;
    ASSERT_TRUE(b.mix_at_low);
    EXPECT_EQ(answer(low).total, b.seedlings_low);
    EXPECT_GE(answer(low).objective, answer(q).objective - 1e-6);  // the solver's tolerance
  }
}

TEST(Blanks, TheWeightiestComesFirst) {
  const auto list = blanks(with_doubt());
  ASSERT_EQ(list.size(), 3U);
  EXPECT_GE(list[0].weight, list[1].weight);
  EXPECT_GE(list[1].weight, list[2].weight);
}

TEST(Blanks, AnOwnCountIsNoBlank) {
  Question q = with_doubt();
  for (species::Survival& s : q.survival[0].of_candidate) s.from = species::SurvivalFrom::own;
  EXPECT_TRUE(blanks(q).empty());
}

TEST(Blanks, NoMixGivesNoBlanks) {
  Question q = with_doubt();
  q.grounds[0].places = 10;
  EXPECT_TRUE(blanks(q).empty());
}

TEST(Blanks, ASpeciesKeptOffFloodedGroundForWantOfKnowledgeIsOne) {
  Question q = with_doubt();
  q.grounds[0].flooded = true;
  for (auto& c : q.candidates) c.species.flood_tolerance = species::Level::high;
  q.candidates.push_back(tree("E", species::Group::early, 0.5, 100));
  q.survival[0].of_candidate.push_back(q.survival[0].of_candidate[0]);
  const auto list = blanks(q, 9);
  const auto flood = std::find_if(list.begin(), list.end(),
                                  [](const Blank& b) { return b.kind == BlankKind::flood; });
  ASSERT_NE(flood, list.end());
  EXPECT_EQ(flood->candidate, 4U);
  EXPECT_TRUE(flood->other_species);
}

TEST(Blanks, SpeaksBothLanguagesWithoutAHole) {
  for (const Language language : {Language::en, Language::id}) {
    const Words words(language);
    for (const Blank& b : blanks(with_doubt())) {
      EXPECT_EQ(words.text(b.message).find_first_of("{}["), std::string::npos)
          << words.text(b.message);
    }
  }
}

}  // namespace
}  // namespace wildling::mix
