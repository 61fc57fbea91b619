#include <thread>

#include <gtest/gtest.h>

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

std::size_t characters(const std::string& text) {
  std::size_t count = 0;
  for (const char c : text) count += (static_cast<unsigned char>(c) & 0xC0U) != 0x80U ? 1 : 0;
  return count;
}

TEST(TomorrowSheet, IsOnePageWithRowsNumbersAndSlip) {
  const std::string pdf = paper::write_tomorrow_sheets({tomorrow(Language::en)}, english());
  EXPECT_EQ(pdf_pages("tomorrow.en.pdf", pdf), 1);
  const std::string text = pdf_text("tomorrow.en.pdf", pdf);
  for (const char* part :
       {"Plant tomorrow: the soil is moist to 24 cm.", "06:30, depot by the old bridge",
        "Plant block B3", "14 rows", "Return slip", "Consent: village meeting"})
    EXPECT_TRUE(contains(text, part)) << part;
}

TEST(TomorrowSheet, NamesAClosedBlockOnlyAsNotTomorrow) {
  const std::string text = pdf_text(
      "tomorrow.en.pdf", paper::write_tomorrow_sheets({tomorrow(Language::en)}, english()));
  EXPECT_TRUE(contains(text, "Not tomorrow"));
  EXPECT_FALSE(contains(text, "Plant block K1"));
}

TEST(TomorrowSheet, TwoLeadersGetTwoSheets) {
  EXPECT_EQ(
      pdf_pages("two.pdf", paper::write_tomorrow_sheets(
                               {tomorrow(Language::id), tomorrow(Language::id)}, indonesian())),
      2);
}

TEST(TomorrowText, HasDayBlockNumberAndCautions) {
  const std::string text = paper::tomorrow_text(tomorrow(Language::en), english());
  for (const char* part : {"2 December", "Pak Dani", "Plant block B3: rows 1 to 14", "Heat.",
                           "Snakes.", "06:30", "Not K1"})
    EXPECT_TRUE(contains(text, part)) << part << " in " << text;
  EXPECT_LT(characters(text), 500U);
}

TEST(TomorrowText, StaysUnderFiveHundredCharactersAndKeepsTheCautions) {
  plan::TomorrowSheet sheet = tomorrow(Language::id);
  sheet.crew_leader = std::string(300, 'W');
  for (int i = 0; i < 40; ++i) {
    sheet.tasks.push_back(sheet.tasks[0]);
    sheet.tasks.back().block_code =
        "B" + std::to_string(i) + std::string(static_cast<std::size_t>(i), 'x');
  }
  sheet.cautions.push_back(free_text(std::string(600, 'y')));
  const std::string text = paper::tomorrow_text(sheet, indonesian());
  EXPECT_LT(characters(text), 500U);
  EXPECT_TRUE(contains(text, "Ular."));
  EXPECT_TRUE(contains(text, "Selebihnya di lembar kerja."));
}

TEST(FireCalendar, ShowsBreaksWithDueDatesAndPatrol) {
  const std::string pdf = paper::write_fire_calendar(fire(Language::en), english());
  const std::string text = pdf_text("fire.en.pdf", pdf);
  for (const char* part : {"Clear 2,140 m of firebreak before 20 June.", "1,320", "20 June 2027",
                           "(sources 5 to 20)", "very high", "Ibu Sari", "8 to 12 weeks"})
    EXPECT_TRUE(contains(text, part)) << part;
  EXPECT_LT(text.find("Smoke and fire."), text.find("Firebreaks"));
}

TEST(FireCalendar, AMonthWithoutRainLogIsNotDrawnAsDry) {
  plan::FireCalendar calendar = fire(Language::en);
  calendar.months[3].rain_mm.reset();
  EXPECT_TRUE(
      contains(pdf_text("fire_gap.pdf", paper::write_fire_calendar(calendar, english())), "?"));
}

TEST(PayList, ShowsHoursAndTotals) {
  const std::string text =
      pdf_text("pay.en.pdf", paper::write_pay_list(pay(Language::en), english()));
  for (const char* part : {"30 November 2026 to 6 December 2026", "Bujang bin", "35.5", "665,625",
                           "1,340,625", "Days worked by women: 5"})
    EXPECT_TRUE(contains(text, part)) << part;
}

TEST(PayList, RefusesEightDays) {
  plan::PayList list = pay(Language::en);
  list.days = 8;
  EXPECT_THROW(paper::write_pay_list(list, english()), Error);
}

TEST(WaitingPage, SaysWhyAndWhenToLookAgain) {
  const std::string pdf = paper::write_waiting_page(waiting(Language::en), english());
  EXPECT_EQ(pdf_pages("waiting.en.pdf", pdf), 1);
  const std::string text = pdf_text("waiting.en.pdf", pdf);
  for (const char* part :
       {"We did not plant today.", "14 mm of the 22 mm", "(measured here)", "(told)",
        "Look again on 5 December 2026", "advice of the plan was followed"})
    EXPECT_TRUE(contains(text, part)) << part;
}

TEST(Drawing, FromTwoThreadsGivesTheSameBytes) {
  const std::string alone = paper::write_waiting_page(waiting(Language::en), english());
  std::string one, two;
  std::thread first([&one] { one = paper::write_waiting_page(waiting(Language::en), english()); });
  std::thread second([&two] { two = paper::write_waiting_page(waiting(Language::en), english()); });
  first.join();
  second.join();
  EXPECT_EQ(one, alone);
  EXPECT_EQ(two, alone);
}

}  // namespace
}  // namespace wildling
