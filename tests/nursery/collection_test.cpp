#include "nursery/collection.hpp"

#include <cmath>

#include <gtest/gtest.h>

#include "base/error.hpp"
#include "species/library.hpp"

namespace wildling::nursery {
namespace {

const Parameters& shipped() {
  static const Parameters parameters = Parameters::shipped();
  return parameters;
}

const species::Library& library() {
  static const species::Library shipped_library = species::Library::shipped();
  return shipped_library;
}

const Season kSeason = {make_date(2027, 11, 10), make_date(2026, 6, 1)};

Order order_of(std::string name, long long to_field) {
  Order order;
  order.species = std::move(name);
  order.to_field = to_field;
  return order;
}

species::Species made_up(species::Group group) {
  species::Species s;
  s.scientific_name = "Madeupia inventa";
  s.group = group;
  s.propagation = {"seed"};
  return s;
}

Collection only(const Order& order, const Season& season = kSeason, double confidence = 0.95) {
  return collections(std::vector{order}, season, confidence, shipped()).collections.at(0);
}

bool has_note(const Collection& c, std::string_view key) {
  for (const Message& note : c.notes) {
    if (note.key == key) return true;
  }
  return false;
}

TEST(Collections, IsEnoughAndOneSeedLessIsNot) {
  const Collection c = only(order_of("x", 1400));
  EXPECT_EQ(c.way, Way::seed);
  EXPECT_GE(c.chance, 0.95);
  EXPECT_LT(c.chance_of_one_less, 0.95);
}

TEST(Collections, NeedsFarMoreThanMeanLossesSay) {
  const Collection c = only(order_of("x", 1400));
  EXPECT_EQ(c.by_means, 4204);  // 1,400 / (.75 .70 .90 .85 .95 .90 .97) = 4,203.1
  EXPECT_NEAR(static_cast<double>(c.count), 6901, 3);  // two independent grids agree to 0.03 %
}

TEST(Collections, GivesEachOfKSpeciesTheKthRootOfTheConfidence) {
  std::vector<Order> orders;
  for (int i = 0; i < 12; ++i) orders.push_back(order_of("x" + std::to_string(i), 100));
  const CollectionPlan plan = collections(orders, kSeason, 0.95, shipped());
  EXPECT_NEAR(std::pow(plan.species_confidence, 12), 0.95, 1e-12);
  double all = 1;
  for (const Collection& c : plan.collections) all *= c.chance;
  EXPECT_GE(all, 0.95);
}

TEST(Collections, LeavesSpeciesWithoutNeedOutOfTheSplit) {
  const CollectionPlan plan =
      collections(std::vector{order_of("a", 10), order_of("b", 0)}, kSeason, 0.9, shipped());
  EXPECT_EQ(plan.species_counted, 1);
  EXPECT_EQ(plan.collections.size(), 1U);
  EXPECT_DOUBLE_EQ(plan.species_confidence, 0.9);
}

TEST(Collections, CountsReadySeedlingsFirst) {
  Order order = order_of("x", 1000);
  const long long without = only(order).count;
  order.ready = 400;
  const Collection c = only(order);
  EXPECT_LT(c.count, without);
  EXPECT_NEAR(c.ready_arriving_mean, 400 * .95 * .90 * .97, 1e-9);
}

TEST(Collections, AsksForNothingWhenReadySeedlingsSuffice) {
  Order order = order_of("x", 500);
  order.ready = 900;
  const Collection c = only(order);
  EXPECT_EQ(c.way, Way::none);
  EXPECT_EQ(c.count, 0);
  EXPECT_EQ(c.first_line.key, "nursery.answer.ready_suffice");
}

TEST(Collections, DoesNotCallANumberEnoughThatStillHasToPassTheGrading) {
  Order order = order_of("x", 500);
  order.ready = 510;
  EXPECT_EQ(only(order).way, Way::seed);
}

TEST(Collections, NeedsLessFromSeveralLotsAndSaysWhy) {
  Order order = order_of("x", 1000);
  const long long one = only(order).count;
  order.lots = 4;
  const Collection c = only(order);
  EXPECT_LT(c.count, one);
  EXPECT_GE(c.per_lot * 4, c.count);
  EXPECT_TRUE(has_note(c, "nursery.note.lots"));
}

TEST(Collections, TakesWildlingSeedlingsWhereAMastSpeciesHasNotFruited) {
  species::Species s = made_up(species::Group::late);
  s.propagation = {"seed", "wildling"};
  s.fruiting = species::Fruiting::mast;
  Order order = order_of("mast", 200);
  order.facts = &s;
  const Collection c = only(order);
  EXPECT_EQ(c.way, Way::wildlings);
  EXPECT_GE(c.carpet_at_least, 10 * c.count - 9);  // nine in ten stay
  order.fruit_seen = true;
  EXPECT_EQ(only(order).way, Way::seed);
}

TEST(Collections, PromisesNothingWhereNeitherSeedNorWildlingCanBeHad) {
  species::Species s = made_up(species::Group::late);
  s.fruiting = species::Fruiting::mast;
  Order order = order_of("mast", 200);
  order.facts = &s;
  Order stock = order_of("spare", 0);
  species::Species other = made_up(species::Group::late);
  stock.facts = &other;
  stock.ready = 600;
  const CollectionPlan plan = collections(std::vector{order, stock}, kSeason, 0.95, shipped());
  EXPECT_EQ(plan.collections[0].way, Way::cannot_tell);
  EXPECT_EQ(plan.collections[0].stand_in, "spare");
  EXPECT_EQ(plan.first_line.key, "nursery.plan.not_whole");
  EXPECT_TRUE(has_note(plan.collections[0], "nursery.note.safe_act"));
}

TEST(Collections, NamesTheSpareSpeciesOfTheSameGroupOnly) {
  species::Species late = made_up(species::Group::late);
  species::Species pioneer = made_up(species::Group::pioneer);
  late.fruiting = species::Fruiting::mast;
  Order order = order_of("mast", 200);
  order.facts = &late;
  Order stock = order_of("pioneer", 0);
  stock.facts = &pioneer;
  stock.ready = 600;
  const CollectionPlan plan = collections(std::vector{order, stock}, kSeason, 0.95, shipped());
  EXPECT_EQ(plan.collections[0].stand_in, "");
  EXPECT_TRUE(has_note(plan.collections[0], "nursery.note.no_stand_in"));
}

TEST(Collections, SaysTooLateForThisSeason) {
  const Season season = {make_date(2026, 12, 10), make_date(2026, 11, 25)};
  const Collection c = only(order_of("x", 100), season);
  EXPECT_EQ(c.way, Way::cannot_tell);
  EXPECT_TRUE(has_note(c, "nursery.note.too_late"));
}

TEST(Collections, AsksToWeighSeedWhoseWeightIsUnknown) {
  const Collection c = only(order_of("x", 100));
  EXPECT_FALSE(c.fruit_kg);
  EXPECT_TRUE(has_note(c, "nursery.note.weigh_100"));
}

TEST(Collections, TurnsSeedsIntoKilogramsForDipterocarpNuts) {
  const species::Species* s = library().find("Shorea leprosula");
  ASSERT_NE(s, nullptr);
  ASSERT_TRUE(s->seeds_per_kg);
  Order order = order_of("Shorea leprosula", 1800);
  order.facts = s;
  order.fruit_seen = true;
  const Collection c = only(order);
  ASSERT_TRUE(c.fruit_kg);
  EXPECT_NEAR(*c.fruit_kg, static_cast<double>(c.count) / *s->seeds_per_kg, 1e-9);
}

TEST(Collections, AsksForAtLeastTenMotherTrees) {
  Order order = order_of("x", 100);
  order.mother_trees = 3;
  const Collection c = only(order);
  EXPECT_EQ(c.trees_to_visit, 10);
  EXPECT_TRUE(has_note(c, "nursery.note.few_trees"));
  EXPECT_TRUE(c.short_likely);
}

TEST(Collections, NeedsMorePotsThanTreesAndFewerThanSeeds) {
  const CollectionPlan plan =
      collections(std::vector{order_of("x", 1000)}, kSeason, 0.95, shipped());
  EXPECT_GT(plan.space.pots, 1000);
  EXPECT_LT(plan.space.pots, plan.collections[0].count);
  EXPECT_NEAR(plan.space.bed_m2, 2 * static_cast<double>(plan.space.pots) / (10000 / 42.25), 1e-6);
}

TEST(Collections, RefusesAnOrderOfNegativeTrees) {
  EXPECT_THROW(collections(std::vector{order_of("x", -1)}, kSeason, 0.95, shipped()), Error);
  EXPECT_THROW(collections(std::vector{order_of("x", 10)}, kSeason, 1.0, shipped()), Error);
  EXPECT_THROW(collections(std::vector{order_of("x", 10)}, kSeason, std::nan(""), shipped()),
               Error);
}

}  // namespace
}  // namespace wildling::nursery
