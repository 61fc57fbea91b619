#include <algorithm>

#include <gtest/gtest.h>

#include "intake/species_table.hpp"

namespace wildling::intake {
namespace {

const species::Library& library() {
  static const species::Library shipped = species::Library::shipped();
  return shipped;
}

SpeciesFile read(const std::string& text) {
  return read_species_table_bytes(text, "species.csv", library());
}

const Finding* told(const SpeciesFile& file, const std::string& key) {
  const auto found = std::find_if(file.findings.begin(), file.findings.end(),
                                  [&key](const Finding& f) { return f.message.key == key; });
  return found == file.findings.end() ? nullptr : &*found;
}

TEST(SpeciesTwice, TwoNurseriesOfOneSpeciesAddUp) {
  const SpeciesFile file = read(
      "scientific_name,seedlings_ready,price_per_seedling,nursery\n"
      "Vitex pinnata,600,3,Hulu\nMacaranga gigantea,5,1,Hulu\nVitex pinnata,250,4,Hilir\n");
  ASSERT_EQ(file.candidates.size(), 2U);
  EXPECT_EQ(file.candidates[0].stock.seedlings_ready, 850);
  EXPECT_EQ(file.candidates[0].stock.price_per_seedling, 4);
  EXPECT_EQ(file.candidates[0].stock.nursery, "Hulu + Hilir");
  EXPECT_EQ(file.added, 1U);
  EXPECT_NE(told(file, "intake.nurseries_added"), nullptr);
}

TEST(SpeciesTwice, TheSameNurseryTwiceIsSetAsideAndNeverAdded) {
  const SpeciesFile file = read(
      "scientific_name,seedlings_ready,nursery\nVitex pinnata,600,Hulu\nVitex pinnata,250,Hilir\n"
      "Vitex pinnata,600,Hulu\nVitex pinnata,250,hilir\n");
  EXPECT_EQ(file.candidates.at(0).stock.seedlings_ready, 850);
  EXPECT_EQ(file.set_aside, 2U);
}

TEST(SpeciesTwice, WithoutANurseryTheSecondRowIsSetAside) {
  const SpeciesFile file =
      read("scientific_name,seedlings_ready\nVitex pinnata,600\nVitex pinnata,700\n");
  EXPECT_EQ(file.candidates.at(0).stock.seedlings_ready, 600);
  EXPECT_EQ(file.set_aside, 1U);
  EXPECT_NE(told(file, "intake.species_twice"), nullptr);
}

TEST(SpeciesDoubts, ASurvivalWrittenAsAShareIsNotUsed) {
  const SpeciesFile file =
      read("scientific_name;survival_open_pct;survival_shade_pct\nVitex pinnata;0,75;80 %\n");
  EXPECT_FALSE(file.candidates.at(0).own_open);
  EXPECT_EQ(file.candidates[0].own_cover->alive_pct, 80);
  const Finding* finding = told(file, "intake.survival_as_share");
  ASSERT_NE(finding, nullptr);
  EXPECT_EQ(finding->severity, Severity::set_aside);
}

TEST(SpeciesDoubts, AGroupMayBeSaidInIndonesian) {
  const SpeciesFile file =
      read("nama_ilmiah,kelompok\nArbor invenita,Pionir\nArbor ficta,klimaks\n");
  ASSERT_EQ(file.candidates.size(), 2U);
  EXPECT_EQ(file.candidates[0].species.group, species::Group::pioneer);
  EXPECT_EQ(file.candidates[1].species.group, species::Group::late);
}

TEST(SpeciesDoubts, ACurrencyBeforeAPriceIsNoPartOfIt) {
  const SpeciesFile file =
      read("nama_ilmiah;harga_bibit\nVitex pinnata;Rp 2.500\nMacaranga gigantea;Rp 1.250,50\n");
  EXPECT_EQ(file.candidates.at(0).stock.price_per_seedling, 2500);
  EXPECT_EQ(file.candidates.at(1).stock.price_per_seedling, 1250.5);
}

TEST(SpeciesDoubts, ADashSaysNothing) {
  const SpeciesFile file = read("nama_ilmiah,bibit_siap,pohon_induk\nVitex pinnata,-,?\n");
  EXPECT_FALSE(file.candidates.at(0).stock.seedlings_ready);
  EXPECT_FALSE(file.candidates[0].stock.mother_trees);
  EXPECT_TRUE(file.findings.empty());
}

}  // namespace
}  // namespace wildling::intake
