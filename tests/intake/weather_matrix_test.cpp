#include <cmath>

#include <gtest/gtest.h>

#include "base/words.hpp"
#include "intake/catch_text.hpp"
#include "intake/matrix_page.hpp"
#include "intake/weather_log.hpp"

namespace wildling::intake {
namespace {

WeatherFile read(const std::string& text, const WeatherOptions& options = {}) {
  return read_weather_bytes(text, "book.csv", options);
}

double rain(const WeatherFile& file, int year, unsigned month, unsigned day) {
  const auto i = file.daily.index(make_date(year, month, day));
  return i ? file.daily.rain_mm[*i] : -1;
}

std::size_t told(const WeatherFile& file, const std::string& key) {
  std::size_t n = 0;
  for (const Finding& finding : file.findings) n += finding.message.key == key ? 1U : 0U;
  return n;
}

std::string first_where(const WeatherFile& file, const std::string& key) {
  for (const Finding& finding : file.findings) {
    if (finding.message.key == key) return finding.where;
  }
  return {};
}

std::string refusal(const std::string& text, const WeatherOptions& options = {}) {
  try {
    read(text, options);
  } catch (const Error& error) {
    return error.message().key;
  }
  return "read";
}

// A page of twelve months across; cells(month, day) gives the text.
template <typename Cells>
std::string page(const std::string& title, Cells cells, char separator = ',') {
  std::string text = title + "\n";
  const std::string s(1, separator);
  text += "Tgl" + s + "Jan" + s + "Feb" + s + "Mar" + s + "Apr" + s + "Mei" + s + "Jun" + s +
          "Jul" + s + "Agt" + s + "Sep" + s + "Okt" + s + "Nop" + s + "Des\n";
  for (int d = 1; d <= 31; ++d) {
    text += std::to_string(d);
    for (int m = 1; m <= 12; ++m) text += s + cells(m, d);
    text += "\n";
  }
  return text;
}

std::string real_days(int year, int m, int d, const std::string& text) {
  return d <= static_cast<int>(days_in_month(year, static_cast<unsigned>(m))) ? text : "";
}

TEST(MonthMatrix, MonthsAcrossAreReadWithTheirYearFromTheTitle) {
  const WeatherFile file = read(page("Curah hujan (mm) tahun 2023", [](int m, int d) {
    return real_days(2023, m, d, std::to_string(m) + "." + std::to_string(d % 10));
  }));
  EXPECT_EQ(file.daily.first, make_date(2023, 1, 1));
  EXPECT_EQ(file.daily.days(), 365U);
  EXPECT_DOUBLE_EQ(rain(file, 2023, 8, 17), 8.7);
  EXPECT_DOUBLE_EQ(rain(file, 2023, 12, 31), 12.1);
  EXPECT_EQ(file.kept, file.rows_read);
  EXPECT_EQ(file.set_aside, 0U);
}

TEST(MonthMatrix, DaysAcrossAreReadWithTheYearInItsColumn) {
  std::string text = "Year,Month";
  for (int d = 1; d <= 31; ++d) text += "," + std::to_string(d);
  text += "\n";
  const std::vector<std::string> months = {"January", "February", "March"};
  for (int year : {2019, 2020}) {
    for (int m = 1; m <= 3; ++m) {
      text += (m == 1 ? std::to_string(year) : "") + "," + months[static_cast<std::size_t>(m - 1)];
      for (int d = 1; d <= 31; ++d)
        text += "," + real_days(year, m, d, std::to_string(100 * (year - 2018) + d));
      text += "\n";
    }
  }
  const WeatherFile file = read(text);
  EXPECT_EQ(rain(file, 2019, 2, 28), 128);
  EXPECT_EQ(rain(file, 2020, 2, 29), 229);
  EXPECT_EQ(rain(file, 2020, 3, 31), 231);
  EXPECT_EQ(told(file, "intake.no_such_day"), 0U);
}

TEST(MonthMatrix, SeveralYearsStandBelowEachOther) {
  const auto cells = [](int m, int d) { return real_days(2023, m, d, d == 1 ? "5" : "0"); };
  const WeatherFile file = read(page("Year: 2021", cells) + "Jumlah" + std::string(12, ',') + "\n" +
                                page("Year: 2022", cells) + page("Year: 2023", cells));
  EXPECT_EQ(file.daily.first, make_date(2021, 1, 1));
  EXPECT_EQ(file.daily.last(), make_date(2023, 12, 31));
  EXPECT_EQ(rain(file, 2022, 6, 1), 5);
  EXPECT_EQ(told(file, "intake.gap"), 0U);
}

TEST(MonthMatrix, RomanNumeralsAndSemicolonsAndDecimalCommasAreRead) {
  const WeatherFile file = read(
      "Tahun;2020\nTGL;I;II;III;IV;V;VI;VII;VIII;IX;X;XI;XII\n1;1,5;2,5;0;0;0;0;0;0;0;0;0;0\n"
      "2;0;0;0;0;0;0;0;0;0;0;0;12,25\n");
  EXPECT_EQ(rain(file, 2020, 2, 1), 2.5);
  EXPECT_EQ(rain(file, 2020, 12, 2), 12.25);
}

TEST(MonthMatrix, YearsInTheHeadingsCountForTheirMonths) {
  const WeatherFile file = read("Day,Nov 2019,Dec 2019,Jan 2020,Feb 2020\n1,1,2,3,4\n29,5,6,7,8\n");
  EXPECT_EQ(rain(file, 2019, 11, 1), 1);
  EXPECT_EQ(rain(file, 2020, 2, 29), 8);
}

TEST(MonthMatrix, AnUntoldYearIsAskedFor) {
  const std::string text = page("Rain", [](int, int d) { return d < 5 ? "1" : ""; });
  EXPECT_EQ(refusal(text), "intake.matrix_year");
  WeatherOptions options;
  options.year = 2018;
  EXPECT_EQ(rain(read(text, options), 2018, 4, 4), 1);
  EXPECT_EQ(refusal(page("2019/2020", [](int, int) { return "1"; })), "intake.matrix_year");
}

TEST(MonthMatrix, The31stOfAMonthOf30DaysIsSetAsideWithItsCell) {
  const WeatherFile file = read(page("2023", [](int m, int d) {
    return m == 6 && d == 31 ? std::string("7") : real_days(2023, m, d, "0");
  }));
  EXPECT_EQ(told(file, "intake.no_such_day"), 1U);
  EXPECT_EQ(first_where(file, "intake.no_such_day"), "book.csv:33, column Jun");
  EXPECT_EQ(file.set_aside, 1U);
  EXPECT_EQ(file.kept + file.set_aside, file.rows_read);
  EXPECT_EQ(rain(file, 2023, 7, 1), 0);
}

TEST(MonthMatrix, The29thOfFebruaryCountsInLeapYearsOnly) {
  const auto cells = [](int m, int d) { return m == 2 && d == 29 ? "3.5" : ""; };
  EXPECT_EQ(rain(read(page("2020", cells)), 2020, 2, 29), 3.5);
  const auto more = [](int m, int d) { return m == 2 && d >= 28 && d < 30 ? "3.5" : ""; };
  const WeatherFile file = read(page("2021", more));
  EXPECT_EQ(told(file, "intake.no_such_day"), 1U);
  EXPECT_EQ(file.daily.days(), 1U);
}

TEST(MonthMatrix, FillersOfDaysThatDoNotExistSayNothing) {
  const WeatherFile file = read(page("2021", [](int m, int d) {
    return real_days(2021, m, d, "0").empty() ? std::string(d == 30 ? "-" : "8888")
                                              : std::string("1");
  }));
  EXPECT_EQ(file.set_aside, 0U);
  EXPECT_EQ(told(file, "intake.no_such_day"), 0U);
}

TEST(MonthMatrix, AYearGivenTwiceIsDroppedWhereEqualAndSetAsideWhereNot) {
  const auto one = [](int m, int d) { return m == 1 && d <= 3 ? std::to_string(d) : ""; };
  const auto two = [](int m, int d) {
    return m == 1 && d <= 3 ? std::to_string(d == 2 ? 20 : d) : "";
  };
  const WeatherFile file = read(page("2020", one) + page("2020", two));
  EXPECT_EQ(told(file, "intake.twin_dropped"), 2U);
  EXPECT_EQ(told(file, "intake.day_conflict"), 1U);
  EXPECT_EQ(rain(file, 2020, 1, 1), 1);
  EXPECT_TRUE(std::isnan(rain(file, 2020, 1, 2)));
}

TEST(MonthMatrix, TwoStationsAreNotMixed) {
  const auto cells = [](int m, int d) { return m == 1 && d <= 3 ? "4" : ""; };
  const std::string text =
      page("Stasiun: Hulu\nTahun 2020", cells) + page("Stasiun: Hilir\nTahun 2020", cells);
  EXPECT_EQ(refusal(text), "intake.several_stations");
  WeatherOptions options;
  options.station = "Hilir";
  const WeatherFile file = read(text, options);
  EXPECT_EQ(file.station, "Hilir");
  EXPECT_EQ(rain(file, 2020, 1, 3), 4);
  EXPECT_EQ(file.kept + file.set_aside, file.rows_read);
}

TEST(MonthMatrix, TemperaturesOfTheSameYearJoinTheRain) {
  const auto cells = [](int m, int d) { return m == 1 && d <= 3 ? "30" : ""; };
  const WeatherFile file =
      read(page("Curah hujan 2020", cells) + page("Suhu maksimum 2020", cells));
  EXPECT_EQ(rain(file, 2020, 1, 3), 30);
  EXPECT_EQ(file.daily.tmax_c[2], 30);
  EXPECT_EQ(told(file, "intake.twin_dropped"), 0U);
}

TEST(MonthMatrix, TheKeepersSumsAreHeldAgainstTheDays) {
  std::string text = page("2020", [](int m, int d) { return m < 3 && d <= 3 ? "4.1" : ""; });
  text += "Jumlah,12.3,15.3\n";
  const WeatherFile file = read(text);
  EXPECT_EQ(told(file, "intake.book_sums"), 1U);
  EXPECT_EQ(told(file, "intake.book_sum_differs"), 1U);
  EXPECT_EQ(first_where(file, "intake.book_sum_differs"), "book.csv:34, column Feb");
}

TEST(MonthMatrix, TenDaySumsBelowTheDaysAreNoDays) {
  std::string text = page("2021", [](int, int d) { return d <= 3 ? "4" : ""; });
  text += "1,99,99,99,99,99,99,99,99,99,99,99,99\n2,88,88,88,88,88,88,88,88,88,88,88,88\n";
  const WeatherFile file = read(text);
  EXPECT_EQ(rain(file, 2021, 1, 1), 4);
  EXPECT_EQ(told(file, "intake.day_conflict"), 0U);
}

TEST(Catches, WordsBesideTheNumberMakeATotal) {
  for (const char* words : {"41 (3 hari)", "3 days: 41 mm", "3 hari 41", "41 mm / 3 hr"}) {
    const WeatherFile file = read(page("2020", [words](int m, int d) {
      return m != 4 || d > 9 ? "" : d == 8 ? words : d > 5 && d < 9 ? "" : "2";
    }));
    ASSERT_EQ(file.daily.totals.size(), 1U) << words;
    EXPECT_EQ(file.daily.totals[0].first, make_date(2020, 4, 6));
    EXPECT_EQ(file.daily.totals[0].last, make_date(2020, 4, 8));
    EXPECT_EQ(file.daily.totals[0].total_mm, 41);
    EXPECT_TRUE(std::isnan(rain(file, 2020, 4, 8)));
    EXPECT_EQ(rain(file, 2020, 4, 9), 2);
    ASSERT_EQ(told(file, "intake.total_kept"), 1U);
    EXPECT_EQ(file.total_places.at(0), "book.csv:10, column Apr");
  }
}

TEST(Catches, ABracketOverDaysIsOneCatch) {
  const WeatherFile file =
      read("date,rain\n2020-01-01,1\n2020-01-02,}\n2020-01-03,41 }\n2020-01-04,}\n2020-01-05,0\n");
  ASSERT_EQ(file.daily.totals.size(), 1U);
  EXPECT_EQ(file.daily.totals[0].first, make_date(2020, 1, 2));
  EXPECT_EQ(file.daily.totals[0].last, make_date(2020, 1, 4));
  EXPECT_EQ(file.set_aside, 0U);
}

TEST(Catches, ABracketMayEndAtAPlainNumber) {
  const WeatherFile file =
      read("date,rain\n2020-01-01,1\n2020-01-02,{\n2020-01-03,{\n2020-01-04,41\n");
  ASSERT_EQ(file.daily.totals.size(), 1U);
  EXPECT_EQ(file.daily.totals[0].last, make_date(2020, 1, 4));
}

TEST(Catches, ABracketWithTwoNumbersOrNoneIsSetAside) {
  const WeatherFile two = read("date,rain\n2020-01-01,1\n2020-01-02,3 }\n2020-01-03,4 }\n");
  EXPECT_EQ(told(two, "intake.bracket_several"), 2U);
  EXPECT_TRUE(two.daily.totals.empty());
  EXPECT_EQ(two.set_aside, 2U);
  const WeatherFile none = read("date,rain\n2020-01-01,1\n2020-01-02,}\n2020-01-05,4\n");
  EXPECT_EQ(told(none, "intake.bracket_empty"), 1U);
}

TEST(Catches, ARemarkThatSaysAccumulatedReachesBackToTheLastReading) {
  const WeatherFile file = read(
      "DATA,CHUVA,COMENTARIO\n2004-12-10,2,\n2004-12-11,,\n2004-12-12,,\n"
      "2004-12-13,51.4,Acumulado\n2004-12-14,3,acumulada\n");
  ASSERT_EQ(file.daily.totals.size(), 1U);
  EXPECT_EQ(file.daily.totals[0].first, make_date(2004, 12, 11));
  EXPECT_EQ(rain(file, 2004, 12, 14), 3);
  EXPECT_EQ(told(file, "intake.catch_of_one_day"), 1U);
}

TEST(Catches, AnAccumulationWithoutABeginningIsSetAside) {
  const WeatherFile file = read("date,rain\n2020-01-01,41 acc\n2020-01-02,0\n");
  EXPECT_EQ(told(file, "intake.catch_begins_unknown"), 1U);
  EXPECT_EQ(file.set_aside, 1U);
}

TEST(Catches, ALogMayBeginWithACatchOfSeveralDays) {
  const WeatherFile file = read("date,rain\n2020-01-03,41 (3 hari)\n2020-01-04,0\n");
  EXPECT_EQ(file.daily.first, make_date(2020, 1, 1));
  EXPECT_NO_THROW(climate::check({{}, file.daily}));
}

TEST(Catches, ACatchReadNextMorningMovesWhole) {
  WeatherOptions options;
  options.read_next_morning = true;
  const WeatherFile file = read("date,rain\n2020-01-02,0\n2020-01-05,41 (3 hari)\n", options);
  ASSERT_EQ(file.daily.totals.size(), 1U);
  EXPECT_EQ(file.daily.totals[0].first, make_date(2020, 1, 2));
  EXPECT_EQ(file.daily.totals[0].last, make_date(2020, 1, 4));
}

TEST(CatchText, TakesWordsBracketsAndAccumulationsApart) {
  EXPECT_EQ(catch_text("3 days: 41 mm").days, 3);
  EXPECT_EQ(catch_text("3 days: 41 mm").number, "41");
  EXPECT_EQ(catch_text("41,5 (3 hari)").number, "41,5");
  EXPECT_TRUE(catch_text("41 acc.").accumulated);
  EXPECT_TRUE(catch_text("}").bracket);
  EXPECT_FALSE(catch_text("(41)").bracket);
  EXPECT_EQ(catch_text("12 mm").number, "12 mm");
  EXPECT_EQ(catch_text("3 to 5 days: 41").number, "3 to 5 days: 41");
  EXPECT_EQ(catch_text("-3 hari 4").number, "-3 hari 4");
}

TEST(WeatherWordsInCells, TracesInManySpellingsAreZeroAndCounted) {
  const WeatherFile file = read(
      "date,rain\n2020-01-01,T\n2020-01-02,ttu\n2020-01-03,ttd\n2020-01-04,<0.1\n2020-01-05,TR\n");
  EXPECT_EQ(file.trace_days, 5U);
  EXPECT_EQ(rain(file, 2020, 1, 4), 0);
}

TEST(WeatherWordsInCells, LessThanALotIsNoTrace) {
  EXPECT_EQ(told(read("date,rain\n2020-01-01,<20\n2020-01-02,1\n"), "intake.not_a_number"), 1U);
}

TEST(WeatherWordsInCells, CodesOfTheServicesAreMissingAndToldWithTheirLine) {
  const WeatherFile file = read("tanggal,rr\n2020-01-01,8888\n2020-01-02,9999\n2020-01-03,1\n");
  EXPECT_TRUE(std::isnan(rain(file, 2020, 1, 1)));
  EXPECT_EQ(told(file, "intake.code_is_missing"), 2U);
  EXPECT_EQ(first_where(file, "intake.code_is_missing"), "book.csv:2, column rr");
}

TEST(WeatherWordsInCells, ACodeNamedAsTraceIsATraceEvenIfServicesUseIt) {
  WeatherOptions options;
  options.trace_code = 8888;
  const WeatherFile file = read("tanggal,rr\n2020-01-01,8888\n2020-01-02,9999\n", options);
  EXPECT_EQ(file.trace_days, 1U);
  EXPECT_EQ(rain(file, 2020, 1, 1), 0);
}

TEST(WeatherWordsInCells, AZeroThatNobodyObservedIsMissing) {
  const WeatherFile file =
      read("DATA,CHUVA,HORA\n2020-01-01,0,nao foi feita observ\n2020-01-02,0,7:00\n");
  EXPECT_TRUE(std::isnan(rain(file, 2020, 1, 1)));
  EXPECT_EQ(told(file, "intake.zero_not_observed"), 1U);
}

TEST(WeatherUnits, TheUsersUnitsTurnEveryValueAndSaySo) {
  WeatherOptions options;
  options.units = {{"rain", "inch"}, {"tmax", "F"}, {"wind", "km_h"}};
  const WeatherFile file = read("date,rain,tmax,wind\n2020-01-01,2,86,18\n", options);
  EXPECT_DOUBLE_EQ(file.daily.rain_mm[0], 50.8);
  EXPECT_DOUBLE_EQ(file.daily.tmax_c[0], 30);
  EXPECT_DOUBLE_EQ(file.daily.wind_m_s[0], 5);
  EXPECT_EQ(told(file, "intake.converted"), 3U);
}

TEST(WeatherUnits, TenthsOfAMillimetreAreRead) {
  WeatherOptions options;
  options.units = {{"rain", "tenth_mm"}};
  EXPECT_DOUBLE_EQ(read("date,rain\n2020-01-01,125\n", options).daily.rain_mm[0], 12.5);
}

TEST(WeatherUnits, AUnitThatDoesNotFitIsRefused) {
  WeatherOptions options;
  options.units = {{"rain", "f"}};
  EXPECT_EQ(refusal("date,rain\n2020-01-01,125\n", options), "intake.unit_option");
}

TEST(WeatherMonths, AMonthOfZerosIsKeptAsItIs) {
  std::string text = "date,rain\n";
  for (int d = 0; d < 31; ++d)
    text += iso_date(make_date(2020, 7, 1) + std::chrono::days(d)) + ",0\n";
  const WeatherFile file = read(text);
  EXPECT_EQ(file.daily.days(), 31U);
  EXPECT_EQ(file.set_aside, 0U);
}

TEST(WeatherPlaces, EveryDayKnowsItsLine) {
  const WeatherFile file = read("date,rain\n2020-01-01,1\n2020-01-03,2\n");
  ASSERT_EQ(file.places.size(), 3U);
  EXPECT_EQ(file.places[0], "book.csv:2");
  EXPECT_EQ(file.places[1], "");
  EXPECT_EQ(file.places[2], "book.csv:3");
}

TEST(MatrixWorkbook, SheetsAreYearsAndJoinedCellsAreOneCatch) {
  const WeatherFile file =
      read_weather(std::string(WILDLING_REFERENCE) + "/weather_logs/invented_book.xlsx");
  EXPECT_EQ(file.daily.first, make_date(2019, 1, 1));
  EXPECT_EQ(file.daily.last(), make_date(2020, 12, 31));
  ASSERT_EQ(file.daily.totals.size(), 1U);
  EXPECT_EQ(file.daily.totals[0].first, make_date(2019, 3, 10));
  EXPECT_EQ(file.daily.totals[0].last, make_date(2019, 3, 12));
  EXPECT_EQ(file.daily.totals[0].total_mm, 41);
  EXPECT_EQ(rain(file, 2020, 2, 29), 6);
  EXPECT_EQ(first_where(file, "intake.no_such_day"),
            "invented_book.xlsx, sheet 2020:33, column Jun");
}

TEST(MatrixWords, EveryFindingHasItsSentenceInBothLanguages) {
  WeatherOptions options;
  options.units = {{"rain", "inch"}};
  std::string text = page("2021", [](int m, int d) {
    if (m == 2 && d == 30) return "5";
    if (m == 3) return d == 1 ? "}" : d == 2 ? "1 }" : d == 4 ? "2 }" : d == 5 ? "1 }" : "";
    if (m == 4) return d == 1 ? "8888" : d == 3 ? "0.5 acc" : d == 2 ? "1" : "";
    return m == 5 && d == 2 ? "1 (2 hari)" : "";
  });
  const WeatherFile file = read(text + "Jumlah,,,4,9\n", options);
  for (const Language language : {Language::en, Language::id}) {
    const Words words(language);
    EXPECT_GE(file.findings.size(), 8U);
    for (const Finding& finding : file.findings) {
      const std::string sentence = words.text(finding);
      EXPECT_EQ(sentence.find_first_of("[{"), std::string::npos) << sentence;
    }
  }
}

TEST(MatrixPage, YearsStandAloneInATitle) {
  EXPECT_EQ(years_in("Tahun 2019"), std::set<int>{2019});
  EXPECT_EQ(years_in("2019/2020"), (std::set<int>{2019, 2020}));
  EXPECT_TRUE(years_in("2015.5 mm").empty());
  EXPECT_TRUE(years_in("no. 12019").empty());
}

}  // namespace
}  // namespace wildling::intake
