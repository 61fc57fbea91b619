#include "plan/chain.hpp"

#include <numeric>
#include <set>

#include <gtest/gtest.h>

#include "base/error.hpp"
#include "base/words.hpp"
#include "invented_programme.hpp"
#include "layout/code.hpp"
#include "plan/keep.hpp"
#include "plan/letter.hpp"
#include "plan/result_json.hpp"

namespace wildling::plan {
namespace {

PlanOptions options() {
  PlanOptions wanted;
  wanted.seed = Seed{7};
  wanted.today = make_date(2025, 2, 1);
  wanted.program_version = "test";
  return wanted;
}

class Chain : public testing::Test {
 protected:
  Rehearsal outside{Seed{1}};
  std::unique_ptr<store::Store> store = invented_programme(outside);

  void open_big() { take_answers(*store, "Big field", all_open(), kTester); }

  PlanResult planned() { return make_plan(load_programme(*store), options()); }
};

TEST_F(Chain, DividesASiteOfFourHectaresIntoBlocksOfAtMostTwo) {
  for (const ground::Block& block : load_programme(*store).blocks) {
    EXPECT_LE(ground::area_m2(block.shape), 20000 * (1 + 1e-9)) << block.code;
  }
}

TEST_F(Chain, EveryWorkingReEvaluatesToItsNumber) {
  open_big();
  const PlanResult plan = planned();
  const Formulas formulas = all_formulas();
  EXPECT_GT(plan.workings.nodes().size(), 100U);
  EXPECT_EQ(nodes_that_do_not_hold(plan.workings, formulas), std::vector<std::string>{});
}

void expect_numbers_of_letter_open(const PlanResult& plan, std::size_t at_least) {
  std::size_t opened = 0;
  for (const LetterPart& part : letter(plan)) {
    for (const Message& sentence : part.sentences) {
      for (const auto& [argument, key] : sentence.opens) {
        const WorkingsNode* node = plan.workings.find(key);
        ASSERT_NE(node, nullptr) << sentence.key << " " << key;
        const Argument& shown = sentence.arguments.at(argument);
        const double value = std::holds_alternative<double>(shown)
                                 ? std::get<double>(shown)
                                 : static_cast<double>(std::get<std::int64_t>(shown));
        const double scale = key == "nursery/order_confidence" ? 100 : 1;
        EXPECT_NEAR(value, scale * node->value, 0.51) << sentence.key << " " << key;
        ++opened;
      }
    }
  }
  EXPECT_GE(opened, at_least);
}

TEST_F(Chain, OpensTheNumbersOfItsLetterIntoTheSameNumbers) {
  open_big();
  expect_numbers_of_letter_open(planned(), 20);
}

/// Numbers of the letter that need not open, and why.
bool needs_no_workings(const Message& sentence, const std::string& argument) {
  static const std::set<std::pair<std::string, std::string>> list = {
      // how many things the tables list
      {"plan.letter.area", "sites"},   {"plan.letter.area", "blocks"},
      {"plan.letter.open", "open"},    {"plan.letter.mix", "species"},
      {"plan.letter.late", "species"}, {"plan.act.collect", "species"},
      {"plan.act.sow", "species"},     {"plan.act.work", "blocks"}};
  // Caveats of the weather log and demands that gave way name limits of their rule and counts of
  // the log; they stand in the margin, not in the plan.
  const bool margin = sentence.key.rfind("climate.", 0) == 0 ||
                      sentence.key.rfind("mix.", 0) == 0 || sentence.key == "plan.log_ended";
  return margin || list.contains({sentence.key, argument});
}

TEST_F(Chain, OpensEveryNumberOfItsLetterOrHasAReasonNotTo) {
  open_big();
  for (const LetterPart& part : letter(planned())) {
    for (const Message& sentence : part.sentences) {
      for (const auto& [argument, value] : sentence.arguments) {
        if (std::holds_alternative<std::string>(value) || std::holds_alternative<Date>(value))
          continue;
        EXPECT_TRUE(sentence.opens.contains(argument) || needs_no_workings(sentence, argument))
            << sentence.key << " " << argument;
      }
    }
  }
}

TEST_F(Chain, OpensTheNumbersOfALetterWithoutAnyOpenBlock) {
  expect_numbers_of_letter_open(planned(), 2);
}

TEST_F(Chain, GivesTheSameBitsTwice) {
  open_big();
  EXPECT_EQ(result_text(planned()), result_text(planned()));
}

TEST_F(Chain, ReadsBackTheSameBytesFromItsJson) {
  open_big();
  const std::string text = result_text(planned());
  EXPECT_EQ(result_text(result_from(text)), text);
}

TEST_F(Chain, OrdersNoSeedAndNoWorkForABlockOnHold) {
  open_big();
  const PlanResult plan = planned();
  std::int64_t open = 0;
  for (const BlockPart& part : plan.blocks) open += part.open ? part.planted : 0;
  std::int64_t ordered = 0;
  for (const CollectPart& part : plan.collections) ordered += part.to_field;
  EXPECT_EQ(ordered, open);
  for (const WorkPart& work : plan.works) EXPECT_NE(work.block, plan.blocks.back().block.code);
}

TEST_F(Chain, PlansADraftWhenEveryBlockIsOnHold) {
  const PlanResult plan = planned();
  EXPECT_EQ(answer(plan).key, "plan.answer.all_on_hold");
  EXPECT_TRUE(plan.collections.empty());
  EXPECT_TRUE(plan.works.empty());
  EXPECT_GT(totals(plan).draft, 0);
}

TEST_F(Chain, CountsOfABlockSumToItsPlantedPlaces) {
  open_big();
  for (const BlockPart& part : planned().blocks) {
    EXPECT_EQ(std::accumulate(part.counts.begin(), part.counts.end(), std::int64_t{0}),
              part.planted)
        << part.block.code;
    const layout::StoredLayout stored = layout::decode(part.layout_code);
    const auto standing = std::count_if(stored.species.begin(), stored.species.end(),
                                        [](std::uint8_t s) { return s != 255; });
    EXPECT_EQ(standing, part.planted) << part.block.code;
  }
}

TEST_F(Chain, NaturalTreesLowerTheOrder) {
  open_big();
  const std::int64_t few = totals(planned()).planted;
  GateUpdate more = all_open();
  more.natural_trees_per_ha = 400;
  take_answers(*store, "Big field", more, kTester);
  EXPECT_LT(totals(planned()).planted, few);
}

TEST_F(Chain, SaysWhichDemandFailsWhenTheTargetCannotFit) {
  open_big();
  take_parameter(*store, "plan.target_stems_per_ha", 9000, Origin::told, "test", kTester);
  try {
    planned();
    FAIL() << "a target of 9,000 living stems fits 2.7 m spacing";
  } catch (const Error& error) {
    EXPECT_EQ(error.kind(), ErrorKind::infeasible);
    EXPECT_EQ(Words(Language::en).text(error).find('['), std::string::npos);
  }
}

TEST_F(Chain, EverySentenceOfTheLetterHasWordsInBothLanguages) {
  open_big();
  for (const Language language : {Language::en, Language::id}) {
    const Words words(language);
    for (const LetterPart& part : letter(planned())) {
      for (const Message& sentence : part.sentences) {
        EXPECT_EQ(words.text(sentence).find("[" + sentence.key), std::string::npos) << sentence.key;
      }
    }
  }
}

TEST_F(Chain, RefusesToPlanWithoutSpecies) {
  Programme programme = load_programme(*store);
  programme.candidates.clear();
  EXPECT_THROW(make_plan(programme, options()), Error);
}

TEST_F(Chain, WithoutALogItNamesNoPlantingDaysAndASafeAct) {
  auto dry = invented_programme(outside, 0);
  take_answers(*dry, "", all_open(), kTester);
  const PlanResult plan = make_plan(load_programme(*dry), options());
  EXPECT_FALSE(plan.window.first);
  EXPECT_EQ(plan.window.first_line.key, "plan.window_no_log");
}

TEST_F(Chain, StopsWhenAskedAndLeavesNoPlan) {
  open_big();
  std::stop_source source;
  source.request_stop();
  Progress progress;
  progress.stop = source.get_token();
  EXPECT_THROW(keep_plan(*store, options(), kTester, progress), Cancelled);
  EXPECT_EQ(store->count("plans"), 0);
}

TEST_F(Chain, KeepsAPlanOnceAndLetsItStandWhenNothingChanged) {
  open_big();
  EXPECT_EQ(keep_plan(*store, options(), kTester).number, 1);
  const Kept again = keep_plan(*store, options(), kTester);
  EXPECT_TRUE(again.same_as_before);
  EXPECT_EQ(store->count("plans"), 1);
}

TEST_F(Chain, AnEditMakesThePlanStale) {
  open_big();
  keep_plan(*store, options(), kTester);
  EXPECT_FALSE(is_stale(*store, load_plan(*store)));
  GateUpdate more = all_open();
  more.natural_trees_per_ha = 60;
  take_answers(*store, "Big field", more, kTester);
  EXPECT_TRUE(is_stale(*store, load_plan(*store)));
}

TEST_F(Chain, StoredWorkingsReEvaluate) {
  open_big();
  keep_plan(*store, options(), kTester);
  const Formulas formulas = all_formulas();
  EXPECT_EQ(nodes_that_do_not_hold(load_workings(*store), formulas), std::vector<std::string>{});
}

TEST_F(Chain, WritesOnePointForEverySeedlingOfAnOpenBlock) {
  open_big();
  keep_plan(*store, options(), kTester);
  EXPECT_EQ(store->count("seedlings"), totals(load_plan(*store)).planted);
}

TEST_F(Chain, RefusesASecondLogOfTheSameStationUnlessItReplaces) {
  const TakenFile file = {"again", std::string(64, '1'), 10, 1, 1, 0, {}};
  EXPECT_THROW(take_weather(*store, invented_rain(100), false, file, kTester), Error);
  take_weather(*store, invented_rain(100), true, file, kTester);
  EXPECT_EQ(load_programme(*store).weather->daily.days(), 100U);
}

}  // namespace
}  // namespace wildling::plan
