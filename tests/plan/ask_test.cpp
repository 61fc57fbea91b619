#include "plan/ask.hpp"

#include <algorithm>
#include <set>

#include <gtest/gtest.h>

#include "base/words.hpp"

namespace wildling::plan {
namespace {

std::vector<Field> walk_fields() {
  return {{"block", FieldKind::text, "", true, false, {}, {}, {}},
          {"day", FieldKind::day, "", false, false, {}, {}, {}},
          {"share", FieldKind::number, "", false, false, {}, 0.0, 1.0},
          {"people", FieldKind::whole, "", false, false, {}, 1.0, {}},
          {"dry", FieldKind::yes_no, "", false, false, {}, {}, {}},
          {"row", FieldKind::text, "", false, true, {}, {}, {}},
          {"cover", FieldKind::choice, "", false, false, {"fern", "shrubs"}, {}, {}}};
}

std::string refusal(const Entries& entries) {
  try {
    check_entries(walk_fields(), entries);
  } catch (const Error& error) {
    EXPECT_EQ(error.kind(), ErrorKind::usage);
    return error.where() + " " + error.message().key;
  }
  return "";
}

TEST(Entries, PassWhenEveryFieldIsOfItsKind) {
  EXPECT_EQ(refusal({{"block", {"B1"}},
                     {"day", {"2026-02-28"}},
                     {"share", {"0.5"}},
                     {"people", {"3"}},
                     {"dry", {"no"}},
                     {"row", {"1:A=2", "2:A=3"}},
                     {"cover", {"fern"}}}),
            "");
}

TEST(Entries, NameTheFieldThatMustBeFilledIn) {
  EXPECT_EQ(refusal({}), "--block plan.entry.required");
}

struct Wrong {
  const char* field;
  const char* text;
  const char* key;
};

class WrongEntry : public testing::TestWithParam<Wrong> {};

TEST_P(WrongEntry, IsRefusedWithTheNameOfTheField) {
  const Wrong& wrong = GetParam();
  EXPECT_EQ(refusal({{"block", {"B1"}}, {wrong.field, {wrong.text}}}),
            "--" + std::string(wrong.field) + " " + wrong.key);
}

INSTANTIATE_TEST_SUITE_P(Kinds, WrongEntry,
                         testing::Values(Wrong{"day", "2026-02-30", "plan.entry.no_day"},
                                         Wrong{"share", "half", "plan.entry.no_number"},
                                         Wrong{"share", "nan", "plan.entry.no_number"},
                                         Wrong{"share", "1e999", "plan.entry.no_number"},
                                         Wrong{"share", "1.01", "plan.entry.outside"},
                                         Wrong{"people", "0", "plan.entry.outside"},
                                         Wrong{"people", "2.5", "plan.entry.no_whole"},
                                         Wrong{"people", "99999999999999999999",
                                               "plan.entry.no_whole"},
                                         Wrong{"dry", "maybe", "plan.entry.yes_no"},
                                         Wrong{"cover", "grass", "plan.entry.choice"}));

TEST(Entries, RefuseASecondTextForAFieldThatDoesNotRepeat) {
  EXPECT_EQ(refusal({{"block", {"B1", "B2"}}}), "--block plan.entry.twice");
}

TEST(Entries, RefuseAFieldThatIsNotThere) {
  EXPECT_EQ(refusal({{"block", {"B1"}}, {"colour", {"green"}}}), "colour plan.entry.unknown_field");
}

TEST(Entries, LeftOutAreEmptyNotZero) {
  EXPECT_FALSE(number_of({}, "share"));
  EXPECT_FALSE(day_of({}, "day"));
  EXPECT_FALSE(yes_no_of({}, "dry"));
  EXPECT_TRUE(all_of({}, "row").empty());
}

template <class T>
std::set<std::string> word_keys(const std::vector<T>& list, const std::string& prefix) {
  std::set<std::string> keys;
  const auto key = [](std::string text) {
    std::replace(text.begin(), text.end(), '-', '_');
    return text;
  };
  for (const T& one : list) {
    keys.insert(key(prefix + one.name));
    for (const Field& field : one.fields) {
      keys.insert(key("field." + field.name));
      for (const std::string& choice : field.choices) keys.insert(key("choice." + choice));
    }
  }
  return keys;
}

TEST(QuestionsAndNotes, HaveWordsForEveryHeadingFieldAndChoice) {
  const Words words(Language::id);
  for (const auto& keys : {word_keys(questions(), "ask."), word_keys(notes(), "note.")}) {
    for (const std::string& key : keys) EXPECT_TRUE(words.has(key)) << key << " has no words";
  }
}

template <class T>
void expect_each_name_once(const std::vector<T>& list) {
  std::set<std::string> names;
  for (const T& one : list) EXPECT_TRUE(names.insert(one.name).second) << one.name;
}

TEST(QuestionsAndNotes, HaveEachNameOnce) {
  expect_each_name_once(questions());
  expect_each_name_once(notes());
}

TEST(QuestionsAndNotes, ListTheNamesWhenOneIsUnknown) {
  EXPECT_THROW(question("weather-wizard"), Error);
  EXPECT_THROW(note("weather-wizard"), Error);
}

}  // namespace
}  // namespace wildling::plan
