#include <cmath>
#include <set>

#include <gtest/gtest.h>

#include "base/csv.hpp"
#include "base/date.hpp"
#include "base/exact_math.hpp"
#include "base/hash.hpp"
#include "base/parallel.hpp"
#include "base/parameters.hpp"
#include "base/random.hpp"
#include "base/words.hpp"

namespace wildling {
namespace {

TEST(Date, RefusesADayThatDoesNotExist) {
  EXPECT_FALSE(parse_iso_date("2026-02-30"));
}

TEST(Date, ReadsAndWritesTheSameDay) {
  EXPECT_EQ(iso_date(*parse_iso_date("2024-02-29")), "2024-02-29");
}

TEST(Date, CountsThirtySixTenDayPeriods) {
  EXPECT_EQ(ten_day_period(make_date(2025, 1, 10)), 0);
  EXPECT_EQ(ten_day_period(make_date(2025, 1, 31)), 2);
  EXPECT_EQ(ten_day_period(make_date(2025, 12, 31)), 35);
}

TEST(Date, KeepsTheLastDayOfAShorterMonth) {
  EXPECT_EQ(iso_date(add_months(make_date(2025, 1, 31), 1)), "2025-02-28");
}

// Random123 known-answer test vectors (file kat_vectors, from memory): philox4x32 10, counter and
// key all zero.
TEST(Stream, FirstWordsOfTheZeroKeyAreThoseOfTheRandom123Vectors) {
  Purpose zero{""};
  zero.value = 0;
  Stream stream(Seed{0}, zero, 0);
  EXPECT_EQ(stream.next(), 0x6627e8d5U);
  EXPECT_EQ(stream.next(), 0xe169c58dU);
  EXPECT_EQ(stream.next(), 0xbc57ac4cU);
  EXPECT_EQ(stream.next(), 0x9b00dbd8U);
}

TEST(Stream, DependsOnItsKeyOnly) {
  Stream a(Seed{7}, Purpose{"mortality"}, 12);
  Stream b(Seed{7}, Purpose{"mortality"}, 12);
  Stream c(Seed{7}, Purpose{"mortality"}, 13);
  EXPECT_EQ(a.next(), b.next());
  EXPECT_NE(a.next(), c.next());
}

TEST(Stream, BetaHasItsMean) {
  Stream stream(Seed{1}, Purpose{"test"}, 0);
  double sum = 0;
  for (int i = 0; i < 20000; ++i) sum += stream.beta(3, 1);
  EXPECT_NEAR(sum / 20000, 0.75, 4 * std::sqrt(0.75 * 0.25 / 5 / 20000));  // four standard errors
}

TEST(ExactMath, AgreesWithTheCLibraryToTwoUnitsInTheLastPlace) {
  for (double x = -700; x < 700; x += 0.37) {
    EXPECT_NEAR(exact_exp(x) / std::exp(x), 1.0, 5e-16) << x;
    EXPECT_NEAR(exact_log(std::exp(x)), std::log(std::exp(x)), 5e-16 * std::max(1.0, std::abs(x)))
        << x;
  }
}

// FIPS 180-4 example: SHA-256("abc").
TEST(Hash, ReproducesTheFips180Example) {
  EXPECT_EQ(sha256_hex("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
}

TEST(ParallelFor, VisitsEveryIndexOnce) {
  std::vector<int> seen(1000);
  parallel_for(1000, 7, 4, [&](std::size_t begin, std::size_t end) {
    for (std::size_t i = begin; i < end; ++i) ++seen[i];
  });
  EXPECT_EQ(std::set<int>(seen.begin(), seen.end()), std::set<int>{1});
}

TEST(Csv, CountsLinesThroughQuotedLineEndsAndBlankLines) {
  const auto rows = parse_csv("a,b\r\n\r\n\"x\ny\",2\n3,4");
  ASSERT_EQ(rows.size(), 3U);
  EXPECT_EQ(rows[1].line, 3U);
  EXPECT_EQ(rows[1].cells[0], "x\ny");
  EXPECT_EQ(rows[2].line, 5U);
}

TEST(Csv, WritesWhatItReads) {
  const std::vector<std::string> cells = {"a,b", "say \"yes\"", " x ", "line\nend", ""};
  EXPECT_EQ(parse_csv(csv_line(cells)).at(0).cells, cells);
}

TEST(Words, WritesIndonesianNumbersAndDates) {
  const Words words(Language::id);
  EXPECT_EQ(words.number(1234.5, 1), "1.234,5");
  EXPECT_EQ(words.date(make_date(2026, 11, 25)), "25 November 2026");
}

TEST(Words, EveryKeyExistsInBothLanguagesWithTheSameArguments) {
  const Words en(Language::en);
  const Words id(Language::id);
  EXPECT_EQ(en.keys(), id.keys());
  for (const std::string& key : en.keys())
    EXPECT_EQ(en.argument_names(key), id.argument_names(key)) << key;
}

TEST(Words, EveryPatternIsValid) {
  for (const Language language : {Language::en, Language::id}) {
    const Words words(language);
    for (const std::string& key : words.keys()) {
      EXPECT_EQ(words.text(key).find("[" + key + "]"), std::string::npos) << key;
    }
  }
}

TEST(Parameters, EveryShippedParameterIsLabelledInTheCatalogue) {
  const Words words(Language::en);
  const Parameters shipped = Parameters::shipped();
  for (const auto& [key, parameter] : shipped.all())
    EXPECT_TRUE(words.has("parameter." + key)) << key;
}

}  // namespace
}  // namespace wildling
