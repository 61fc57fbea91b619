#include <filesystem>
#include <regex>
#include <set>

#include <gtest/gtest.h>

#include "base/files.hpp"
#include "base/words.hpp"

namespace wildling::intake {
namespace {

TEST(IntakeWords, BothLanguagesHaveTheSameKeysAndArguments) {
  const Words english(Language::en);
  const Words indonesian(Language::id);
  for (const std::string& key : english.keys()) {
    if (key.find("intake.") == std::string::npos) continue;
    ASSERT_TRUE(indonesian.has(key)) << key;
    EXPECT_EQ(english.argument_names(key), indonesian.argument_names(key)) << key;
  }
}

TEST(IntakeWords, EveryMessageOfTheSourcesIsInTheCatalogue) {
  const Words english(Language::en);
  const std::regex pattern("say\\(\\s*\"(intake\\.[a-z_.0-9]+)\"");
  std::set<std::string> seen;
  for (const auto& entry : std::filesystem::directory_iterator(WILDLING_SOURCE "/src/intake")) {
    const std::string source = read_file(entry.path().string());
    for (std::sregex_iterator i(source.begin(), source.end(), pattern), end; i != end; ++i) {
      seen.insert((*i)[1]);
    }
  }
  EXPECT_GT(seen.size(), 30U);
  for (const std::string& key : seen) EXPECT_TRUE(english.has(key)) << key;
}

}  // namespace
}  // namespace wildling::intake
