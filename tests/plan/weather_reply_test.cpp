// Claims that every reply of the weather room must meet.
#include <gtest/gtest.h>

#include "weather_programme.hpp"

namespace wildling::plan {
namespace {

struct Case {
  const char* name;
  Entries entries;
};

std::vector<Case> cases() {
  return {{"today", {}},
          {"season", {}},
          {"water", {}},
          {"spells", {}},
          {"hindcast", {}},
          {"quality", {}},
          {"fire", {}},
          {"heat", {}},
          {"trend", {}},
          {"pair", {{"open-station", {"Invented station"}}, {"forest-station", {"Under trees"}}}},
          {"simulate", {{"years", {"3"}}}}};
}

class WeatherReply : public testing::TestWithParam<Case> {
 protected:
  // Made once: replies only read.
  static const store::Store* full() {
    static const std::unique_ptr<store::Store> kept = make_full();
    return kept.get();
  }

  static const store::Store* poor() {
    static const std::unique_ptr<store::Store> kept = make_poor();
    return kept.get();
  }

  static Rehearsal& outside() {
    static Rehearsal kept{Seed{1}};
    return kept;
  }

  static std::unique_ptr<store::Store> make_full() {
    auto store = weather_programme(outside());
    climate::WeatherBook forest = eleven_years();
    forest.station.name = "Under trees";
    for (double& t : forest.daily.tmax_c) t -= 2;
    take(*store, forest);
    take(*store, [] {
      climate::WeatherBook book = eleven_years();
      book.station.name = "Office";
      book.station.distance_km = 14;
      return book;
    }());
    open_everything(*store);
    return store;
  }

  // Two years with gaps, rain only, far away.
  static std::unique_ptr<store::Store> make_poor() {
    auto store = invented_programme(outside(), 0);
    climate::WeatherBook book = invented_rain(700);
    book.station.distance_km = 14;
    for (std::size_t i = 100; i < 120; ++i) book.daily.rain_mm[i] = std::nan("");
    take(*store, book);
    book.station.name = "Under trees";
    take(*store, book);
    return store;
  }

  static void hold(const Reply& reply) {
    EXPECT_EQ(nodes_that_do_not_hold(reply.workings, all_formulas()), std::vector<std::string>{});
    for (const Language language : {Language::en, Language::id}) {
      const std::string text = all_words(reply, language);
      EXPECT_EQ(text.find('{'), std::string::npos) << text.substr(text.find('{') - 80, 200);
      EXPECT_EQ(text.find("[weather."), std::string::npos)
          << text.substr(text.find("[weather."), 80);
      EXPECT_EQ(text.find("[climate."), std::string::npos)
          << text.substr(text.find("[climate."), 80);
    }
  }

  static std::vector<std::string> keys_that_do_not_open(const Reply& reply) {
    std::vector<std::string> bad;
    const auto check = [&](const std::string& key) {
      if (!key.empty() && reply.workings.find(key) == nullptr) bad.push_back(key);
    };
    const auto check_message = [&](const Message& message) {
      for (const auto& [argument, key] : message.opens) check(key);
    };
    check_message(reply.answer);
    for (const LetterPart& part : reply.parts) {
      for (const Message& sentence : part.sentences) check_message(sentence);
    }
    for (const Table& table : reply.tables) {
      for (const auto& row : table.rows) {
        for (const Cell& cell : row) check(cell.opens);
      }
    }
    return bad;
  }
};

TEST_P(WeatherReply, HoldsItsWorkingsAndWordsWithAFullLog) {
  const auto* store = full();
  hold(asked(*store, GetParam().name, GetParam().entries));
}

TEST_P(WeatherReply, HoldsItsWorkingsAndWordsWithTwoYearsOfRain) {
  const auto* store = poor();
  hold(asked(*store, GetParam().name,
             std::string(GetParam().name) == "pair" ? GetParam().entries : Entries{},
             make_date(2024, 11, 30)));
}

TEST_P(WeatherReply, OpensOnlyNumbersThatAreThere) {
  const auto* store = full();
  EXPECT_EQ(keys_that_do_not_open(asked(*store, GetParam().name, GetParam().entries)),
            std::vector<std::string>{});
}

TEST_P(WeatherReply, GivesTheSameBytesTwice) {
  const auto* store = full();
  EXPECT_EQ(reply_text(asked(*store, GetParam().name, GetParam().entries)),
            reply_text(asked(*store, GetParam().name, GetParam().entries)));
}

TEST_P(WeatherReply, HasRowsAsLongAsItsColumns) {
  const auto* store = full();
  for (const Table& table : asked(*store, GetParam().name, GetParam().entries).tables) {
    for (const auto& row : table.rows) EXPECT_EQ(row.size(), table.columns.size()) << table.name;
  }
}

TEST_P(WeatherReply, SaysWithoutALogThatThereIsNone) {
  const auto store = invented_programme(outside(), 0);
  try {
    hold(asked(*store, GetParam().name, GetParam().entries));
  } catch (const Error& error) {
    EXPECT_TRUE(error.message().key == "weather.no_log" ||
                error.message().key == "weather.no_station_at_all")
        << error.message().key;
  }
}

INSTANTIATE_TEST_SUITE_P(Questions, WeatherReply, testing::ValuesIn(cases()),
                         [](const auto& one) { return std::string(one.param.name); });

}  // namespace
}  // namespace wildling::plan
