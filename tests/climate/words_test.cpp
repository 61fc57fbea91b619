#include "base/words.hpp"

#include <gtest/gtest.h>

#include "base/parameters.hpp"

namespace wildling::climate {
namespace {

TEST(ClimateWords, BothLanguagesHaveTheSameKeysAndArguments) {
  const Words english(Language::en), indonesian(Language::id);
  for (const std::string& key : english.keys()) {
    if (!key.starts_with("climate.") && !key.starts_with("parameter.climate.")) continue;
    EXPECT_TRUE(indonesian.has(key)) << key;
    EXPECT_EQ(english.argument_names(key), indonesian.argument_names(key)) << key;
  }
  for (const std::string& key : indonesian.keys()) {
    if (!key.starts_with("climate.")) continue;
    EXPECT_TRUE(english.has(key)) << key;
  }
}

TEST(ClimateWords, EveryParameterHasALabel) {
  const Words words(Language::en);
  const Parameters parameters = Parameters::shipped();
  for (const auto& [key, parameter] : parameters.all()) {
    if (!key.starts_with("climate.")) continue;
    EXPECT_TRUE(words.has("parameter." + key)) << key;
  }
}

TEST(ClimateWords, AWindowIsSaidWithDaysAndCountedYears) {
  const Message line = say("climate.window_found", {{"first", make_date(2001, 10, 21)},
                                                    {"last", make_date(2001, 12, 10)},
                                                    {"good", std::int64_t{9}},
                                                    {"of", std::int64_t{11}}});
  EXPECT_EQ(Words(Language::en).text(line),
            "Plant between 21 October and 10 December: a seedling planted then met no killing dry "
            "spell in at "
            "least 9 of 11 years.");
  EXPECT_EQ(Words(Language::id).text(line),
            "Tanam antara 21 Oktober dan 10 Desember: bibit yang ditanam saat itu tidak menemui "
            "kemarau mematikan "
            "pada sedikitnya 9 dari 11 tahun.");
}

}  // namespace
}  // namespace wildling::climate
