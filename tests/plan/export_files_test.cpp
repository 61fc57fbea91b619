#include "plan/export_files.hpp"

#include <filesystem>

#include <gtest/gtest.h>

#include "base/error.hpp"
#include "base/files.hpp"
#include "small_plan.hpp"

namespace wildling::plan {
namespace {

namespace fs = std::filesystem;

class ExportFiles : public ::testing::Test {
 protected:
  void SetUp() override {
    folder_ = fs::temp_directory_path() /
              ("wildling_" +
               std::string(::testing::UnitTest::GetInstance()->current_test_info()->name()));
    fs::remove_all(folder_);
  }

  void TearDown() override { fs::remove_all(folder_); }

  std::vector<std::string> write(const PlanResult& plan, bool overwrite = false) {
    return write_tables(plan, Parameters::shipped(), folder_.string(), words_, overwrite);
  }

  [[nodiscard]] std::string text(const std::string& name) const {
    return read_file((folder_ / name).string());
  }

  fs::path folder_;
  Words words_{Language::en};
};

PlanResult all_on_hold() {
  Programme programme = invented_programme();
  for (ground::Block& block : programme.blocks) block.gates.consent = {};
  return small_plan(programme);
}

bool lists(const std::vector<std::string>& names, const std::string& name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

TEST_F(ExportFiles, EveryNamedFileIsThere) {
  const auto names = write(small_plan());
  EXPECT_EQ(names.size(), 10U);
  for (const std::string& name : names) EXPECT_TRUE(fs::exists(folder_ / name)) << name;
}

TEST_F(ExportFiles, ListsForCrewsLeaveOutTheBlockOnHold) {
  write(small_plan());
  for (const char* name : {"planting.csv", "rows.csv", "work.csv", "seed.csv"})
    EXPECT_EQ(text(name).find("B3"), std::string::npos) << name;
  EXPECT_NE(text("planting.csv").find("B1"), std::string::npos);
}

TEST_F(ExportFiles, OfficeTableMarksTheBlockOnHoldAsDraft) {
  write(small_plan());
  EXPECT_NE(text("blocks.csv").find("draft, not for crews"), std::string::npos);
}

TEST_F(ExportFiles, PlanWithoutAnOpenBlockWritesNoList) {
  PlanResult plan = all_on_hold();
  plan.works.clear();
  const auto names = write(plan);
  for (const char* name : {"planting.csv", "rows.csv", "work.csv", "seed.csv"})
    EXPECT_FALSE(lists(names, name)) << name;
  EXPECT_TRUE(lists(names, "layers.gpkg"));
}

TEST_F(ExportFiles, SamePlanGivesTheSameBytes) {
  const auto names = write(small_plan());
  std::vector<std::string> first;
  for (const std::string& name : names) first.push_back(text(name));
  write(small_plan(), true);
  for (std::size_t i = 0; i < names.size(); ++i) EXPECT_EQ(text(names[i]), first[i]) << names[i];
}

TEST_F(ExportFiles, OneFileThatExistsStopsAllBeforeAnyIsWritten) {
  fs::create_directories(folder_);
  write_file((folder_ / "money.csv").string(), "kept");
  EXPECT_THROW(write(small_plan()), Error);
  EXPECT_EQ(text("money.csv"), "kept");
  EXPECT_FALSE(fs::exists(folder_ / "blocks.csv"));
}

TEST_F(ExportFiles, WorkOfABlockOnHoldIsLeftOutOfTheWorkList) {
  PlanResult plan = small_plan();
  plan.works.push_back(plan.works.front());
  plan.works.back().block = "B3";
  write(plan);
  EXPECT_EQ(text("work.csv").find("B3"), std::string::npos);
}

}  // namespace
}  // namespace wildling::plan
