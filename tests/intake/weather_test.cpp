#include <cmath>
#include <numeric>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "base/csv.hpp"
#include "base/files.hpp"
#include "base/words.hpp"
#include "intake/date_reading.hpp"
#include "intake/number_reading.hpp"
#include "intake/weather_log.hpp"

namespace wildling::intake {
namespace {

const std::string kSource = WILDLING_SOURCE;

WeatherFile read(const std::string& text, const WeatherOptions& options = {}) {
  return read_weather_bytes(text, "log.csv", options);
}

double total(const WeatherFile& file) {
  double sum = 0;
  for (const double mm : file.daily.rain_mm) sum += std::isnan(mm) ? 0 : mm;
  return sum;
}

std::size_t measured(const WeatherFile& file) {
  std::size_t n = 0;
  for (const double mm : file.daily.rain_mm) n += std::isnan(mm) ? 0U : 1U;
  return n;
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

std::string refusal(const std::string& text, const WeatherOptions& options = {}) {
  try {
    read(text, options);
  } catch (const Error& error) {
    return error.message().key;
  }
  return "read";
}

TEST(WeatherDemo, ElevenYearsAreReadWholeWithoutASettingAside) {
  const WeatherFile file = read_weather(kSource + "/demo/invented_weather.csv");
  EXPECT_EQ(file.set_aside, 0U);
  EXPECT_EQ(file.kept, file.rows_read);
  EXPECT_GT(file.daily.days(), 3000U);
  EXPECT_DOUBLE_EQ(file.daily.rain_mm[0], 8.7);
  EXPECT_DOUBLE_EQ(file.daily.tmax_c[1], 31.0);
  EXPECT_EQ(file.station, "Luak Bening (invented)");
  EXPECT_NO_THROW(climate::check({{}, file.daily}));
}

TEST(WeatherDemo, TheRainBookOfThePoorStartIsReadInIndonesianWithItsGap) {
  const WeatherFile file = read_weather(kSource + "/demo/poor/invented_rain.csv");
  EXPECT_EQ(file.daily.first, make_date(2024, 3, 1));
  EXPECT_DOUBLE_EQ(rain(file, 2024, 3, 4), 30.5);
  EXPECT_TRUE(std::isnan(rain(file, 2024, 3, 17)));
  EXPECT_EQ(file.columns_used.at("date"), "tanggal");
  EXPECT_EQ(file.set_aside, 1U);  // one day is written twice
  EXPECT_EQ(told(file, "intake.twin_dropped"), 1U);
  EXPECT_EQ(told(file, "intake.gaps"), 1U);
}

TEST(WeatherCodes, TraceAndMissingCodesAreNeverSummed) {  // trial C23
  WeatherOptions options;
  options.trace_code = -1;
  options.missing_codes = {-999};
  const WeatherFile file = read(
      "date,rain_mm\n2024-01-01,0\n2024-01-02,5.2\n2024-01-03,-1\n2024-01-04,12.4\n"
      "2024-01-05,-999\n2024-01-06,0\n2024-01-07,3.0\n",
      options);
  EXPECT_NEAR(total(file), 20.6, 1e-12);
  EXPECT_EQ(measured(file), 6U);
  EXPECT_EQ(file.trace_days, 1U);
  EXPECT_EQ(file.set_aside, 0U);
}

TEST(WeatherCodes, WithoutTheCodesNegativeRainIsSetAside) {
  const WeatherFile file = read("date,rain_mm\n2024-01-01,-1\n2024-01-02,5\n");
  EXPECT_EQ(told(file, "intake.rain_negative"), 1U);
  EXPECT_EQ(file.set_aside, 1U);
  EXPECT_EQ(measured(file), 1U);
  EXPECT_EQ(file.findings[0].where, "log.csv:2, column rain_mm");
}

TEST(WeatherCodes, AnEmptyCellIsMissingAndTheLetterTIsATrace) {
  const WeatherFile file = read("date,rain_mm\n2024-01-01,\n2024-01-02,T\n2024-01-03,8888\n");
  EXPECT_EQ(measured(file), 1U);
  EXPECT_EQ(file.trace_days, 1U);
  EXPECT_EQ(file.kept, 3U);
}

TEST(WeatherDates, OneDateOfTheColumnSettlesAllOthers) {  // trial C25
  const WeatherFile file =
      read("date,rain_mm\n03/04/2021,1\n05/04/2021,2\n13/04/2021,3\n28/04/2021,4\n");
  EXPECT_EQ(file.daily.first, make_date(2021, 4, 3));
  EXPECT_EQ(rain(file, 2021, 4, 5), 2);
  EXPECT_EQ(rain(file, 2021, 4, 13), 3);
  EXPECT_EQ(rain(file, 2021, 4, 28), 4);
}

TEST(WeatherDates, WithoutEvidenceTheReaderAsks) {  // trial C25, variant
  const std::string text = "date,rain_mm\n03/04/2021,1\n05/04/2021,2\n";
  EXPECT_EQ(refusal(text), "intake.date_order_unclear");
  WeatherOptions options;
  options.date_order = "mdy";
  EXPECT_EQ(read(text, options).daily.first, make_date(2021, 3, 4));
}

TEST(WeatherDates, OrdersThatContradictEachOtherAreRefused) {
  EXPECT_EQ(refusal("date,rain_mm\n13/04/2021,1\n04/14/2021,2\n"), "intake.date_order_mixed");
}

TEST(WeatherDates, MonthWordsOfBothLanguagesAreRead) {
  const WeatherFile file =
      read("tanggal;hujan\n1 Agustus 2023;1\n2-Aug-2023;2\n3 Agt 2023;3\n2023-08-04;4\n");
  EXPECT_EQ(rain(file, 2023, 8, 1), 1);
  EXPECT_EQ(rain(file, 2023, 8, 2), 2);
  EXPECT_EQ(rain(file, 2023, 8, 4), 4);
}

TEST(WeatherDates, DaysToComeAreSetAside) {
  WeatherOptions options;
  options.today = make_date(2024, 1, 2);
  const WeatherFile file = read("date,rain_mm\n2024-01-02,1\n2024-01-03,1\n", options);
  EXPECT_EQ(told(file, "intake.date_in_future"), 1U);
  EXPECT_EQ(file.daily.days(), 1U);
}

TEST(WeatherDates, SpreadsheetSerialsCountFromEitherEpoch) {  // trial C31
  const WeatherFile file = read("date,rain_mm\n44197,1\n44198.3125,2\n");
  EXPECT_EQ(file.daily.first, make_date(2021, 1, 1));
  EXPECT_EQ(rain(file, 2021, 1, 2), 2);
}

TEST(WeatherDates, YearMonthAndDayMayStandInColumnsOfTheirOwn) {
  const WeatherFile file = read("tahun,bulan,hari,ch\n2024,3,1,5\n2024,3,2,0\n");
  EXPECT_EQ(rain(file, 2024, 3, 1), 5);
}

TEST(WeatherNumbers, DecimalCommaWithThousandsIsReadAndQuestioned) {  // trial C27
  const WeatherFile file = read(
      "fecha;lluvia\n01/03/2024;12,5\n02/03/2024;0,0\n03/03/2024;1.234,5\n", {.date_order = "dmy"});
  EXPECT_NEAR(total(file), 1247.0, 1e-9);
  EXPECT_EQ(rain(file, 2024, 3, 1), 12.5);
  EXPECT_EQ(told(file, "intake.rain_questioned"), 1U);
}

TEST(WeatherNumbers, AFileOfUnclearNumbersOnlyIsAskedAbout) {  // trial C27, variant
  const std::string text = "date;rain\n2024-03-01;1.234\n2024-03-02;1.500\n";
  EXPECT_EQ(refusal(text), "intake.decimal_unclear");
  WeatherOptions options;
  options.decimal = '.';
  EXPECT_NEAR(total(read(text, options)), 2.734, 1e-12);
}

TEST(WeatherNumbers, InchesAndFahrenheitBecomeOurUnits) {
  const WeatherFile file = read("date,rain (inches),tmax (F)\n2024-03-01,2,86\n");
  EXPECT_DOUBLE_EQ(file.daily.rain_mm[0], 50.8);
  EXPECT_DOUBLE_EQ(file.daily.tmax_c[0], 30);
}

TEST(WeatherNumbers, RainBeyondBeliefIsSetAsideAndTheGuardBeforeAFormulaIsTakenOff) {
  const WeatherFile file = read("date,rain_mm\n2024-03-01,2100\n2024-03-02,'-999\n2024-03-03,1\n");
  EXPECT_EQ(told(file, "intake.reading_impossible"), 1U);
  EXPECT_EQ(measured(file), 1U);
}

TEST(WeatherNumbers, ALowestTemperatureAboveTheHighestTakesBothAway) {
  const WeatherFile file = read("date,rain,tmax,tmin\n2024-03-01,1,22,31\n");
  EXPECT_EQ(told(file, "intake.tmin_above_tmax"), 1U);
  EXPECT_TRUE(std::isnan(file.daily.tmax_c[0]) && std::isnan(file.daily.tmin_c[0]));
  EXPECT_EQ(file.daily.rain_mm[0], 1);
  EXPECT_EQ(file.kept, 1U);
}

TEST(WeatherDoubles, ATwinIsDroppedAndAConflictIsNeitherAveragedNorSummed) {  // trial C29
  const WeatherFile file =
      read("date,rain_mm\n2024-06-10,4.0\n2024-06-10,4.0\n2024-06-11,0.0\n2024-06-11,11.9\n");
  EXPECT_EQ(rain(file, 2024, 6, 10), 4);
  EXPECT_TRUE(std::isnan(rain(file, 2024, 6, 11)));
  EXPECT_EQ(told(file, "intake.twin_dropped"), 1U);
  EXPECT_EQ(told(file, "intake.day_conflict"), 1U);
  EXPECT_EQ(file.kept, 1U);
  EXPECT_EQ(file.set_aside, 3U);
}

TEST(WeatherDoubles, ACatchOfSeveralDaysStaysATotal) {
  const WeatherFile file =
      read("date,rain,days covered\n2024-06-01,1,1\n2024-06-04,30,3\n2024-06-05,2,\n");
  ASSERT_EQ(file.daily.totals.size(), 1U);
  EXPECT_EQ(file.daily.totals[0].first, make_date(2024, 6, 2));
  EXPECT_EQ(told(file, "intake.gaps"), 0U);
  EXPECT_NO_THROW(climate::check({{}, file.daily}));
}

TEST(WeatherShift, RainReadNextMorningBelongsToTheDayBefore) {
  WeatherOptions options;
  options.read_next_morning = true;
  const WeatherFile file = read("date,rain,tmax\n2024-06-02,7,30\n", options);
  EXPECT_EQ(rain(file, 2024, 6, 1), 7);
  EXPECT_EQ(file.daily.tmax_c[1], 30);
}

TEST(WeatherGroups, ManyAlikeFindingsAreFivePlusACount) {
  std::string text = "date,rain_mm\n";
  for (int day = 1; day <= 28; ++day)
    text += iso_date(make_date(2024, 2, 1) + std::chrono::days(day)) + ",wet\n";
  const WeatherFile file = read(text);
  EXPECT_EQ(told(file, "intake.not_a_number"), 5U);
  ASSERT_EQ(told(file, "intake.more_alike"), 1U);
  EXPECT_EQ(file.set_aside, 28U);
}

TEST(WeatherColumnsChosen, TheUsersHeadersComeFirstAndMustExist) {
  const std::string text = "when,ra,rain\n2024-06-02,7,9\n";
  WeatherOptions options;
  options.columns = {{"date", "when"}, {"rain", "ra"}};
  EXPECT_EQ(total(read(text, options)), 7);
  options.columns["tmax"] = "heat";
  EXPECT_EQ(refusal(text, options), "intake.column_not_found");
}

TEST(WeatherColumnsChosen, SeveralStationsAreNotMixed) {
  const std::string text = "date,rain,station\n2024-06-02,7,A\n2024-06-02,9,B\n";
  EXPECT_EQ(refusal(text), "intake.several_stations");
  WeatherOptions options;
  options.station = "B";
  const WeatherFile file = read(text, options);
  EXPECT_EQ(total(file), 9);
  EXPECT_EQ(file.kept + file.set_aside, file.rows_read);
}

TEST(WeatherEncoding, Utf16AndAByteOrderMarkAreRead) {
  const std::string text = "date;rain\n2024-06-02;7,5\n";
  std::string wide = "\xFF\xFE";
  for (const char c : text) wide += std::string{c, '\0'};
  EXPECT_EQ(total(read(wide)), 7.5);
  EXPECT_EQ(total(read(wide.substr(2))), 7.5);
  EXPECT_EQ(total(read("\xEF\xBB\xBF" + text)), 7.5);
}

TEST(WeatherEncoding, TitlesAboveAndRepeatedHeadingsBelowDoNoHarm) {
  const WeatherFile file = read(
      "Pos hujan "
      "ladang,,\n,2024,\nDATA,CHUVA,NOTE\n2024-06-02,7,\nDATA,CHUVA,NOTE\n2024-06-03,1,\n");
  EXPECT_EQ(total(file), 8);
  EXPECT_EQ(told(file, "intake.header_repeated"), 1U);
}

TEST(WeatherRefusals, AFileOfNoUseIsRefusedWithItsReason) {
  using namespace std::string_literals;
  EXPECT_EQ(refusal(""), "intake.table_empty");
  EXPECT_EQ(refusal("\n \n"), "intake.table_empty");
  EXPECT_EQ(refusal("%PDF-1.7"), "intake.no_table");
  EXPECT_EQ(refusal("{\"type\":1}"), "intake.no_table");
  EXPECT_EQ(refusal("\0\1\2\3\0\0\0\0"s), "intake.no_table");
  EXPECT_EQ(refusal("PK\x03\x04rubbish"), "intake.workbook_unreadable");
  EXPECT_EQ(refusal("date,rain\n"), "intake.only_header");
  EXPECT_EQ(refusal("day of week,rain\nMon,1\n"), "intake.no_date_column");
  EXPECT_EQ(refusal("date,tmax\n2024-01-01,30\n"), "intake.no_rain_column");
  EXPECT_EQ(refusal("date,rain\nsoon,3\n"), "intake.no_day");
}

TEST(WeatherRealFiles, ExcerptsOfStationFilesAreReadAsTheirNotesSay) {
  const std::string folder = std::string(WILDLING_REFERENCE) + "/weather_logs/";
  const WeatherFile acp = read_weather(folder + "bci_1929_excerpt.csv");
  EXPECT_EQ(acp.daily.first, make_date(1929, 1, 1));
  EXPECT_DOUBLE_EQ(acp.daily.rain_mm[1], 2.032);
  EXPECT_EQ(told(acp, "intake.date_order_not_as_header"), 1U);
  WeatherOptions options;
  options.columns = {{"rain", "ra"}, {"date", "date"}};
  const WeatherFile bci = read_weather(folder + "bci_2019_excerpt.csv", options);
  EXPECT_GT(told(bci, "intake.twin_dropped"), 0U);
  EXPECT_TRUE(std::isnan(rain(bci, 2019, 4, 21)));
  EXPECT_TRUE(std::isnan(rain(bci, 2019, 4, 22)));
  const WeatherFile forest = read_weather(folder + "forest_gauge_excerpt.csv");
  EXPECT_EQ(forest.daily.first, make_date(2004, 10, 1));
}

TEST(WeatherWorkbook, TheSheetWithReadingsIsFoundAndItsRowsKeepTheirNumbers) {
  const WeatherFile file =
      read_weather(std::string(WILDLING_REFERENCE) + "/weather_logs/invented_1900.xlsx");
  EXPECT_EQ(file.daily.first, make_date(2021, 1, 1));
  EXPECT_EQ(rain(file, 2021, 1, 1), 12.5);
  EXPECT_EQ(rain(file, 2021, 1, 2), 0);
  EXPECT_EQ(rain(file, 2021, 1, 3), 1.234);
  EXPECT_EQ(told(file, "intake.other_sheets"), 1U);
  ASSERT_EQ(told(file, "intake.not_a_number"), 1U);
  for (const Finding& finding : file.findings) {
    if (finding.message.key != "intake.not_a_number") continue;
    EXPECT_EQ(finding.where, "invented_1900.xlsx:8, column Hujan (mm)");
  }
}

TEST(WeatherWorkbook, DaysCountedFrom1904AreFourYearsLater) {  // trial C31
  const WeatherFile file =
      read_weather(std::string(WILDLING_REFERENCE) + "/weather_logs/invented_1904.xlsx");
  EXPECT_EQ(file.daily.first, make_date(2025, 1, 2));
  EXPECT_EQ(rain(file, 2025, 1, 4), 1.234);
}

TEST(SerialMoments, TheTwoCountsAndTheDayThatNeverWas) {  // trial C31
  EXPECT_EQ(serial_moment(44197, false)->day, make_date(2021, 1, 1));
  EXPECT_EQ(serial_moment(44197.3125, false)->minutes, 450);
  EXPECT_EQ(serial_moment(44197, true)->day, make_date(2025, 1, 2));
  EXPECT_EQ(serial_moment(59, false)->day, make_date(1900, 2, 28));
  EXPECT_EQ(serial_moment(61, false)->day, make_date(1900, 3, 1));
  EXPECT_FALSE(serial_moment(60, false).has_value());
}

TEST(NumberReading, TheDecimalSignIsToldByTheFormOfTheNumber) {
  EXPECT_EQ(decimal_sign("12,5"), DecimalSign::comma);
  EXPECT_EQ(decimal_sign("1.234,5"), DecimalSign::comma);
  EXPECT_EQ(decimal_sign("1.234.567"), DecimalSign::comma);
  EXPECT_EQ(decimal_sign("0.125"), DecimalSign::dot);
  EXPECT_EQ(decimal_sign("1,234.5"), DecimalSign::dot);
  EXPECT_EQ(decimal_sign("1.234"), DecimalSign::unclear);
  EXPECT_EQ(decimal_sign("12"), DecimalSign::none);
  EXPECT_EQ(read_number("-1.234,5 mm", {}), -1234.5);
  EXPECT_EQ(read_number("1,234", '.'), 1234.0);
  EXPECT_FALSE(read_number("12,34,5", {}).has_value());
  EXPECT_FALSE(read_number("nan", {}).has_value());
}

RC_GTEST_PROP(WeatherProperty, ALogWrittenAsCsvReadsBackTheSame, ()) {
  const auto tenths =
      *rc::gen::nonEmpty(rc::gen::container<std::vector<int>>(rc::gen::inRange(-1, 4000)));
  const bool comma = *rc::gen::arbitrary<bool>();
  const Date first = make_date(1990, 1, 1) + std::chrono::days(*rc::gen::inRange(0, 12000));
  std::string text = comma ? "tanggal;hujan_mm\n" : "date,rain_mm\n";
  for (std::size_t i = 0; i < tenths.size(); ++i) {
    std::string number = tenths[i] < 0 ? "" : number_text(tenths[i] / 10.0);
    if (comma) std::replace(number.begin(), number.end(), '.', ',');
    text += iso_date(first + std::chrono::days(static_cast<int>(i))) + (comma ? ";" : ",") +
            number + "\n";
  }
  const WeatherFile file = read(text);
  RC_ASSERT(file.daily.first == first);
  RC_ASSERT(file.daily.days() == tenths.size());
  for (std::size_t i = 0; i < tenths.size(); ++i) {
    const double mm = file.daily.rain_mm[i];
    RC_ASSERT((tenths[i] < 0 ? std::isnan(mm) : mm == tenths[i] / 10.0));
  }
}

TEST(WeatherWords, EveryFindingHasItsSentenceInBothLanguages) {
  for (const Language language : {Language::en, Language::id}) {
    const Words words(language);
    const WeatherFile file = read(
        "date,rain,tmax,tmin\n2024-06-10,4,1,2\n2024-06-10,4,1,2\n2024-06-12,-1,99,\nx,1,1,1\n2024-"
        "06-20,600,,\n");
    EXPECT_GE(file.findings.size(), 7U);
    for (const Finding& finding : file.findings) {
      const std::string sentence = words.text(finding);
      EXPECT_EQ(sentence.find_first_of("[{"), std::string::npos) << sentence;
    }
  }
}

}  // namespace
}  // namespace wildling::intake
