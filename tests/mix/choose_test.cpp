#include <limits>
#include <numeric>

#include <gtest/gtest.h>

#include "base/error.hpp"
#include "base/words.hpp"
#include "small_cases.hpp"
#include "species/library.hpp"

namespace wildling::mix {
namespace {

using species::Group;
const double kNaN = std::numeric_limits<double>::quiet_NaN();

bool names(const std::vector<Clash>& list, DemandKind kind) {
  return std::any_of(list.begin(), list.end(), [&](const Clash& c) { return c.kind == kind; });
}

const Clash& clash_of(const std::vector<Clash>& list, DemandKind kind) {
  return *std::find_if(list.begin(), list.end(), [&](const Clash& c) { return c.kind == kind; });
}

bool notes(const Choice& choice, const std::string& key) {
  return std::any_of(choice.notes.begin(), choice.notes.end(),
                     [&](const Message& m) { return m.key == key; });
}

TEST(Choose, KeepsEveryDemandWhenAMixExists) {
  const Question q = four_trees();
  const Choice choice = answer(q);
  ASSERT_EQ(choice.verdict, Verdict::found);
  EXPECT_TRUE(choice.proven);
  EXPECT_TRUE(choice.repeatable);
  EXPECT_TRUE(
      broken_demands(q.grounds, q.candidates, q.survival, q.demands, choice.planted).empty());
  EXPECT_GE(choice.grounds[0].expected_living, 60);
}

TEST(Choose, GivesTheSameCountsTwice) {
  EXPECT_EQ(answer(four_trees()).planted, answer(four_trees()).planted);
}

TEST(Choose, CountsNaturalTreesTowardsTheTarget) {
  Question q = four_trees();
  q.grounds[0].natural_stems_per_ha = 30;
  const Choice choice = answer(q);
  EXPECT_DOUBLE_EQ(choice.grounds[0].needed_living, 30);
  EXPECT_LT(choice.total, answer(four_trees()).total);
}

TEST(Choose, PlantsNothingWhereNatureReachesTheTarget) {
  Question q = four_trees();
  q.grounds[0].natural_stems_per_ha = 60;
  const Choice choice = answer(q);
  EXPECT_EQ(choice.verdict, Verdict::found);
  EXPECT_EQ(choice.total, 0);
  EXPECT_TRUE(notes(choice, "mix.nature_enough"));
}

TEST(Choose, AnUnknownStockDoesNotLimitAndIsSaid) {
  Question q = four_trees();
  for (auto& c : q.candidates) {
    c.stock.can_raise.reset();
    c.stock.seedlings_ready = 1;
  }
  const Choice choice = answer(q);
  EXPECT_EQ(choice.verdict, Verdict::found);
  EXPECT_TRUE(notes(choice, "mix.stock_unknown"));
}

TEST(Choose, WithoutPricesTheCostIsUnknownAndNotZero) {
  Question q = four_trees();
  for (auto& c : q.candidates) c.stock.price_per_seedling.reset();
  q.demands.budget = 1;
  const Choice choice = answer(q);
  EXPECT_EQ(choice.verdict, Verdict::found);
  EXPECT_FALSE(choice.cost);
  EXPECT_TRUE(notes(choice, "mix.no_price"));
  EXPECT_TRUE(notes(choice, "mix.budget_not_judged"));
}

TEST(Choose, AMissingPriceIsTheMeanOfTheKnown) {
  Question q = four_trees();
  q.candidates[1].stock.price_per_seedling.reset();
  const Choice choice = answer(q);
  EXPECT_DOUBLE_EQ(choice.price_used[1], (1.0 + 1.5 + 3.0) / 3);
}

TEST(Choose, OnlyReadySeedlingsLeaveOutWhatNobodyCounted) {
  Question q = four_trees();
  q.demands.only_ready = true;
  for (auto& c : q.candidates) c.stock.seedlings_ready = 80;
  q.candidates[3].stock.seedlings_ready.reset();
  const Choice choice = answer(q);
  ASSERT_EQ(choice.verdict, Verdict::found);
  EXPECT_EQ(choice.suitability[0][3], Suits::not_counted);
  EXPECT_EQ(choice.planted[0][3], 0);
}

TEST(Choose, SpreadsSpeciesOfEqualPriceAndSurvivalEvenly) {
  Question q = four_trees();
  q.survival = {survival({0.5, 0.5, 0.5, 0.5})};
  for (auto& c : q.candidates) c.stock.price_per_seedling = 2;
  const Choice choice = answer(q);
  EXPECT_EQ(choice.planted[0], (std::vector<int>{30, 30, 30, 30}));
}

TEST(Choose, RefusesNumbersThatCannotBe) {
  const auto refuses = [](auto change) {
    Question q = four_trees();
    change(q);
    EXPECT_THROW(answer(q), Error);
  };
  refuses([](Question& q) { q.grounds[0].area_ha = kNaN; });
  refuses([](Question& q) { q.grounds[0].area_ha = -1; });
  refuses([](Question& q) { q.grounds[0].target_stems_per_ha = kNaN; });
  refuses([](Question& q) { q.grounds[0].natural_stems_per_ha = -5; });
  refuses([](Question& q) { q.grounds[0].places = -1; });
  refuses([](Question& q) { q.candidates[0].stock.price_per_seedling = kNaN; });
  refuses([](Question& q) { q.candidates[0].stock.can_raise = -1; });
  refuses([](Question& q) { q.survival[0].of_candidate[0].share = kNaN; });
  refuses([](Question& q) { q.demands.species_cap_share = 0; });
  refuses([](Question& q) { q.demands.pioneer_share_min = 0.9; });
  refuses([](Question& q) { q.demands.budget = kNaN; });
  refuses([](Question& q) { q.demands.fewest_species = -1; });
  refuses([](Question& q) { q.candidates.clear(); });
  refuses([](Question& q) { q.grounds.clear(); });
  refuses([](Question& q) { q.survival.clear(); });
}

TEST(Choose, StopsWhenAskedTo) {
  std::stop_source source;
  source.request_stop();
  const Question q = four_trees();
  const Progress progress{.report = {}, .stop = source.get_token()};
  EXPECT_THROW(choose(q.grounds, q.candidates, q.survival, q.demands, progress), Cancelled);
}

TEST(Clashes, TooFewPlacesAreNamedWithTheNumberMissing) {
  Question q = four_trees();
  q.grounds[0].places = 70;
  q.demands.spread_price_share = 0;
  const Choice choice = answer(q);
  ASSERT_EQ(choice.verdict, Verdict::none_exists);
  EXPECT_EQ(choice.total, 0);
  ASSERT_TRUE(names(choice.alone, DemandKind::places));
  const Clash& clash = clash_of(choice.alone, DemandKind::places);
  Question q2 = q;
  q2.grounds[0].places = static_cast<long long>(clash.reachable);
  EXPECT_EQ(answer(q2).verdict, Verdict::found);
  q2.grounds[0].places = static_cast<long long>(clash.reachable) - 1;
  EXPECT_EQ(answer(q2).verdict, Verdict::none_exists);
}

TEST(Clashes, ABudgetTooSmallIsNamedWithTheSumMissing) {
  Question q = four_trees();
  q.demands.spread_price_share = 0;
  const double cost = *answer(q).cost;
  q.demands.budget = cost - 10;
  const Choice choice = answer(q);
  ASSERT_EQ(choice.verdict, Verdict::none_exists);
  ASSERT_TRUE(names(choice.alone, DemandKind::budget));
  EXPECT_NEAR(clash_of(choice.alone, DemandKind::budget).reachable, cost, 1e-6);
}

TEST(Clashes, NoStockIsNamedWithTheSpecies) {
  Question q = four_trees();
  for (auto& c : q.candidates) c.stock.can_raise = 0;
  const Choice choice = answer(q);
  ASSERT_EQ(choice.verdict, Verdict::none_exists);
  ASSERT_TRUE(names(choice.alone, DemandKind::stock));
  const Words en(Language::en);
  const std::string text = en.text(clash_of(choice.alone, DemandKind::stock).message);
  EXPECT_NE(text.find("A +"), std::string::npos) << text;
}

TEST(Clashes, MoreSpeciesThanTheListHasAreNamed) {
  Question q = four_trees();
  q.demands.fewest_species = 7;
  const Choice choice = answer(q);
  ASSERT_EQ(choice.verdict, Verdict::none_exists);
  ASSERT_TRUE(names(choice.clashes, DemandKind::species));
  EXPECT_EQ(clash_of(choice.clashes, DemandKind::species).reachable, 4);
}

TEST(Clashes, ACapBelowTheEvenShareIsNamedWithTheShareThatWorks) {
  Question q = four_trees();
  q.demands.species_cap_share = 0.2;
  const Choice choice = answer(q);
  ASSERT_EQ(choice.verdict, Verdict::none_exists);
  ASSERT_TRUE(names(choice.alone, DemandKind::cap));
  EXPECT_NEAR(clash_of(choice.alone, DemandKind::cap).reachable, 0.25,
              0.0015);  // resolution and rounding up
}

TEST(Clashes, NoPioneersOnTheListIsNamed) {
  Question q = four_trees();
  for (auto& c : q.candidates) c.species.group = Group::early;
  const Choice choice = answer(q);
  ASSERT_EQ(choice.verdict, Verdict::none_exists);
  ASSERT_TRUE(names(choice.alone, DemandKind::pioneers_min));
  EXPECT_EQ(clash_of(choice.alone, DemandKind::pioneers_min).reachable, 0);
}

TEST(Clashes, AGroundWithoutASuitableSpeciesIsNamed) {
  Question q = four_trees();
  q.grounds[0].flooded = true;
  const Choice choice = answer(q);
  ASSERT_EQ(choice.verdict, Verdict::none_exists);
  ASSERT_EQ(choice.clashes.size(), 1U);
  EXPECT_EQ(choice.clashes[0].kind, DemandKind::suitable_species);
  EXPECT_TRUE(notes(choice, "mix.flood_unknown"));
}

TEST(Clashes, EveryClashSpeaksBothLanguagesWithoutAHole) {
  Question q = four_trees();
  q.grounds[0].places = 20;
  q.demands.budget = 5;
  q.demands.fewest_species = 6;
  const Choice choice = answer(q);
  ASSERT_GE(choice.clashes.size(), 2U);
  for (const Language language : {Language::en, Language::id}) {
    const Words words(language);
    for (const Clash& c : choice.clashes) {
      const std::string text = words.text(c.message);
      EXPECT_EQ(text.find_first_of("{}["), std::string::npos) << text;
    }
  }
}

TEST(Suits, LateSpeciesWaitForMeasuredCoverUnlessTheProgrammeCountedThemInTheOpen) {
  species::Candidate c = tree("L", Group::late, 1.0);
  const species::Survival s = survival({0.5}).of_candidate[0];
  GroundNeed open = ground("slope", 10, 10);
  EXPECT_EQ(suits(open, c, s, {}), Suits::yes);
  c.own_open.reset();
  EXPECT_EQ(suits(open, c, s, {}), Suits::needs_cover);
  open.under_cover = true;
  EXPECT_EQ(suits(open, c, s, {}), Suits::yes);
}

TEST(Suits, PioneersStayOutOfTheShadeUnlessTheyStandIt) {
  species::Candidate c = tree("P", Group::pioneer, 1.0);
  const species::Survival s = survival({0.5}).of_candidate[0];
  GroundNeed shade = ground("old garden", 10, 10);
  shade.under_cover = true;
  EXPECT_EQ(suits(shade, c, s, {}), Suits::needs_light);
  c.species.shade_tolerance = species::Level::medium;
  EXPECT_EQ(suits(shade, c, s, {}), Suits::yes);
}

TEST(Suits, FloodedGroundTakesOnlyWhatIsKnownToStandIt) {
  GroundNeed bank = ground("bank", 10, 10);
  bank.flooded = true;
  species::Candidate c = tree("P", Group::pioneer, 1.0);
  const species::Survival s = survival({0.5}).of_candidate[0];
  EXPECT_EQ(suits(bank, c, s, {}), Suits::flood_unknown);
  c.species.habitat = {"swamp"};
  EXPECT_EQ(suits(bank, c, s, {}), Suits::yes);
  c.species.flood_tolerance = species::Level::low;
  EXPECT_EQ(suits(bank, c, s, {}), Suits::drowns);
}

TEST(Workings, EveryNumberOfAChoiceFollowsFromItsInputs) {
  Question q = four_trees();
  const Parameters parameters = Parameters::shipped();
  q.survival = survival_rows(q.grounds, q.candidates, 36, {}, parameters);
  q.demands.species_cap_share = 0.6;
  const Choice choice = answer(q);
  ASSERT_EQ(choice.verdict, Verdict::found);
  Workings workings;
  add_workings(workings, q.grounds, q.candidates, q.survival, q.demands, choice, parameters);
  Formulas all = formulas();
  all.insert(all.end(), species::formulas().begin(), species::formulas().end());
  EXPECT_EQ(nodes_that_do_not_hold(workings, all), std::vector<std::string>{});
  EXPECT_EQ(workings.find("mix/planted")->value, static_cast<double>(choice.total));
  EXPECT_EQ(workings.find("mix/slope/living")->value, choice.grounds[0].expected_living);
}

TEST(Demands, TheShippedDefaultsCanBeUsed) {
  Question q = four_trees();
  q.demands = demands(Parameters::shipped());
  q.demands = ease_to_list(q.demands, q.grounds, q.candidates, q.survival).demands;
  EXPECT_EQ(answer(q).verdict, Verdict::found);
}

// Nine species by local name only, no price, no number that could be raised.
TEST(PoorProgramme, NineLocalNamesWithoutStockOrPriceStillGiveAMix) {
  const species::Library library = species::Library::shipped();
  const Parameters parameters = Parameters::shipped();
  Question q;
  for (const char* name : {"mahang gajah", "jabon", "laban", "puspa", "terap", "meranti tembaga",
                           "bungur", "kayu tulang batu", "sungkai"}) {
    species::Candidate c;
    c.stock.name_as_written = name;
    if (const species::Species* known = library.find(name)) c.species = *known;
    q.candidates.push_back(c);
  }
  q.grounds = {ground("slope", 700, 1300)};
  q.survival = survival_rows(q.grounds, q.candidates, 36, library.survival(), parameters);
  const Eased eased = ease_to_list(demands(parameters), q.grounds, q.candidates, q.survival);
  q.demands = eased.demands;
  EXPECT_EQ(eased.said.size(), 2U);
  const Choice choice = answer(q);
  ASSERT_EQ(choice.verdict, Verdict::found) << choice.clashes.size();
  EXPECT_TRUE(notes(choice, "mix.stock_unknown"));
  EXPECT_TRUE(notes(choice, "mix.no_price"));
  EXPECT_TRUE(notes(choice, "mix.group_unknown"));
  EXPECT_TRUE(notes(choice, "mix.survival_of_group"));
}

}  // namespace
}  // namespace wildling::mix
