#include "species/taxon_name.hpp"

#include <gtest/gtest.h>

namespace wildling::species {
namespace {

constexpr const char* kSpellings[] = {"Citrus × limon", "Citrus ×limon", "Citrus x limon",
                                      "Citrus\u00A0×\u00A0limon", "Citrus x limon (L.) Osbeck"};

TEST(TaxonName, ReadsEverySpellingOfAHybridAsOneTaxon) {
  for (const char* spelling : kSpellings) {
    SCOPED_TRACE(spelling);
    EXPECT_EQ(parse_taxon(spelling).canonical, "Citrus × limon");
    EXPECT_TRUE(parse_taxon(spelling).hybrid);
  }
}

TEST(TaxonName, KeepsTheAuthorityApart) {
  EXPECT_EQ(parse_taxon(kSpellings[4]).authority, "(L.) Osbeck");
  EXPECT_EQ(parse_taxon("Shorea leprosula Miq.").authority, "Miq.");
}

TEST(TaxonName, LeavesALetterXInsideAWordAlone) {
  EXPECT_EQ(parse_taxon("Xylopia frutescens").canonical, "Xylopia frutescens");
  EXPECT_FALSE(parse_taxon("Xylopia frutescens").hybrid);
  EXPECT_EQ(parse_taxon("Cox sp.").genus, "Cox");
  EXPECT_FALSE(parse_taxon("Cox sp.").hybrid);
}

TEST(TaxonName, GivesNoEpithetToAnUndeterminedSpecies) {
  EXPECT_EQ(parse_taxon("Shorea sp.").epithet, "");
  EXPECT_EQ(parse_taxon("Shorea spp").epithet, "");
}

TEST(TaxonName, ReadsAVariety) {
  const TaxonName name = parse_taxon("Alstonia scholaris var. velutina");
  EXPECT_EQ(name.epithet, "scholaris");
  EXPECT_EQ(name.infra, "var. velutina");
}

TEST(TaxonName, ReadsAHybridGenus) {
  EXPECT_TRUE(parse_taxon("× Cupressocyparis leylandii").hybrid);
  EXPECT_EQ(parse_taxon("x Cupressocyparis leylandii").genus, "Cupressocyparis");
}

TEST(TaxonName, SurvivesAnEmptyText) {
  EXPECT_EQ(parse_taxon(" \u00A0 ").canonical, "");
}

TEST(TaxonName, SurvivesALoneSign) {
  EXPECT_EQ(parse_taxon("×").epithet, "");
}

TEST(NameKey, FoldsCaseSpacesHyphensAndTheHybridSign) {
  EXPECT_EQ(name_key("Mahang-Gajah"), name_key("mahang\u00A0 gajah"));
  EXPECT_EQ(name_key("MÉNGGRIS"), name_key("Ménggris"));
  EXPECT_EQ(name_key("Citrus × limon"), name_key("citrus limon"));
}

TEST(NameKey, KeepsDifferentNamesApart) {
  EXPECT_NE(name_key("mahang"), name_key("mahang gajah"));
}

}  // namespace
}  // namespace wildling::species
