#pragma once
// The invented programme with a plan, and short ways to write notes and ask questions.
#include <gtest/gtest.h>

#include "base/words.hpp"
#include "invented_programme.hpp"
#include "plan/ask.hpp"
#include "plan/chain.hpp"
#include "plan/field/year.hpp"
#include "plan/field/year_replies.hpp"
#include "plan/keep.hpp"

namespace wildling::plan {

inline const Date kYearToday = make_date(2025, 2, 1);

class YearAhead : public testing::Test {
 protected:
  Rehearsal outside{Seed{1}};
  std::unique_ptr<store::Store> store = invented_programme(outside);

  void SetUp() override {
    take_answers(*store, "Big field", all_open(), kTester);
    make();
  }

  void make() {
    PlanOptions options;
    options.seed = Seed{7};
    options.today = kYearToday;
    options.program_version = "test";
    keep_plan(*store, options, kTester);
  }

  Message note(const std::string& name, const Entries& entries, Date today = kYearToday) {
    for (const Note& one : year_notes()) {
      if (one.name != name) continue;
      check_entries(one.fields, entries);
      return one.keep(*store, entries, today, kTester);
    }
    throw std::logic_error(name);
  }

  Reply ask(const std::string& name, const Entries& entries = {}, Date today = kYearToday) {
    for (const Question& one : year_questions()) {
      if (one.name != name) continue;
      check_entries(one.fields, entries);
      return one.reply(*store, entries, today, {});
    }
    throw std::logic_error(name);
  }

  [[nodiscard]] Year year(Date today = kYearToday) const { return load_year(*store, today); }
};

inline const Table& table_of(const Reply& reply, const std::string& name) {
  for (const Table& table : reply.tables) {
    if (table.name == name) return table;
  }
  throw std::logic_error("no table " + name);
}

inline double number_in(const Cell& cell) {
  if (const auto* whole = std::get_if<std::int64_t>(&cell.value))
    return static_cast<double>(*whole);
  return std::get<double>(cell.value);
}

inline double column_sum(const Table& table, const std::string& name) {
  std::size_t at = 0;
  while (table.columns.at(at).name != name) ++at;
  double sum = 0;
  for (const auto& row : table.rows) {
    if (!std::holds_alternative<std::monostate>(row[at].value)) sum += number_in(row[at]);
  }
  return sum;
}

/// Every message of a reply.
inline std::vector<Message> messages_of(const Reply& reply) {
  std::vector<Message> all = {reply.answer};
  for (const LetterPart& part : reply.parts) {
    all.push_back(part.heading);
    all.insert(all.end(), part.sentences.begin(), part.sentences.end());
  }
  for (const Table& table : reply.tables) {
    all.push_back(table.caption);
    for (const Column& column : table.columns) all.push_back(column.heading);
    for (const auto& row : table.rows) {
      for (const Cell& cell : row) {
        if (const auto* message = std::get_if<Message>(&cell.value)) all.push_back(*message);
      }
    }
  }
  for (const Chart& chart : reply.charts) {
    all.insert(all.end(), {chart.caption, chart.x_label, chart.y_label});
    for (const Curve& curve : chart.curves) all.push_back(curve.label);
  }
  for (const Finding& finding : reply.findings) all.push_back(finding.message);
  for (const WorkingsNode& node : reply.workings.nodes()) all.push_back(node.label);
  return all;
}

inline void expect_sound(const Reply& reply) {
  EXPECT_EQ(nodes_that_do_not_hold(reply.workings, all_formulas()), std::vector<std::string>{});
  for (const Message& message : messages_of(reply)) {
    for (const auto& [argument, key] : message.opens)
      EXPECT_NE(reply.workings.find(key), nullptr) << message.key << " " << argument << " " << key;
  }
  for (const Table& table : reply.tables) {
    for (const auto& row : table.rows) {
      EXPECT_EQ(row.size(), table.columns.size()) << table.name;
      for (const Cell& cell : row) {
        if (cell.opens.empty()) continue;
        const WorkingsNode* node = reply.workings.find(cell.opens);
        ASSERT_NE(node, nullptr) << table.name << " " << cell.opens;
        if (const auto* value = std::get_if<double>(&cell.value)) {
          EXPECT_NEAR(node->value, *value, 1e-9 * std::max(1.0, std::abs(node->value)))
              << cell.opens;
        }
      }
      for (const Cell& cell : row)
        EXPECT_FALSE(std::holds_alternative<double>(cell.value) && cell.opens.empty())
            << table.name << ": a number that does not open";
    }
  }
  for (const Language language : {Language::en, Language::id}) {
    const Words words(language);
    for (const Message& message : messages_of(reply)) {
      if (message.key.empty()) continue;
      const std::string text = words.text(message);
      EXPECT_EQ(text.find_first_of("{}["), std::string::npos) << text;
    }
  }
}

}  // namespace wildling::plan
