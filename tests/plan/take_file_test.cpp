// Taking in a file, the way every face does it.
#include "plan/take_file.hpp"

#include <gtest/gtest.h>

#include "invented_programme.hpp"

namespace wildling::plan {
namespace {

constexpr const char* kSquareField =
    R"({"type":"Feature","properties":{"name":"Field","cover":"moon dust"},
  "geometry":{"type":"Polygon","coordinates":[[[113.28,-0.83],[113.281,-0.83],[113.281,-0.829],[113.28,-0.829],[113.28,-0.83]]]}})";

TEST(TakeFile, BytesOfABoundaryBecomeASiteAndASentence) {
  Rehearsal outside(Seed{1});
  const auto store = store::in_memory(outside);
  start_programme(*store, "Test (invented)", {}, kTester);
  const ReadFile read =
      read_to_take("boundary", TakeSource::upload("../evil/field.geojson", kSquareField), {});
  EXPECT_EQ(read.record.name, "field.geojson");
  ASSERT_TRUE(read.keep);
  const Message message = read.keep(*store, kTester);
  EXPECT_EQ(message.key, "plan.take.boundary");
  EXPECT_EQ(store->count("sites"), 1);
  EXPECT_EQ(store->count("imports"), 1);
}

TEST(TakeFile, AnUnknownCoverIsAFindingOfTheIntake) {
  const ReadFile read =
      read_to_take("boundary", TakeSource::upload("field.geojson", kSquareField), {});
  bool found = false;
  for (const Finding& finding : read.record.findings)
    found = found || finding.message.key == "intake.cover_unknown";
  EXPECT_TRUE(found);
}

TEST(TakeFile, ReadingAloneChangesNothing) {
  Rehearsal outside(Seed{1});
  const auto store = store::in_memory(outside);
  start_programme(*store, "Test (invented)", {}, kTester);
  const auto before = store->data_version();
  read_to_take("weather", TakeSource::upload("rain.csv", "date,rain\n2024-01-01,3\n"), {});
  EXPECT_EQ(store->data_version(), before);
}

TEST(TakeFile, AnUnknownKindNamesTheKnownOnes) {
  try {
    read_to_take("moon", TakeSource::upload("x", "y"), {});
    FAIL();
  } catch (const Error& error) {
    EXPECT_EQ(error.kind(), ErrorKind::usage);
    EXPECT_EQ(error.message().arguments.at("known"),
              Argument{"boundary, water, weather, species, elevation"});
  }
}

TEST(TakeFile, NothingUsableIsRefusedByName) {
  ReadFile read;
  read.record.name = "empty.csv";
  EXPECT_THROW(read.refuse_if_empty(), Error);
}

TEST(TakeFile, AColumnWithoutAHeaderIsRefused) {
  TakeOptions options;
  options.columns = {"rain"};
  EXPECT_THROW(
      read_to_take("weather", TakeSource::upload("rain.csv", "date,rain\n2024-01-01,3\n"), options),
      Error);
}

}  // namespace
}  // namespace wildling::plan
