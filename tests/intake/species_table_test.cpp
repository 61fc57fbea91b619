#include "intake/species_table.hpp"

#include <gtest/gtest.h>

#include "base/words.hpp"

namespace wildling::intake {
namespace {

const std::string kSource = WILDLING_SOURCE;

const species::Library& library() {
  static const species::Library shipped = species::Library::shipped();
  return shipped;
}

SpeciesFile read(const std::string& text) {
  return read_species_table_bytes(text, "species.csv", library());
}

std::size_t told(const SpeciesFile& file, const std::string& key) {
  std::size_t n = 0;
  for (const Finding& finding : file.findings) n += finding.message.key == key ? 1U : 0U;
  return n;
}

std::string refusal(const std::string& text) {
  try {
    read(text);
  } catch (const Error& error) {
    return error.message().key;
  }
  return "read";
}

TEST(SpeciesDemo, EverySpeciesIsFoundInTheLibraryAndKeepsItsStock) {
  const SpeciesFile file = read_species_table(kSource + "/demo/invented_species.csv", library());
  EXPECT_EQ(file.set_aside, 0U);
  EXPECT_EQ(file.candidates.size(), file.rows_read);
  const species::Candidate& first = file.candidates.front();
  EXPECT_EQ(first.name(), "Macaranga gigantea");
  EXPECT_EQ(first.stock.seedlings_ready, 3200);
  EXPECT_EQ(first.stock.price_per_seedling, 2600);
  EXPECT_TRUE(first.species.group.has_value());
  ASSERT_TRUE(file.candidates[2].own_open.has_value());
  EXPECT_EQ(file.candidates[2].own_open->alive_pct, 71);
  EXPECT_EQ(file.candidates[2].own_open->source,
            "invented_species.csv:4, column survival_open_pct");
}

TEST(SpeciesDemo, ThePoorTableKeepsEightOfNineAndAsksAboutTheOther) {
  const SpeciesFile file =
      read_species_table(kSource + "/demo/poor/invented_species.csv", library());
  EXPECT_EQ(file.candidates.size(), 8U);
  EXPECT_EQ(file.set_aside, 1U);
  EXPECT_EQ(told(file, "intake.species_unknown"), 1U);
  EXPECT_FALSE(file.candidates[0].stock.mother_trees.has_value());
  EXPECT_FALSE(file.candidates[5].stock.seedlings_ready.has_value());
}

TEST(SpeciesNames, FiveSpellingsOfAHybridAreOneTaxonWithItsAuthorKeptApart) {  // trial C43
  const SpeciesFile file = read(
      "scientific_name,successional_group\n"
      "Citrus x limon (L.) Osbeck,early\nCitrus \xC3\x97 limon,early\nCitrus \xC3\x97limon,early\n"
      "Citrus x limon,early\nCitrus\xC2\xA0\xC3\x97\xC2\xA0limon,early\nXylopia frutescens,late\n");
  ASSERT_EQ(file.candidates.size(), 2U);
  EXPECT_EQ(file.candidates[0].species.scientific_name, "Citrus \xC3\x97 limon");
  EXPECT_EQ(file.candidates[0].species.authority, "(L.) Osbeck");
  EXPECT_EQ(file.candidates[1].species.scientific_name, "Xylopia frutescens");
  EXPECT_EQ(told(file, "intake.species_twice"), 4U);
}

TEST(SpeciesNames, AMisspeltNameIsSetAsideWithWhatIsNear) {
  const SpeciesFile file = read("scientific_name\nMacaranga gigantae\n");
  EXPECT_EQ(file.set_aside, 1U);
  ASSERT_EQ(told(file, "intake.species_unknown_near"), 1U);
  EXPECT_EQ(file.findings[0].where, "species.csv:2, column scientific_name");
  EXPECT_NE(std::get<std::string>(file.findings[0].message.arguments.at("near"))
                .find("Macaranga gigantea"),
            std::string::npos);
}

TEST(SpeciesNames, ALocalNameOfSeveralSpeciesIsSetAsideWithAllOfThem) {
  const SpeciesFile file = read("nama_lokal;bibit_siap\npulai;30\n");
  EXPECT_TRUE(file.candidates.empty());
  ASSERT_EQ(told(file, "intake.local_name_of_several"), 1U);
  const auto& names = std::get<std::string>(file.findings[0].message.arguments.at("species"));
  EXPECT_NE(names.find("Alstonia scholaris"), std::string::npos);
  EXPECT_NE(names.find("Alstonia angustiloba"), std::string::npos);
}

TEST(SpeciesNames, AnUnknownSpeciesWithItsGroupStaysWithTheRestUnknown) {
  const SpeciesFile file = read(
      "local_name,successional_group,wood_density_g_cm3\n"
      "kayu tulang batu,late,0.71\n");
  ASSERT_EQ(file.candidates.size(), 1U);
  const species::Candidate& own = file.candidates[0];
  EXPECT_EQ(own.name(), "kayu tulang batu");
  EXPECT_EQ(own.species.group, species::Group::late);
  EXPECT_EQ(own.species.wood_density_g_cm3, 0.71);
  EXPECT_EQ(own.species.basis("wood_density_g_cm3")->origin, Origin::told);
  EXPECT_FALSE(own.species.max_height_m.has_value());
  EXPECT_TRUE(own.stock.species.empty());
  EXPECT_EQ(own.unknowns.size(), 1U);
}

TEST(SpeciesNames, TwoNamesOfOneSpeciesAreTheSameSpecies) {
  const SpeciesFile file = read("scientific_name,local_name\nMacaranga gigantea,\n,mahang gajah\n");
  EXPECT_EQ(file.candidates.size(), 1U);
  EXPECT_EQ(told(file, "intake.species_twice"), 1U);
}

TEST(SpeciesCells, OwnCellsWinOverTheLibrary) {
  const SpeciesFile file = read(
      "scientific_name;successional_group;wood_density_g_cm3\n"
      "Macaranga gigantea;late;0,55\n");
  const species::Species& own = file.candidates.at(0).species;
  EXPECT_EQ(own.group, species::Group::late);
  EXPECT_EQ(own.wood_density_g_cm3, 0.55);
  EXPECT_EQ(own.basis("family")->origin,
            library().find("Macaranga gigantea")->basis("family")->origin);
}

TEST(SpeciesCells, WhatCannotBeIsSetAsideAndUnknownWhileTheRowStays) {
  const SpeciesFile file = read(
      "scientific_name,seedlings_ready,can_raise,price_per_seedling,survival_open_pct,use,"
      "successional_group,colour\nMacaranga gigantea,-5,2.5,free,140,perhaps,tall,red\n");
  ASSERT_EQ(file.candidates.size(), 1U);
  EXPECT_FALSE(file.candidates[0].stock.seedlings_ready.has_value());
  EXPECT_FALSE(file.candidates[0].stock.can_raise.has_value());
  EXPECT_FALSE(file.candidates[0].stock.price_per_seedling.has_value());
  EXPECT_FALSE(file.candidates[0].own_open.has_value());
  for (const char* key :
       {"intake.stock_negative", "intake.stock_not_whole", "intake.price_bad",
        "intake.survival_bad", "intake.use_bad", "species.bad_value", "intake.columns_left"}) {
    EXPECT_EQ(told(file, key), 1U) << key;
  }
}

TEST(SpeciesCells, AMarkBetweenThousandsOfTreesIsNoDecimal) {
  const SpeciesFile file =
      read("nama_lokal;bibit_siap;harga;pakai\nmahang gajah;1.400;2.600;tidak\n");
  EXPECT_EQ(file.candidates.at(0).stock.seedlings_ready, 1400);
  EXPECT_FALSE(file.candidates[0].use);
  EXPECT_EQ(told(file, "intake.price_unclear"), 1U);
}

TEST(SpeciesRefusals, AFileOfNoUseIsRefusedWithItsReason) {
  EXPECT_EQ(refusal(""), "intake.table_empty");
  EXPECT_EQ(refusal("%PDF"), "intake.no_table");
  EXPECT_EQ(refusal("scientific_name\n"), "intake.only_header");
  EXPECT_EQ(refusal("seedlings_ready,colour\n1,red\n"), "intake.no_name_column");
}

TEST(SpeciesWords, EveryFindingHasItsSentenceInBothLanguages) {
  const SpeciesFile file = read(
      "scientific_name,local_name,seedlings_ready,survival_open_pct,size\nMacaranga "
      "gigantea,jabon,-1,0.5,\n"
      "Macaranga gigantae,,,,\n,pulai,,,\n,,3,,\nMacaranga gigantea,,,,\n,zzzzzzzz,,,\n");
  EXPECT_EQ(file.set_aside, 5U);
  for (const Language language : {Language::en, Language::id}) {
    const Words words(language);
    for (const Finding& finding : file.findings) {
      const std::string sentence = words.text(finding);
      EXPECT_EQ(sentence.find_first_of("[{"), std::string::npos) << sentence;
    }
  }
}

}  // namespace
}  // namespace wildling::intake
