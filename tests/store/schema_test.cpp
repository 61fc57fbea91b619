#include <cstdlib>
#include <regex>

#include <gtest/gtest.h>

#include "base/files.hpp"
#include "helpers.hpp"
#include "store/describe.hpp"

namespace wildling::store {
namespace {

TEST(FileFormat, PageSaysWhatTheTablesAre) {
  const std::string path = std::string(WILDLING_SOURCE) + "/docs/file-format.md";
  const std::string page = file_format_page(shipped_schema());
  if (std::getenv("UPDATE_GOLDEN") != nullptr) write_file(path, page);
  EXPECT_EQ(read_file(path), page) << "run with UPDATE_GOLDEN=1 and commit the page";
}

TEST(Schema, EveryTableAndColumnIsExplained) {
  for (const TableDef& table : tables_of(shipped_schema(), newest_version(shipped_schema()))) {
    EXPECT_FALSE(table.title.empty() || table.writer.empty()) << table.name;
    for (const Column& column : all_columns(table))
      EXPECT_FALSE(column.meaning.empty()) << table.name << "." << column.name;
  }
}

TEST(Schema, NamesNeedNoQuoting) {
  const std::regex plain("[a-z][a-z0-9_]*");
  for (const TableDef& table : tables_of(shipped_schema(), newest_version(shipped_schema()))) {
    EXPECT_TRUE(std::regex_match(table.name, plain)) << table.name;
    for (const Column& column : all_columns(table))
      EXPECT_TRUE(std::regex_match(column.name, plain)) << column.name;
  }
}

TEST(Schema, EveryIndexNamesColumnsThatAreThere) {
  for (const TableDef& table : tables_of(shipped_schema(), newest_version(shipped_schema()))) {
    const auto columns = all_columns(table);
    for (const Index& index : table.indexes) {
      for (const std::string& name : index.columns) {
        EXPECT_TRUE(std::any_of(columns.begin(), columns.end(),
                                [&](const Column& c) { return c.name == name; }))
            << table.name << "." << name;
      }
    }
  }
}

TEST(Schema, RefusesAColumnTwiceATableTwiceAndAColumnThatMustBeFilled) {
  Schema schema = shipped_schema();
  schema.push_back({2, "", {AddColumn{"sites", {"code", ColumnType::text, "", "", true}}}});
  EXPECT_THROW(tables_of(schema, 2), Error);
  schema.back().operations = {AddTable{TableDef{"sites", "", ""}}};
  EXPECT_THROW(tables_of(schema, 2), Error);
  schema.back().operations = {AddColumn{"sites", {"must", ColumnType::text, "", "", false}}};
  EXPECT_THROW(tables_of(schema, 2), Error);
}

}  // namespace
}  // namespace wildling::store
