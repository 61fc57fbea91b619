#include "export/rules.hpp"

#include <gtest/gtest.h>

#include "base/error.hpp"
#include "base/parameters.hpp"
#include "help.hpp"

namespace wildling::exports {
namespace {

TEST(Rules, EverythingSensitiveIsOffAtFirst) {
  const ExportRules rules;
  for (const Sensitive kind : {Sensitive::names, Sensitive::rights, Sensitive::mother_trees,
                               Sensitive::nests, Sensitive::incident_places}) {
    EXPECT_FALSE(rules.allows(kind)) << sensitive_name(kind);
  }
  EXPECT_NO_THROW(check_rules(rules));
}

TEST(Rules, SwitchingSomethingOnNeedsAReason) {
  ExportRules rules;
  rules.mother_trees = true;
  rules.reason = "  ";
  EXPECT_THROW(check_rules(rules), Error);
  rules.reason = "permit office asked for it";
  EXPECT_NO_THROW(check_rules(rules));
}

TEST(Rules, RefuseACellThatHidesNothing) {
  ExportRules rules;
  rules.coarsen_deg = 0;
  EXPECT_THROW(check_rules(rules), Error);
}

TEST(Coarsened, AllOfACellFallOnItsMiddleNoFartherThanStated) {
  for (double lon = 113.4001; lon < 113.5; lon += 0.013) {
    const ground::LonLat at = coarsened({.lon_deg = lon, .lat_deg = -0.8512}, 0.1);
    EXPECT_DOUBLE_EQ(at.lon_deg, 113.45);
    EXPECT_DOUBLE_EQ(at.lat_deg, -0.85);
    EXPECT_LE(ground::distance_m(at, {.lon_deg = lon, .lat_deg = -0.8512}),
              coarsening_error_m(0.1));
  }
}

TEST(Coarsened, TheShippedCellIsDocumented) {
  EXPECT_EQ(Parameters::shipped().at("export.coarsen").origin, Origin::documented);
  EXPECT_EQ(Parameters::shipped().value("export.coarsen"), ExportRules{}.coarsen_deg);
}

TEST(Gates, ABlockNobodyAskedAboutIsClosed) {
  GateBook gates;
  gates["B1"].open = true;
  EXPECT_TRUE(is_open(gates, "B1"));
  EXPECT_FALSE(is_open(gates, "B9"));
  const std::vector<std::string> both = {"B9", "B1"};
  EXPECT_EQ(open_blocks(both, gates), std::vector<std::string>{"B1"});
}

TEST(Gates, AListOfAClosedBlockIsRefusedWithItsReasons) {
  const Site site;
  const std::vector<std::string> both = {"B1", "B<2>"};
  for (const Use use : {Use::seed_list, Use::planting_list, Use::crew_list}) {
    try {
      require_open(use, both, gates_of(site.blocks), english());
      FAIL();
    } catch (const Error& error) {
      EXPECT_EQ(error.kind(), ErrorKind::infeasible);
      EXPECT_EQ(error.where(), "B<2>");
      EXPECT_NE(english().text(error).find("the gate questions were not asked"), std::string::npos);
    }
  }
  EXPECT_NO_THROW(require_open(Use::office, both, gates_of(site.blocks), english()));
  EXPECT_NO_THROW(require_open(Use::seed_list, std::vector<std::string>{"B1"},
                               gates_of(site.blocks), english()));
}

TEST(Gates, AListMustNameItsBlocks) {
  EXPECT_THROW(require_open(Use::seed_list, {}, {}, english()), Error);
}

TEST(ExportWords, AreTheSameKeysAndArgumentsInBothLanguages) {
  const Words id(Language::id);
  int n = 0;
  for (const std::string& key : english().keys()) {
    if (key.rfind("export.", 0) != 0 && key.rfind("parameter.export.", 0) != 0) continue;
    ++n;
    EXPECT_TRUE(id.has(key)) << key;
    EXPECT_EQ(english().argument_names(key), id.argument_names(key)) << key;
  }
  EXPECT_GT(n, 20);
}

}  // namespace
}  // namespace wildling::exports
