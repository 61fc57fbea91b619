#include "export/table.hpp"

#include <cmath>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "base/csv.hpp"
#include "base/error.hpp"
#include "base/files.hpp"
#include "base/formula_guard.hpp"
#include "help.hpp"

namespace wildling::exports {
namespace {

Table notes() {
  Table table;
  table.name = "notes";
  table.columns = {{.name = "note"}, {.name = "change_cm"}, {.name = "temperature_c"}};
  for (const char* note : {"=HYPERLINK(\"http://x\",\"y\")", "-2+3", "@lot"}) {
    TableRow row;
    row.cells = {std::string(note), -0.5, 2.1};
    table.rows.push_back(row);
  }
  return table;
}

TEST(CsvExport, NeutralisesNotesKeepsNumbersAndGivesTheTextBack) {
  const Table table = notes();
  const CsvTable read = parse_csv_table(csv_text(table));
  ASSERT_EQ(read.rows.size(), 3U);
  for (std::size_t r = 0; r < 3; ++r) {
    const std::string& cell = read.rows[r].cells[0];
    EXPECT_EQ(cell.front(), '\'') << cell;
    EXPECT_EQ(unneutralise(cell), std::get<std::string>(table.rows[r].cells[0]));
    EXPECT_EQ(parse_number(read.rows[r].cells[1]), -0.5);
    EXPECT_EQ(parse_number(read.rows[r].cells[2]), 2.1);
  }
}

TEST(CsvExport, EndsLinesWithCrLfAndQuotesAsRfc4180Says) {
  Table table;
  table.columns = {{.name = "a"}, {.name = "b"}};
  table.rows.push_back({.cells = {std::string("x,\"y\"\nz"), Cell()}, .sensitive = {}});
  EXPECT_EQ(csv_text(table), "a,b\r\n\"x,\"\"y\"\"\nz\",\r\n");
}

TEST(CsvExport, ASingleEmptyCellIsNotABlankLine) {
  Table table;
  table.columns = {{.name = "a"}};
  table.rows.push_back({.cells = {Cell()}, .sensitive = {}});
  EXPECT_EQ(csv_text(table), "a\r\n\"\"\r\n");
}

TEST(CsvExport, NumbersReadBackToTheSameBitsAndNaNIsEmpty) {
  Table table;
  table.columns = {{.name = "a"}, {.name = "b"}, {.name = "c"}, {.name = "day"}};
  table.rows.push_back(
      {.cells = {0.1 + 0.2, std::nan(""), std::int64_t{-7}, make_date(2026, 11, 25)},
       .sensitive = {}});
  const CsvTable read = parse_csv_table(csv_text(table));
  EXPECT_EQ(parse_number(read.rows[0].cells[0]), 0.1 + 0.2);
  EXPECT_EQ(read.rows[0].cells[1], "");
  EXPECT_EQ(read.rows[0].cells[2], "-7");
  EXPECT_EQ(read.rows[0].cells[3], "2026-11-25");
}

TEST(CsvExport, ACellThatASemicolonSpreadsheetWouldRunIsNeutralisedToo) {
  const std::string note = "wet;=HYPERLINK(1)";
  const std::string safe = neutralise(note);
  EXPECT_EQ(safe, "wet;'=HYPERLINK(1)");
  EXPECT_EQ(unneutralise(safe), note);
}

Table trees() {
  Table table;
  table.name = "mother_trees";
  table.columns = {{.name = "tree"},
                   {.name = "finder", .holds = Holds::plain, .sensitive = Sensitive::names},
                   {.name = "lon_deg", .holds = Holds::longitude},
                   {.name = "lat_deg", .holds = Holds::latitude}};
  table.rows.push_back(
      {.cells = {std::string("M1"), std::string("Ayu"), 113.4567, -0.8123}, .sensitive = {}});
  table.rows.push_back({.cells = {std::string("M2"), std::string("Budi"), 113.4571, -0.8199},
                        .sensitive = Sensitive::mother_trees});
  return table;
}

TEST(SensitiveTable, LeavesNamesAndTradedMotherTreesOut) {
  const std::string text = csv_text(fit_to_leave(trees(), {}, {}, english()));
  EXPECT_EQ(text, "tree,lon_deg,lat_deg\r\nM1,113.4567,-0.8123\r\n");
}

TEST(SensitiveTable, CoarsensWhatIsSwitchedOnAndNothingElse) {
  ExportRules rules;
  rules.mother_trees = true;
  rules.reason = "seed permit";
  const std::string text = csv_text(fit_to_leave(trees(), {}, rules, english()));
  EXPECT_EQ(text, "tree,lon_deg,lat_deg\r\nM1,113.4567,-0.8123\r\nM2,113.45,-0.85\r\n");
}

TEST(SensitiveTable, TheNoteTellsWhatIsInWhatIsOutAndWhy) {
  ExportRules rules;
  rules.mother_trees = true;
  rules.reason = "seed permit";
  std::string note;
  for (const Message& message : contents_note(trees(), {}, rules))
    note += english().text(message) + "\n";
  EXPECT_NE(note.find("2 rows"), std::string::npos) << note;
  EXPECT_NE(note.find("People's names are left out"), std::string::npos) << note;
  EXPECT_NE(note.find("Mother trees of traded species are in the file. Reason given: seed permit"),
            std::string::npos)
      << note;
  EXPECT_NE(note.find("rounded to 0.1 degrees"), std::string::npos) << note;
}

TEST(SensitiveTable, WithoutReasonNothingLeaves) {
  ExportRules rules;
  rules.names = true;
  EXPECT_THROW((void)fit_to_leave(trees(), {}, rules, english()), Error);
}

TEST(Draft, OfficeTablesMarkRowsOfClosedBlocks) {
  const Site site;
  const CsvTable read = parse_csv_table(
      csv_text(fit_to_leave(blocks_table(site.blocks), gates_of(site.blocks), {}, english())));
  const auto status = read.column("status");
  ASSERT_TRUE(status);
  EXPECT_EQ(read.rows[0].cells[*status], "");
  EXPECT_EQ(read.rows[1].cells[*status], "draft, not for crews");
}

TEST(Draft, PlantingAndCrewListsOfClosedBlocksAreRefused) {
  const Site site;
  const GateBook gates = gates_of(site.blocks);
  EXPECT_THROW((void)fit_to_leave(planting_table(site.blocks, site.species), gates, {}, english()),
               Error);
  EXPECT_THROW((void)fit_to_leave(rows_table(site.blocks), gates, {}, english()), Error);
}

TEST(Draft, AListThatHidesAClosedBlockInARowIsRefused) {
  const Site site;
  Table list = planting_table(open_only(site.blocks), site.species);
  list.rows[0].cells[0] = std::string("B<2>");
  EXPECT_THROW((void)fit_to_leave(list, gates_of(site.blocks), {}, english()), Error);
}

TEST(PlantingTable, CountsEverySeedlingOnce) {
  const Site site;
  const Table list = planting_table(open_only(site.blocks), site.species);
  std::int64_t sum = 0;
  for (const TableRow& row : list.rows) sum += std::get<std::int64_t>(row.cells[3]);
  EXPECT_EQ(sum, site.first_species.planted);
}

TEST(RowsTable, IsInWholeCentimetres) {
  const Site site;
  const Table list = rows_table(open_only(site.blocks));
  ASSERT_EQ(list.rows.size(), site.first.rows.size());
  for (const TableRow& row : list.rows) {
    const double tape = std::get<double>(row.cells[2]);
    EXPECT_NEAR(tape * 100, std::round(tape * 100), 1e-6);
  }
}

TEST(JsonExport, KeepsOrderNumbersAndNulls) {
  Table table = notes();
  table.rows[0].cells[1] = std::nan("");
  const auto json = nlohmann::ordered_json::parse(json_text(table));
  EXPECT_EQ(json["table"], "notes");
  EXPECT_EQ(json["rows"][0]["note"], "=HYPERLINK(\"http://x\",\"y\")");
  EXPECT_TRUE(json["rows"][0]["change_cm"].is_null());
  EXPECT_EQ(json["rows"][1]["change_cm"], -0.5);
}

TEST(WriteCsv, RefusesToOverwriteUnlessTold) {
  const Folder folder;
  const std::string path = folder.file("a.csv");
  write_csv(path, notes(), {}, {}, english(), false);
  const std::string before = read_file(path);
  EXPECT_THROW(write_csv(path, trees(), {}, {}, english(), false), Error);
  EXPECT_EQ(read_file(path), before);
  write_csv(path, trees(), {}, {}, english(), true);
  EXPECT_NE(read_file(path), before);
  write_json(folder.file("a.json"), notes(), {}, {}, english(), false);
  EXPECT_EQ(folder.entries(), 2U);
}

TEST(WriteCsv, OnAFullDiskKeepsTheOldFileAndLeavesNoRest) {
  const Folder folder;
  const std::string path = folder.file("a.csv");
  write_csv(path, notes(), {}, {}, english(), false);
  const std::string before = read_file(path);
  Table large = notes();
  for (int i = 0; i < 2000; ++i) large.rows.push_back(large.rows[0]);
  {
    const SmallDisk disk(8192);
    EXPECT_THROW(write_csv(path, large, {}, {}, english(), true), Error);
  }
  EXPECT_EQ(read_file(path), before);
  EXPECT_EQ(folder.entries(), 1U);
}

}  // namespace
}  // namespace wildling::exports
