#include <cmath>
#include <set>

#include <gtest/gtest.h>

#include "base/embedded.hpp"
#include "base/error.hpp"
#include "paper/fit.hpp"
#include "paper/map_drawing.hpp"
#include "paper/paper.hpp"
#include "paper/symbols.hpp"
#include "sample.hpp"

namespace wildling {
namespace {

using namespace paper_sample;

const Words& english() {
  static const Words words(Language::en);
  return words;
}

TEST(MapPicture, IsAPngAndAnSvg) {
  const std::string png = paper::map_picture_png(map(Language::en), english());
  const std::string svg = paper::map_picture_svg(map(Language::en), english());
  kept("map.png", png);
  kept("map.svg", svg);
  EXPECT_EQ(png.substr(1, 3), "PNG");
  EXPECT_NE(svg.find("<svg"), std::string::npos);
}

TEST(MapPicture, RefusesWhenThereIsNothingToDraw) {
  EXPECT_THROW(paper::map_picture_png(plan::MapPicture{}, english()), Error);
}

TEST(MapDetail, FewSeedlingsAreDrawnOneByOne) {
  EXPECT_EQ(paper::map_detail(map(Language::en)), paper::MapDetail::seedlings);
}

TEST(MapDetail, ManySeedlingsAreDrawnAsRowsAndManyRowsAsFills) {
  plan::MapPicture picture = map(Language::en);
  picture.blocks[0].seedlings = 30000;
  EXPECT_EQ(paper::map_detail(picture), paper::MapDetail::rows);
  picture.blocks[0].rows.resize(plan::kMapRowLimit + 1);
  EXPECT_EQ(paper::map_detail(picture), paper::MapDetail::fills);
}

TEST(MapDetail, SeedlingsThatWereLeftOutAreNotDrawnAsPoints) {
  plan::MapPicture picture = map(Language::en);
  for (plan::MapBlock& block : picture.blocks) block.groups.clear();
  EXPECT_EQ(paper::map_detail(picture), paper::MapDetail::rows);
}

TEST(MapPicture, AThousandHectaresInFiveHundredBlocksAreDrawnAsFills) {
  plan::MapPicture picture = map(Language::en);
  picture.blocks.clear();
  for (int i = 0; i < 500; ++i) {
    plan::MapBlock block;
    block.code = "B" + std::to_string(i);
    block.shape = slope_shape();
    for (plan::SheetXy& at : block.shape[0].outer)
      at = {at.x_m + 190.0 * (i % 25), at.y_m + 130.0 * (i / 25)};
    block.area_ha = 2;
    block.seedlings = 2200;
    block.draft = i % 7 == 0;
    picture.blocks.push_back(block);
  }
  EXPECT_EQ(paper::map_detail(picture), paper::MapDetail::fills);
  kept("map_large.png", paper::map_picture_png(picture, english()));
  EXPECT_LT(paper::map_picture_svg(picture, english()).size(), 4U << 20U);
}

TEST(ScaleBar, IsTheLongestRoundLengthThatFits) {
  EXPECT_DOUBLE_EQ(paper::scale_bar_metres(1.0, 99), 50);
  EXPECT_DOUBLE_EQ(paper::scale_bar_metres(1.0, 100), 100);
  EXPECT_DOUBLE_EQ(paper::scale_bar_metres(0.01, 100), 10000);
  EXPECT_DOUBLE_EQ(paper::scale_bar_metres(10, 25), 2);
}

TEST(Fit, KeepsNorthUpAndTheSameScaleBothWays) {
  paper::Extent extent;
  extent.add(plan::SheetXy{100, 200});
  extent.add(plan::SheetXy{300, 250});
  const paper::Fit fit(extent, {10, 20, 400, 400});
  const paper::Point southwest = fit({100, 200}), northeast = fit({300, 250});
  EXPECT_DOUBLE_EQ(northeast.x - southwest.x, 400);
  EXPECT_DOUBLE_EQ(southwest.y - northeast.y, 100);
  EXPECT_DOUBLE_EQ(southwest.x, 10);
}

TEST(Fit, ASinglePointDoesNotDivideByZero) {
  paper::Extent extent;
  extent.add(plan::SheetXy{5, 5});
  const paper::Point at = paper::Fit(extent, {0, 0, 100, 100})({5, 5});
  EXPECT_TRUE(std::isfinite(at.x) && std::isfinite(at.y));
}

TEST(PiecesWithin, ALineThatComesInTwiceGivesTwoPieces) {
  const auto pieces =
      paper::pieces_within({{-5, 2}, {5, 2}, {15, 2}, {15, 8}, {5, 8}, {5, 9}}, {0, 0, 10, 10});
  ASSERT_EQ(pieces.size(), 2U);
  EXPECT_DOUBLE_EQ(pieces[0].front().x, 0);
  EXPECT_DOUBLE_EQ(pieces[0].back().x, 10);
  EXPECT_EQ(pieces[1].size(), 3U);
  EXPECT_DOUBLE_EQ(pieces[1].back().y, 9);
}

TEST(PiecesWithin, ALineOutsideOrWithoutNumbersGivesNone) {
  EXPECT_TRUE(paper::pieces_within({{-5, -5}, {-1, 20}}, {0, 0, 10, 10}).empty());
  EXPECT_TRUE(paper::pieces_within({{-5, std::nan("")}, {5, 5}}, {0, 0, 10, 10}).empty());
}

TEST(MapPicture, ARiverFromAThousandKilometresAwayIsDrawnOnlyWhereItIsSeen) {
  plan::MapPicture picture = map(Language::en);
  const std::size_t before = paper::map_picture_svg(picture, english()).size();
  picture.water_lines[0].front() = {-1e6, -20};
  EXPECT_LT(paper::map_picture_svg(picture, english()).size(), before + 200000);
}

TEST(Symbols, EveryShippedOneCanBeDrawn) {
  const std::vector<std::string> names = embedded_names("symbols/");
  EXPECT_GE(names.size(), 15U);
  for (const std::string& name : names)
    EXPECT_FALSE(paper::parse_symbol(*embedded_file(name), name).strokes.empty()) << name;
}

TEST(Symbols, ReadsLinesCurvesAndCircles) {
  const paper::Symbol symbol = paper::parse_symbol(
      R"(<svg viewBox="0 0 24 24"><path fill="none" stroke="white" stroke-width="2" d="M 1 2 3,4 C 1 2 3 4 5 6 Z"/>)"
      R"(<circle cx="1" cy="2" r="3"/></svg>)",
      "x");
  ASSERT_EQ(symbol.strokes.size(), 2U);
  EXPECT_EQ(symbol.strokes[0].stroke, paper::SymbolPaint::paper);
  EXPECT_DOUBLE_EQ(symbol.strokes[0].stroke_width, 2);
  ASSERT_EQ(symbol.strokes[0].steps.size(), 4U);
  EXPECT_EQ(symbol.strokes[0].steps[1].command, 'L');
  EXPECT_DOUBLE_EQ(symbol.strokes[0].steps[2].points[5], 6);
  EXPECT_DOUBLE_EQ(symbol.strokes[1].steps[0].points[2], 3);
}

TEST(Symbols, RefusesWhatItDoesNotKnow) {
  for (const char* svg :
       {R"(<svg><rect width="3"/></svg>)", R"(<svg><path d="M 1 2 A 3"/></svg>)",
        R"(<svg><path d="M 1"/></svg>)", R"(<svg><path fill="red" d="M 1 2"/></svg>)", "<svg"})
    EXPECT_THROW(paper::parse_symbol(svg, "x"), Error) << svg;
}

TEST(SpeciesCodes, AreUniqueAndWithoutLettersThatLookLikeFigures) {
  for (const std::size_t count : {0U, 1U, 23U, 24U, 40U, 207U, 208U, 500U}) {
    const std::vector<std::string> codes = plan::species_codes(count);
    EXPECT_EQ(std::set<std::string>(codes.begin(), codes.end()).size(), count);
    for (const std::string& code : codes) EXPECT_EQ(code.find_first_of("IOQ"), std::string::npos);
  }
  EXPECT_EQ(plan::species_codes(23)[22], "Z");
}

}  // namespace
}  // namespace wildling
