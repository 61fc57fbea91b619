#include <filesystem>
#include <fstream>
#include <regex>
#include <set>
#include <sstream>

#include <gtest/gtest.h>

#include "base/words.hpp"

namespace wildling::tending {
namespace {

/// Every key "tending.…" or "nursery.…" that stands whole in a source file of these rooms.
std::set<std::string> keys_in_sources() {
  std::set<std::string> keys;
  for (const char* room : {"tending", "nursery"}) {
    for (const auto& entry : std::filesystem::directory_iterator(
             std::filesystem::path(WILDLING_SOURCE) / "src" / room)) {
      std::ifstream file(entry.path());
      std::stringstream text;
      text << file.rdbuf();
      const std::string source = text.str();
      const std::regex pattern("say\\(\\s*\"([a-z0-9_.]+[a-z0-9_])\"");
      for (std::sregex_iterator it(source.begin(), source.end(), pattern), end; it != end; ++it)
        keys.insert((*it)[1]);
    }
  }
  return keys;
}

TEST(FieldWords, ExistForEveryMessageThatTheSourcesName) {
  const std::set<std::string> keys = keys_in_sources();
  EXPECT_GT(keys.size(), 80U);
  for (const Language language : {Language::en, Language::id}) {
    const Words words(language);
    for (const std::string& key : keys) EXPECT_TRUE(words.has(key)) << key;
  }
}

}  // namespace
}  // namespace wildling::tending
