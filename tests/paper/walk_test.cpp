#include <gtest/gtest.h>

#include "base/error.hpp"
#include "paper/paper.hpp"
#include "paper/symbols.hpp"
#include "sample.hpp"

namespace wildling {
namespace {

using namespace paper_sample;

bool contains(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

plan::WalkSheet walk(std::size_t blocks) {
  plan::WalkSheet sheet;
  sheet.stamp = stamp();
  sheet.week = make_date(2026, 11, 30);
  for (std::size_t i = 1; i <= blocks; ++i) {
    plan::WalkSheetLine line;
    line.block_code = "B" + std::to_string(i);
    line.tree_m = 0.8;
    line.due = i % 2 == 0;
    sheet.lines.push_back(line);
  }
  sheet.blank_lines = 2;
  return sheet;
}

TEST(WalkSheet, HasFourPicturesAndALinePerBlockOnOnePage) {
  for (const Language language : {Language::en, Language::id}) {
    const Words words(language);
    const std::string pdf = paper::write_walk_sheet(walk(12), words);
    EXPECT_EQ(pdf_pages("walk.pdf", pdf), 1);
    const std::string text = pdf_text("walk.pdf", pdf);
    EXPECT_TRUE(contains(text, "B12"));
    for (int i = 1; i <= 4; ++i) {
      const std::string whole = words.text("paper.walk_picture." + std::to_string(i));
      const std::string caption = whole.substr(0, whole.find(' ', whole.find(' ') + 1));
      EXPECT_TRUE(contains(text, caption)) << caption;
    }
  }
}

TEST(WalkSheet, TheSameWalkGivesTheSameBytes) {
  const Words words(Language::en);
  EXPECT_EQ(paper::write_walk_sheet(walk(3), words), paper::write_walk_sheet(walk(3), words));
}

TEST(WalkSheet, WithoutABlockThereIsNothingToPrint) {
  EXPECT_THROW(paper::write_walk_sheet(walk(0), Words(Language::en)), Error);
}

TEST(CrewSheetRows, AnInterruptedRowNamesEachStretchWithItsMetres) {
  plan::CrewSheets sheets;
  sheets.stamp = stamp();
  sheets.blocks = {planting_block(Language::en, 5)};
  sheets.blocks[0].rows[3].parts = {{1, 9, 0.4}, {10, 14, 36.2}};
  const Words words(Language::en);
  const std::string text = pdf_text("parts.pdf", paper::write_crew_sheets(sheets, words));
  EXPECT_TRUE(contains(text, "1\u20139: 0.4"));
  EXPECT_TRUE(contains(text, "10\u201314: 36.2"));
  EXPECT_TRUE(contains(text, "Where a row is interrupted"));
}

TEST(CrewSheetRows, WithoutAGapNothingIsSaidOfOne) {
  plan::CrewSheets sheets;
  sheets.stamp = stamp();
  sheets.blocks = {planting_block(Language::en, 5)};
  const Words words(Language::en);
  EXPECT_FALSE(
      contains(pdf_text("whole.pdf", paper::write_crew_sheets(sheets, words)), "interrupted"));
}

TEST(SheetFiles, TomorrowComesWithATextForEachLeader) {
  const Words words(Language::en);
  const auto files = paper::write_sheet(
      std::vector<plan::TomorrowSheet>{tomorrow(Language::en), tomorrow(Language::en)}, words);
  ASSERT_EQ(files.size(), 3U);
  EXPECT_EQ(files[0].name, "tomorrow.pdf");
  EXPECT_EQ(files[1].name, "tomorrow_1.txt");
  EXPECT_EQ(files[2].name, "tomorrow_2.txt");
}

}  // namespace
}  // namespace wildling
