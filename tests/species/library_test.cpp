#include "species/library.hpp"

#include <set>

#include <gtest/gtest.h>

#include "base/error.hpp"
#include "base/words.hpp"

namespace wildling::species {
namespace {

const Library& shipped() {
  static const Library library = Library::shipped();
  return library;
}

TEST(Library, ShipsEightyNineSpecies) {
  EXPECT_EQ(shipped().all().size(), 89U);
}

TEST(Library, FindsASpeciesByItsNameInAnyCaseAndSpacing) {
  ASSERT_NE(shipped().find("  macaranga   GIGANTEA "), nullptr);
  EXPECT_EQ(shipped().find("macaranga gigantea"), shipped().find("Macaranga gigantea"));
}

TEST(Library, FindsASpeciesByAnOldName) {
  ASSERT_NE(shipped().find("Shorea macrophylla"), nullptr);
  EXPECT_EQ(shipped().find("Shorea macrophylla")->scientific_name, "Rubroshorea macrophylla");
}

TEST(Library, FindsASynonymThatCarriesARemark) {
  ASSERT_NE(shipped().find("Anthocephalus chinensis"), nullptr);
  EXPECT_EQ(shipped().find("Anthocephalus chinensis")->scientific_name, "Neolamarckia cadamba");
}

TEST(Library, FindsANameThatCarriesItsAuthority) {
  EXPECT_NE(shipped().find("Macaranga gigantea (Rchb.f. & Zoll.) Muell.Arg."), nullptr);
}

TEST(Library, FindsASpeciesByItsLocalName) {
  ASSERT_NE(shipped().find("Mahang-gajah"), nullptr);
  EXPECT_EQ(shipped().find("Mahang-gajah")->scientific_name, "Macaranga gigantea");
}

TEST(Library, GivesAllSpeciesOfAnAmbiguousLocalName) {
  EXPECT_EQ(shipped().find("pulai"), nullptr);
  EXPECT_EQ(shipped().find_all("Pulai").size(), 2U);
}

TEST(Library, DoesNotTakeTheBeginningOfALocalNameForTheWhole) {
  EXPECT_TRUE(shipped().find_all("mahang gajah hutan").empty());
}

TEST(Library, FindsNothingForAnUnknownOrEmptyName) {
  EXPECT_TRUE(shipped().find_all("Arbor fictus").empty());
  EXPECT_TRUE(shipped().find_all("").empty());
  EXPECT_TRUE(shipped().find_all("Shorea sp.").empty());
}

TEST(Library, OffersNamesThatDifferByALetter) {
  const auto names = shipped().similar_names("Macaranga giganta");
  EXPECT_NE(std::find(names.begin(), names.end(), "Macaranga gigantea"), names.end());
}

TEST(Library, EveryFilledCellOfAShippedSpeciesHasItsSource) {
  for (const Species& species : shipped().all()) {
    for (const auto& [column, basis] : species.bases) {
      EXPECT_FALSE(basis.source.empty()) << species.scientific_name << " " << column;
    }
  }
}

TEST(Library, ShowsWhatIsFromMemoryAsAssumed) {
  const Species* species = shipped().find("Macaranga gigantea");
  EXPECT_EQ(species->basis("local_name_ms_id")->origin, Origin::assumed);
  EXPECT_EQ(species->basis("wood_density_g_cm3")->origin, Origin::documented);
  EXPECT_EQ(species->basis("group_tags")->origin, Origin::computed);
}

TEST(Library, NoNumberOfTheShippedTableIsFromMemory) {
  for (const Species& species : shipped().all()) {
    for (const char* column : {"wood_density_g_cm3", "max_height_m", "seeds_per_kg",
                               "germination_percent_high", "nursery_months_to_plantable_min"}) {
      const Basis* basis = species.basis(column);
      EXPECT_FALSE(basis != nullptr && basis->origin == Origin::assumed) << species.scientific_name;
    }
  }
}

TEST(Library, AnEmptyCellIsUnknownAndNotZero) {
  const Species* species = shipped().find("Macaranga pearsonii");
  EXPECT_FALSE(species->wood_density_g_cm3);
  EXPECT_EQ(species->basis("wood_density_g_cm3"), nullptr);
}

TEST(Library, EverySpeciesHasASuccessionalGroup) {
  for (const Species& species : shipped().all())
    EXPECT_TRUE(species.group) << species.scientific_name;
}

TEST(Library, NamesFileAndLineOfABadCell) {
  try {
    Library::from_csv("scientific_name,seeds_per_kg\nShorea fictiva,many\n", "", "");
    FAIL();
  } catch (const Error& error) {
    EXPECT_EQ(error.where(), "sundaland_trees.csv:2");
    EXPECT_EQ(error.message().key, "species.bad_value");
  }
}

TEST(Library, RefusesANameUsedTwice) {
  EXPECT_THROW(Library::from_csv("scientific_name,synonyms\nA b,\nC d,A b\n", "", ""), Error);
}

TEST(Library, RefusesATableWithoutNames) {
  EXPECT_THROW(Library::from_csv("family\nDipterocarpaceae\n", "", ""), Error);
}

TEST(Library, IsEmptyForAnEmptyTable) {
  EXPECT_TRUE(Library::from_csv("scientific_name\n", "", "").all().empty());
}

TEST(SetField, ReadsTheFormsOfFruiting) {
  Species species;
  EXPECT_FALSE(set_field(species, "fruiting_months", "12;1;1", {}));
  EXPECT_EQ(species.fruiting_months, (std::vector<int>{1, 12}));
  EXPECT_FALSE(set_field(species, "fruiting_months", "all year", {}));
  EXPECT_EQ(species.fruiting_months.size(), 12U);
  EXPECT_FALSE(set_field(species, "fruiting_months", "mast", {}));
  EXPECT_TRUE(species.fruiting_months.empty());
}

TEST(SetField, RefusesWhatItCannotReadAndChangesNothing) {
  Species species;
  EXPECT_TRUE(set_field(species, "fruiting_months", "13", {}));
  EXPECT_TRUE(set_field(species, "germination_percent_low", "120", {}));
  EXPECT_TRUE(set_field(species, "germination_percent_low", "nan", {}));
  EXPECT_TRUE(set_field(species, "flood_tolerance", "good", {}));
  EXPECT_TRUE(set_field(species, "colour", "red", {}));
  EXPECT_TRUE(species.bases.empty());
}

TEST(SetField, TakesLocalNamesUnderTheirIndonesianHeader) {
  Species species;
  EXPECT_FALSE(set_field(species, "nama_lokal", "laran;jabon", {}));
  EXPECT_EQ(species.local_names.size(), 2U);
}

TEST(FillBlanks, KeepsOwnValuesAndTakesTheRestWithItsSource) {
  Species own;
  set_field(
      own, "seeds_per_kg", "77",
      {.origin = Origin::measured, .text = {}, .source = "own lot", .as_stated = {}, .tier = {}});
  fill_blanks(own, *shipped().find("Neolamarckia cadamba"));
  EXPECT_EQ(own.seeds_per_kg, 77);
  EXPECT_EQ(own.basis("seeds_per_kg")->origin, Origin::measured);
  EXPECT_EQ(own.family, "Rubiaceae");
  EXPECT_EQ(own.basis("family")->origin, Origin::documented);
}

TEST(StandsFlood, LeavesABlankUnknownRatherThanNo) {
  Species species;
  EXPECT_EQ(stands_flood(species), Answer::unknown);
  species.habitat = {"riparian"};
  EXPECT_EQ(stands_flood(species), Answer::yes);
  species.flood_tolerance = Level::low;
  EXPECT_EQ(stands_flood(species), Answer::no);
}

TEST(Words, TheSpeciesRoomSpeaksBothLanguages) {
  const Words en(Language::en);
  EXPECT_EQ(en.text(say("species.survival_outside", {{"value", 140.0}})).find("["),
            std::string::npos);
}

}  // namespace
}  // namespace wildling::species
