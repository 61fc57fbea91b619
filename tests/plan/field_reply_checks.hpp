#pragma once
// What every reply must hold: sentences in both languages, numbers that open, workings that
// evaluate.
#include <gtest/gtest.h>

#include "base/words.hpp"
#include "plan/chain.hpp"
#include "plan/reply.hpp"

namespace wildling::plan {

inline void expect_sentence(const Message& message) {
  static const Words languages[] = {Words(Language::en), Words(Language::id)};
  for (const Words& words : languages) {
    const std::string said = words.text(message);
    EXPECT_EQ(said.find("[" + message.key), std::string::npos) << said;
    EXPECT_EQ(said.find('{'), std::string::npos) << said;
    EXPECT_FALSE(said.empty()) << message.key;
  }
}

inline void expect_opens(const Reply& reply, const Message& message) {
  for (const auto& [argument, key] : message.opens) {
    EXPECT_TRUE(message.arguments.contains(argument)) << message.key << " " << argument;
    EXPECT_NE(reply.workings.find(key), nullptr) << message.key << " " << key;
  }
}

inline void expect_sound(const Reply& reply) {
  const Formulas formulas = all_formulas();
  EXPECT_EQ(nodes_that_do_not_hold(reply.workings, formulas), std::vector<std::string>{});
  expect_sentence(reply.answer);
  expect_opens(reply, reply.answer);
  for (const LetterPart& part : reply.parts) {
    expect_sentence(part.heading);
    for (const Message& sentence : part.sentences) {
      expect_sentence(sentence);
      expect_opens(reply, sentence);
    }
  }
  for (const Table& table : reply.tables) {
    expect_sentence(table.caption);
    for (const Column& column : table.columns) expect_sentence(column.heading);
    for (const auto& row : table.rows) {
      ASSERT_EQ(row.size(), table.columns.size()) << table.name;
      for (const Cell& cell : row) {
        if (const auto* message = std::get_if<Message>(&cell.value)) expect_sentence(*message);
        if (!cell.opens.empty()) {
          EXPECT_NE(reply.workings.find(cell.opens), nullptr) << table.name << " " << cell.opens;
        }
        if (std::holds_alternative<double>(cell.value)) {
          EXPECT_TRUE(!cell.opens.empty() || table.name == "aside") << table.name;
        }
      }
    }
  }
  for (const Finding& finding : reply.findings) expect_sentence(finding.message);
  for (const WorkingsNode& node : reply.workings.nodes()) expect_sentence(node.label);
}

/// The table of a reply; a test fails when there is none.
inline const Table& table_of(const Reply& reply, const std::string& name) {
  for (const Table& table : reply.tables) {
    if (table.name == name) return table;
  }
  static const Table none;
  ADD_FAILURE() << "no table " << name << " in " << reply.name;
  return none;
}

inline double number_in(const Cell& cell) {
  if (const auto* real = std::get_if<double>(&cell.value)) return *real;
  if (const auto* whole = std::get_if<std::int64_t>(&cell.value))
    return static_cast<double>(*whole);
  return std::nan("");
}

}  // namespace wildling::plan
