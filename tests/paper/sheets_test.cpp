#include <regex>
#include <set>
#include <sstream>

#include <gtest/gtest.h>

#include "base/embedded.hpp"
#include "base/error.hpp"
#include "paper/paper.hpp"
#include "sample.hpp"

namespace wildling {
namespace {

using namespace paper_sample;

const Words& english() {
  static const Words words(Language::en);
  return words;
}

const Words& indonesian() {
  static const Words words(Language::id);
  return words;
}

bool contains(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

int times(const std::string& text, const std::string& part) {
  int count = 0;
  for (std::size_t at = text.find(part); at != std::string::npos;
       at = text.find(part, at + part.size()))
    ++count;
  return count;
}

std::set<std::string> words_of(const std::string& text) {
  std::set<std::string> words;
  std::string word;
  for (const char c : text + " ") {
    if ((c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z')) {
      word += static_cast<char>(c | 32);
    } else {
      if (word.size() >= 4) words.insert(word);
      word.clear();
    }
  }
  return words;
}

// The words a person reads: patterns without what stands in braces as argument name or type.
std::set<std::string> catalogue_words(const Words& words) {
  std::set<std::string> all;
  const std::regex argument(
      R"(\{\w+(, (number|date)[^}]*)?\}|\w+, (plural|select),|\b(one|other|yes) \{)");
  for (const std::string& key : words.keys())
    if (key.starts_with("paper."))
      all.merge(words_of(std::regex_replace(words.pattern(key), argument, " ")));
  return all;
}

std::vector<std::string> english_words_in(const std::string& text) {
  const std::set<std::string> en = catalogue_words(english()), id = catalogue_words(indonesian());
  std::vector<std::string> found;
  for (const std::string& word : words_of(text))
    if (en.count(word) > 0 && id.count(word) == 0) found.push_back(word);
  return found;
}

TEST(CrewSheet, ShowsBlockAreaWindowAndPlan) {
  const std::string text =
      pdf_text("crew.en.pdf", paper::write_crew_sheets(crew(Language::en), english()));
  for (const char* part : {"Plant block B3", "1.84 ha", "1.71 and 1.97", "1 December 2026",
                           "20 January 2027", "9 of 11 years", "Plan 7, printed 25 November 2026"})
    EXPECT_TRUE(contains(text, part)) << part;
}

TEST(CrewSheet, ShowsPegsBearingAndTape) {
  const std::string text =
      pdf_text("crew.en.pdf", paper::write_crew_sheets(crew(Language::en), english()));
  for (const char* part :
       {"1.23456° S, 113.45678° E", "1.23456° S, 113.45843° E", "184.0 m by tape", "89.4°"})
    EXPECT_TRUE(contains(text, part)) << part;
}

TEST(CrewSheet, PutsTheCautionsBeforeTheSteps) {
  const std::string text =
      pdf_text("crew.en.pdf", paper::write_crew_sheets(crew(Language::en), english()));
  ASSERT_TRUE(contains(text, "How to do it"));
  EXPECT_LT(text.find("Cautions before you start"), text.find("How to do it"));
  EXPECT_LT(text.find("Heat."), text.find("How to do it"));
}

TEST(CrewSheet, PrintsEveryRowWithItsOrder) {
  plan::CrewSheets sheets{stamp(), {planting_block(Language::en)}};
  const std::string text = pdf_text("crew_one.en.pdf", paper::write_crew_sheets(sheets, english()));
  const std::vector<plan::SheetRow>& rows = sheets.blocks[0].rows;
  ASSERT_GT(rows.size(), 50U);
  for (const plan::SheetRow& row : rows) {
    const std::regex line(
        "\\n\\s*" + std::to_string(row.number) + "\\s+" + english().number(row.tape_m, 1) + "\\s+" +
        english().number(row.first_plant_m, 1) + "\\s+" + std::to_string(row.count) + "\\s");
    EXPECT_TRUE(std::regex_search(text, line)) << row.number;
  }
}

TEST(CrewSheet, CodesOfARowSpellItsSpeciesInOrder) {
  plan::CrewSheets sheets{stamp(), {planting_block(Language::en, 3)}};
  plan::CrewSheet& block = sheets.blocks[0];
  block.rows.resize(1);
  block.rows[0].species_order = {0, 1, 2, 0, 1, 255, 2};
  const std::string text = pdf_text("order.en.pdf", paper::write_crew_sheets(sheets, english()));
  EXPECT_TRUE(std::regex_search(text, std::regex("ABCAB\\s+\\.C")));
}

TEST(CrewSheet, PrintsCountsWhenThereIsNoOrder) {
  plan::CrewSheets sheets{stamp(), {planting_block(Language::en, 3)}};
  for (plan::SheetRow& row : sheets.blocks[0].rows) row.species_order.clear();
  sheets.blocks[0].rows.resize(1);
  sheets.blocks[0].rows[0].species_counts = {12, 0, 5};
  const std::string text = pdf_text("counts.en.pdf", paper::write_crew_sheets(sheets, english()));
  EXPECT_TRUE(std::regex_search(text, std::regex("A.{1,3}12\\s+C.{1,3}5")));
}

TEST(CrewSheet, ReturnSlipNamesPlanBlockAndAsksForEverySpecies) {
  const std::string text =
      pdf_text("crew.en.pdf", paper::write_crew_sheets(crew(Language::en), english()));
  const std::string slip = text.substr(text.find("Return slip:"));
  EXPECT_TRUE(contains(slip, "Plant block B3, plan 7"));
  for (const plan::SheetSpecies& species : planting_block(Language::en).species)
    EXPECT_TRUE(std::regex_search(slip, std::regex("\\b" + species.code + "\\b"))) << species.code;
  for (const char* part : {"Brought", "Dead", "Crew leader", "Signature", "bag left on"})
    EXPECT_TRUE(contains(slip, part)) << part;
}

TEST(CrewSheet, ClosedGatePrintsDraftAndNoRowsSpeciesOrSlip) {
  plan::CrewSheets sheets{stamp(), {closed_block(Language::en)}};
  const std::string text = pdf_text("closed.en.pdf", paper::write_crew_sheets(sheets, english()));
  EXPECT_TRUE(contains(text, "Draft, not for crews"));
  EXPECT_TRUE(contains(text, "Cattle graze here every evening."));
  EXPECT_FALSE(contains(text, "Return slip:"));
  EXPECT_FALSE(contains(text, "Shorea"));
  EXPECT_FALSE(contains(text, "What to load"));
}

TEST(CrewSheet, EveryPageSaysThatTheFiguresAreInvented) {
  const std::string pdf = paper::write_crew_sheets(crew(Language::en), english());
  const std::string text = pdf_text("crew.en.pdf", pdf);
  EXPECT_EQ(times(text, "Invented figures"), pdf_pages("crew.en.pdf", pdf));
}

TEST(CrewSheet, CountsThePagesOfEachBlockByItself) {
  const std::string text =
      pdf_text("crew.en.pdf", paper::write_crew_sheets(crew(Language::en), english()));
  EXPECT_EQ(times(text, "page 1 of "), 2);  // the closed block starts again at 1
  EXPECT_FALSE(contains(text, "of 0"));
}

TEST(CrewSheet, BlockWithoutRowsSaysSo) {
  plan::CrewSheets sheets{stamp(), {planting_block(Language::en)}};
  sheets.blocks[0].rows.clear();
  sheets.blocks[0].species.clear();
  const std::string text = pdf_text("no_rows.en.pdf", paper::write_crew_sheets(sheets, english()));
  EXPECT_TRUE(contains(text, "no row fits between the edge and the water"));
}

TEST(CrewSheet, ThreeHundredRowsOfFortySpeciesKeepEveryRowAndCode) {
  plan::CrewSheets sheets{stamp(), {planting_block(Language::en, 40, 4.7)}};
  plan::CrewSheet& block = sheets.blocks[0];
  ASSERT_GE(block.rows.size(), 300U);
  block.rows.resize(300);
  const std::string pdf = paper::write_crew_sheets(sheets, english());
  const std::string text = pdf_text("large.en.pdf", pdf);
  for (const plan::SheetRow& row : block.rows)
    EXPECT_TRUE(std::regex_search(text, std::regex("\\n\\s*" + std::to_string(row.number) + "\\s+" +
                                                   english().number(row.tape_m, 1) + "\\s")))
        << row.number;
  EXPECT_TRUE(contains(text, block.species[39].code));
  const int pages = pdf_pages("large.en.pdf", pdf);
  EXPECT_TRUE(contains(text, "page " + std::to_string(pages) + " of " + std::to_string(pages)));
}

TEST(CrewSheet, LongNamesWrapAndNothingLeavesTheMargins) {
  plan::CrewSheets sheets{stamp(), {planting_block(Language::en)}};
  plan::CrewSheet& block = sheets.blocks[0];
  block.block_code = std::string(90, 'W');
  block.site = std::string(200, 'M');
  block.ground_type =
      "an overlong name of a kind of ground that goes on and on until it has filled more than one "
      "line of it";
  block.species[0].local_name = std::string(60, 'm');
  block.species[0].scientific_name = std::string(80, 'M');
  block.gates.consent.who = std::string(80, 'W');
  sheets.stamp.programme = std::string(150, 'W');
  const std::string path = kept("long.en.pdf", paper::write_crew_sheets(sheets, english()));
  const std::string boxes = output_of("pdftotext -bbox '" + path + "' -");
  const std::regex word(
      "xMin=\"([0-9.]+)\" yMin=\"([0-9.]+)\" xMax=\"([0-9.]+)\" yMax=\"([0-9.]+)\">([^<]*)<");
  const double margin = 15 * 72 / 25.4;
  int seen = 0;
  for (std::sregex_iterator at(boxes.begin(), boxes.end(), word), end; at != end; ++at, ++seen) {
    EXPECT_GE(std::stod((*at)[1]), margin - 1) << (*at)[5];
    EXPECT_LE(std::stod((*at)[3]), 210 * 72 / 25.4 - margin + 1) << (*at)[5];
    EXPECT_GE(std::stod((*at)[2]), margin - 3) << (*at)[5];  // ascent above the capitals
    EXPECT_LE(std::stod((*at)[4]), 297 * 72 / 25.4 - margin + 2) << (*at)[5];
  }
  EXPECT_GT(seen, 300);
}

TEST(CrewSheet, TendingJobHasNoSpeciesButASlip) {
  plan::CrewSheets sheets{stamp(), {planting_block(Language::en)}};
  sheets.blocks[0].job = plan::SheetJob::weed_rings;
  for (plan::SheetRow& row : sheets.blocks[0].rows) {
    row.species_order.clear();
    row.species_counts.clear();
  }
  const std::string text = pdf_text("weeding.en.pdf", paper::write_crew_sheets(sheets, english()));
  EXPECT_FALSE(contains(text, "What to load"));
  EXPECT_TRUE(contains(text, "seedlings cut by us"));
}

TEST(CrewSheet, RefusesToPrintNothing) {
  EXPECT_THROW(paper::write_crew_sheets({stamp(), {}}, english()), Error);
}

TEST(RainSheet, IsOnePageWithALineForEachDay) {
  const std::string pdf = paper::write_rain_sheet(rain(Language::en), english());
  EXPECT_EQ(pdf_pages("rain.en.pdf", pdf), 1);
  const std::string text = pdf_text("rain.en.pdf", pdf);
  EXPECT_TRUE(contains(text, "March 2027"));
  EXPECT_TRUE(contains(text, "Pondok Kelabu"));
  for (int day = 1; day <= 31; ++day)
    EXPECT_TRUE(std::regex_search(text, std::regex("\\n\\s*" + std::to_string(day) + "\\s*\\n")))
        << day;
}

TEST(RainSheet, FebruaryHasTwentyEightLines) {
  plan::RainSheet sheet = rain(Language::en);
  sheet.month = 2;
  const std::string text = pdf_text("february.en.pdf", paper::write_rain_sheet(sheet, english()));
  EXPECT_TRUE(std::regex_search(text, std::regex("\\n\\s*28\\s*\\n")));
  EXPECT_FALSE(std::regex_search(text, std::regex("\\n\\s*29\\s*\\n")));
}

TEST(RainSheet, SaysToWhichDayTheMorningsRainBelongs) {
  plan::RainSheet sheet = rain(Language::en);
  sheet.rain_read_next_morning = true;
  EXPECT_TRUE(contains(pdf_text("before.pdf", paper::write_rain_sheet(sheet, english())),
                       "for the day before"));
  sheet.rain_read_next_morning = false;
  EXPECT_TRUE(
      contains(pdf_text("same.pdf", paper::write_rain_sheet(sheet, english())), "for that day"));
}

TEST(RainSheet, RefusesMonthThirteen) {
  plan::RainSheet sheet = rain(Language::en);
  sheet.month = 13;
  EXPECT_THROW(paper::write_rain_sheet(sheet, english()), Error);
}

TEST(Summary, IsOnePageThatStartsWithTheAnswer) {
  const std::string pdf = paper::write_summary(summary(Language::en), english());
  EXPECT_EQ(pdf_pages("summary.en.pdf", pdf), 1);
  const std::string text = pdf_text("summary.en.pdf", pdf);
  ASSERT_TRUE(contains(text, "Plant three of the four blocks"));
  EXPECT_LT(text.find("Plant three"), text.find("Why"));
  for (const char* part :
       {"Block K1: nobody has asked", "27 November 2026: ask the owners", "No date yet: order 400",
        "measured here", "assumed", "documented elsewhere"})
    EXPECT_TRUE(contains(text, part)) << part;
}

TEST(Summary, RefusesWhatDoesNotFitInsteadOfCuttingIt) {
  plan::SummaryPage page = summary(Language::en);
  for (int i = 0; i < 60; ++i)
    page.assumed.push_back(free_text("One more sentence that somebody assumed on a long day."));
  EXPECT_THROW(paper::write_summary(page, english()), Error);
}

TEST(IndonesianSheets, HaveNoEnglishWordOfTheCatalogue) {
  const std::string text =
      pdf_text("crew.id.pdf", paper::write_crew_sheets(crew(Language::id), indonesian())) +
      pdf_text("rain.id.pdf", paper::write_rain_sheet(rain(Language::id), indonesian())) +
      pdf_text("summary.id.pdf", paper::write_summary(summary(Language::id), indonesian())) +
      pdf_text("tomorrow.id.pdf",
               paper::write_tomorrow_sheets({tomorrow(Language::id)}, indonesian())) +
      pdf_text("fire.id.pdf", paper::write_fire_calendar(fire(Language::id), indonesian())) +
      pdf_text("pay.id.pdf", paper::write_pay_list(pay(Language::id), indonesian())) +
      pdf_text("waiting.id.pdf", paper::write_waiting_page(waiting(Language::id), indonesian())) +
      paper::tomorrow_text(tomorrow(Language::id), indonesian());
  EXPECT_TRUE(contains(text, "Tanam petak B3"));
  EXPECT_EQ(english_words_in(text), std::vector<std::string>());
}

TEST(IndonesianSheets, TheSearchForEnglishWordsFindsThemOnEnglishSheets) {
  const std::string text =
      pdf_text("crew.en.pdf", paper::write_crew_sheets(crew(Language::en), english()));
  EXPECT_GT(english_words_in(text).size(), 100U);
}

TEST(PaperWords, BothLanguagesHaveTheSameKeysAndArguments) {
  for (const std::string& key : english().keys()) {
    if (!key.starts_with("paper.")) continue;
    EXPECT_TRUE(indonesian().has(key)) << key;
    EXPECT_EQ(english().argument_names(key), indonesian().argument_names(key)) << key;
  }
  for (const std::string& key : indonesian().keys()) EXPECT_TRUE(english().has(key)) << key;
}

TEST(PaperWords, NoSheetShowsAKeyOrABrace) {
  const std::string text =
      pdf_text("crew.en.pdf", paper::write_crew_sheets(crew(Language::en), english())) +
      pdf_text("rain.en.pdf", paper::write_rain_sheet(rain(Language::en), english())) +
      pdf_text("summary.en.pdf", paper::write_summary(summary(Language::en), english()));
  EXPECT_FALSE(contains(text, "paper."));
  EXPECT_FALSE(contains(text, "{"));
}

TEST(Fonts, OnlyTheShippedOnesAreInAFileAndAllEmbedded) {
  const std::vector<std::string> files{
      kept("crew.en.pdf", paper::write_crew_sheets(crew(Language::en), english())),
      kept("rain.id.pdf", paper::write_rain_sheet(rain(Language::id), indonesian())),
      kept("summary.en.pdf", paper::write_summary(summary(Language::en), english()))};
  for (const std::string& file : files) {
    std::istringstream lines(output_of("pdffonts '" + file + "'"));
    std::string line;
    int fonts = 0;
    for (int i = 0; std::getline(lines, line); ++i) {
      if (i < 2) continue;
      ++fonts;
      EXPECT_TRUE(std::regex_search(
          line, std::regex("^[A-Z]{6}\\+Wildling(Sans|Serif)-(Regular|Bold|Italic)")))
          << line;
      EXPECT_TRUE(std::regex_search(line, std::regex(" yes +yes +yes ")))
          << line;  // embedded, subset, with letters
    }
    EXPECT_GE(fonts, 2) << file;
  }
}

TEST(Fonts, TheLicenceLiesBesideThem) {
  EXPECT_TRUE(embedded_file("fonts/OFL-sans.txt").has_value());
  EXPECT_TRUE(embedded_file("fonts/OFL-serif.txt").has_value());
}

TEST(SameInput, GivesTheSameBytes) {
  EXPECT_EQ(paper::write_crew_sheets(crew(Language::en), english()),
            paper::write_crew_sheets(crew(Language::en), english()));
  EXPECT_EQ(paper::write_rain_sheet(rain(Language::id), indonesian()),
            paper::write_rain_sheet(rain(Language::id), indonesian()));
  EXPECT_EQ(paper::write_summary(summary(Language::en), english()),
            paper::write_summary(summary(Language::en), english()));
  EXPECT_EQ(paper::map_picture_svg(map(Language::en), english()),
            paper::map_picture_svg(map(Language::en), english()));
  EXPECT_EQ(paper::map_picture_png(map(Language::en), english()),
            paper::map_picture_png(map(Language::en), english()));
}

}  // namespace
}  // namespace wildling
