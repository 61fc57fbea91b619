#include <algorithm>
#include <filesystem>
#include <fstream>
#include <regex>
#include <set>
#include <sstream>

#include <gtest/gtest.h>

#include "base/words.hpp"
#include "plan/field/year.hpp"

namespace wildling::plan {
namespace {

std::set<std::string> sentences_in_sources() {
  std::set<std::string> keys;
  const std::regex pattern("say\\(\\s*\"(year\\.[a-z0-9_.]+[a-z0-9])\"");
  for (const auto& entry : std::filesystem::directory_iterator(
           std::filesystem::path(WILDLING_SOURCE) / "src" / "plan" / "field")) {
    std::ifstream file(entry.path());
    std::stringstream text;
    text << file.rdbuf();
    const std::string source = text.str();
    for (std::sregex_iterator at(source.begin(), source.end(), pattern), end; at != end; ++at)
      keys.insert((*at)[1]);
  }
  return keys;
}

TEST(YearWords, ExistForEverySentenceThatTheSourcesName) {
  const auto keys = sentences_in_sources();
  EXPECT_GT(keys.size(), 100U);
  for (const Language language : {Language::en, Language::id}) {
    const Words words(language);
    for (const std::string& key : keys) EXPECT_TRUE(words.has(key)) << key;
  }
}

TEST(YearWords, NameEveryQuestionNoteFieldAndChoice) {
  std::set<std::string> keys;
  const auto add = [&](const std::vector<Field>& fields) {
    for (const Field& field : fields) {
      std::string name = field.name;
      std::replace(name.begin(), name.end(), '-', '_');
      keys.insert("field." + name);
      for (const std::string& choice : field.choices) keys.insert("choice." + choice);
    }
  };
  for (const Question& question : year_questions()) {
    keys.insert("ask." + question.name);
    add(question.fields);
  }
  for (const Note& note : year_notes()) {
    keys.insert("note." + note.name);
    add(note.fields);
  }
  for (const Language language : {Language::en, Language::id}) {
    const Words words(language);
    for (const std::string& key : keys) EXPECT_TRUE(words.has(key)) << key;
  }
}

}  // namespace
}  // namespace wildling::plan
