#include "nursery/stages.hpp"

#include <cmath>
#include <fstream>
#include <sstream>

#include <gtest/gtest.h>

#include "base/csv.hpp"
#include "base/error.hpp"
#include "species/library.hpp"

namespace wildling::nursery {
namespace {

const Parameters& shipped() {
  static const Parameters parameters = Parameters::shipped();
  return parameters;
}

CsvTable reference(const std::string& name) {
  std::ifstream file(std::string(WILDLING_REFERENCE) + "/" + name + "/data.csv");
  std::stringstream text;
  text << file.rdbuf();
  return parse_csv_table(text.str());
}

double cell(const CsvTable& table, const CsvRow& row, std::string_view column) {
  return parse_number(row.cells.at(*table.column(column))).value();
}

// Siyag (2014), Table 2.3: all seven rows, to the printed digits.
TEST(MeanYield, ReproducesTheSevenRowsOfSiyag2014) {
  const CsvTable table = reference("siyag_2014");
  ASSERT_EQ(table.rows.size(), 7U);
  for (const CsvRow& row : table.rows) {
    SCOPED_TRACE(row.cells[0]);
    std::vector<StageUsed> stages(4);
    const std::array columns = {"propagation_loss_pct", "bed_loss_pct", "grade_out_pct",
                                "transport_loss_pct"};
    for (std::size_t i = 0; i < 4; ++i) stages[i].mean = 1 - cell(table, row, columns[i]) / 100;
    EXPECT_NEAR(100 * mean_yield(stages), cell(table, row, "yield_pct"), 0.005);
    EXPECT_NEAR(1 / mean_yield(stages), cell(table, row, "ratio"), 0.005);
  }
}

// Siyag (2014), Figure 2.9: 10 000 cuttings give 5 130 plants; with luck out of play the order
// needs just these.
TEST(SmallestCount, IsTheMeanCaseOfSiyagFigure29WithoutLuck) {
  const std::vector<stat::Stage> stages = {{.6, 0}, {.9, 0}, {1, 0}, {.95, 0}};
  const auto yield = stat::product_of_stages(stages);
  EXPECT_NEAR(10000 * yield.mean(), 5130, 1e-8);
  EXPECT_NEAR(static_cast<double>(stat::smallest_count(5130, yield, 0.5)), 10000, 2);
}

// tests/reference/loss_chain: sums over every stage, made without our code; and the smallest
// numbers for 50 and 200.
TEST(ShippedStages, ReproduceTheExactStageSums) {
  const auto yield = stat::product_of_stages(plain(stages_from_seed({}, shipped())));
  const CsvTable table = reference("loss_chain");
  ASSERT_EQ(table.rows.size(), 5U);
  for (const CsvRow& row : table.rows) {
    const auto need = static_cast<long long>(cell(table, row, "need"));
    const auto n = static_cast<long long>(cell(table, row, "n"));
    EXPECT_NEAR(stat::chance_of_enough(need, n, yield), cell(table, row, "chance"), 1e-4)
        << need << " of " << n;
  }
  EXPECT_EQ(stat::smallest_count(50, yield, 0.95), 254);
  EXPECT_EQ(stat::smallest_count(200, yield, 0.95), 993);
}

Order with_facts(const species::Species& s) {
  Order order;
  order.species = s.name();
  order.facts = &s;
  return order;
}

TEST(StagesFromSeed, UseTheSpeciesOwnGerminationAndItsSource) {
  species::Species s;
  s.scientific_name = "Madeupia inventa";
  ASSERT_FALSE(species::set_field(s, "germination_percent_low", "40",
                                  {Origin::documented, "", "Book, Bogor", "", "A"}));
  ASSERT_FALSE(species::set_field(s, "germination_percent_high", "80",
                                  {Origin::documented, "", "Book, Bogor", "", "A"}));
  const StageUsed used = stages_from_seed(with_facts(s), shipped())[1];
  EXPECT_DOUBLE_EQ(used.mean, 0.6);
  EXPECT_EQ(used.mean_origin, Origin::documented);
  EXPECT_EQ(used.mean_source, "Book, Bogor");
}

TEST(StagesFromSeed, ReadAWideGerminationRangeAsMuchSharedLuck) {
  species::Species s;
  s.germination_low_pct = 5;
  s.germination_high_pct = 95;
  const StageUsed used = stages_from_seed(with_facts(s), shipped())[1];
  EXPECT_NEAR(used.correlation, 0.225 * 0.225 / 0.25, 1e-12);  // sd = range / 4
}

TEST(StagesFromSeed, DoNotBelieveAHundredPercent) {
  species::Species s;
  s.germination_low_pct = 100;
  EXPECT_DOUBLE_EQ(stages_from_seed(with_facts(s), shipped())[1].mean, 0.98);
}

TEST(StagesFromSeed, LetWhatIsToldBeatTheBook) {
  species::Species s;
  s.germination_low_pct = 40;
  Order order = with_facts(s);
  order.told = {{StageName::germination, 0.8, {}, Origin::told, "nursery head, May"}};
  const StageUsed used = stages_from_seed(order, shipped())[1];
  EXPECT_DOUBLE_EQ(used.mean, 0.8);
  EXPECT_EQ(used.mean_origin, Origin::told);
}

TEST(StagesFromSeed, RefuseAToldShareAboveOne) {
  Order order;
  order.told = {{StageName::grading, 1.2, {}, Origin::told, ""}};
  EXPECT_THROW(stages_from_seed(order, shipped()), Error);
}

TEST(StageFromRecord, MovesFromTheBookToTheRecordAsBatchesCome) {
  const double book = shipped().value("nursery.stage.germination.mean");
  double last = book;
  for (int batches = 1; batches <= 20; ++batches) {
    const std::vector<BatchRecord> record(static_cast<std::size_t>(batches), {1000, 300});
    const ToldStage told = stage_from_record(StageName::germination, record, shipped(), "own");
    EXPECT_LT(told.mean, last);
    EXPECT_GT(told.mean, 0.3);
    last = told.mean;
  }
  EXPECT_NEAR(last, 0.3 + (book - 0.3) / 21, 0.003);  // the book is one batch among 21
}

TEST(StageFromRecord, IsMoreUncertainWithFewBatches) {
  const std::vector<BatchRecord> one(1, {500, 300});
  const std::vector<BatchRecord> ten(10, {500, 300});
  EXPECT_GT(*stage_from_record(StageName::germination, one, shipped(), "").correlation,
            *stage_from_record(StageName::germination, ten, shipped(), "").correlation);
}

TEST(StageFromRecord, RefusesMoreOutThanIn) {
  const std::vector<BatchRecord> bad(1, {10, 11});
  EXPECT_THROW(stage_from_record(StageName::grading, bad, shipped(), "own"), Error);
}

}  // namespace
}  // namespace wildling::nursery
