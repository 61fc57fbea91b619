// What holds for the file alone: that others can read it, that it is closed cleanly, locked,
// refused or brought up to date.
#include <cstdlib>
#include <fstream>

#include <fcntl.h>
#include <gtest/gtest.h>
#include <signal.h>
#include <sys/resource.h>
#include <sys/wait.h>

#include "base/files.hpp"
#include "base/words.hpp"
#include "helpers.hpp"
#include "store/sqlite.hpp"

namespace wildling::store {
namespace {

class File : public testing::Test {
 protected:
  std::unique_ptr<Store> create() { return create_file(path_, outside_); }

  std::unique_ptr<Store> open(OpenMode mode = OpenMode::read_write) {
    return open_file(path_, mode, outside_);
  }

  std::string with_one_site() {
    const auto store = create();
    return store->apply(act({RowChange::insert("sites", site("A"))})).row_uids.at(0);
  }

  std::string opening(const std::string& path, OpenMode mode = OpenMode::read_only) {
    return refusal([&] { open_file(path, mode, outside_); });
  }

  Folder folder_;
  Rehearsal outside_{Seed{3}};
  std::string path_ = folder_.file("demo.gpkg");
};

/// Runs `work` in a child process; its return value is the exit code.
template <typename Work>
int in_child(Work&& work) {
  const pid_t child = ::fork();
  if (child == 0) {
    int code = 99;
    try {
      code = work();
    } catch (const std::exception& error) {
      std::fprintf(stderr, "child: %s\n", error.what());
    }
    ::_exit(code);
  }
  int status = 0;
  ::waitpid(child, &status, 0);
  return WIFEXITED(status) ? WEXITSTATUS(status) : 200;
}

// ---- others can read it

int validated(const std::string& path) {
  const std::string command =
      "/usr/bin/python3 -m osgeo_utils.samples.validate_gpkg '" + path + "' >&2";
  return std::system(command.c_str());
}

TEST_F(File, IsAValidGeoPackageForDebiansValidator) {
  ASSERT_EQ(std::system("/usr/bin/python3 -c 'import osgeo_utils.samples.validate_gpkg'"), 0)
      << "install python3-gdal: this check must not be skipped";
  {
    const auto store = create();
    ChangeSet changes = act(
        {RowChange::insert("sites", site("A")),
         RowChange::insert("stations", {{"name", "S"}, {"geom", encode(Position{117, -1})}}),
         RowChange::insert("water_lines", {{"geom", encode(LineString{{{117, -1}, {117.1, -1}}})}}),
         RowChange::insert(
             "gate_answers",
             {{"block_uid", "b"}, {"gate", "consent"}, {"answer", "yes"}, {"day", "2026-11-25"}})});
    DerivedRows points;
    points.table = "seedlings";
    points.columns = {"geom", "plan_number", "block_code", "row", "number", "species"};
    points.write = [](RowSink& sink) {
      sink.add(std::vector<Value>{encode(Position{117, -1}), from(1), "B1", from(1), from(1),
                                  "Vitex pinnata"});
    };
    changes.derived = {points};
    store->apply(changes);
  }
  EXPECT_EQ(validated(path_), 0);
}

TEST_F(File, ListsEveryTableForAGis) {
  const auto store = create();
  Connection file(path_, Connection::Mode::read_only);
  for (const TableDef& table : store->tables()) {
    EXPECT_EQ(file.ask("SELECT identifier FROM gpkg_contents WHERE table_name = ?", {table.name}),
              Value(table.title));
  }
}

TEST_F(File, HasTheApplicationIdAndVersionOfGeoPackage13) {
  create();
  Connection file(path_, Connection::Mode::read_only);
  EXPECT_EQ(file.ask("PRAGMA application_id"), Value(std::int64_t{0x47504B47}));  // "GPKG"
  EXPECT_EQ(file.ask("PRAGMA user_version"), Value(std::int64_t{10300}));
}

std::vector<double> extent(const std::string& path, const std::string& table) {
  Connection file(path, Connection::Mode::read_only);
  std::vector<double> sides;
  for (const char* side : {"min_x", "min_y", "max_x", "max_y"}) {
    const Value value = file.ask(
        std::string("SELECT ") + side + " FROM gpkg_contents WHERE table_name = ?", {table});
    if (const auto* real = std::get_if<double>(&value)) sides.push_back(*real);
  }
  return sides;
}

TEST_F(File, KeepsTheExtentOfALayerUpToDate) {
  const auto store = create();
  const auto uids = store->apply(act({RowChange::insert("sites", site("A", 110, -2)),
                                      RowChange::insert("sites", site("B", 112, 1))}));
  EXPECT_EQ(extent(path_, "sites"), (std::vector<double>{110, -2, 112.01, 1.01}));
  store->apply(act({RowChange::remove("sites", uids.row_uids[1], 1)}));
  EXPECT_EQ(extent(path_, "sites"), (std::vector<double>{110, -2, 110.01, -1.99}));
  store->apply(act({RowChange::remove("sites", uids.row_uids[0], 1)}));
  EXPECT_TRUE(extent(path_, "sites").empty());
}

TEST_F(File, RenewsTheExtentOfAReplacedPointLayer) {
  const auto store = create();
  const auto points_at = [&](double lon_deg) {
    ChangeSet changes = act({});
    DerivedRows points;
    points.table = "seedlings";
    points.columns = {"geom", "plan_number", "block_code", "row", "number", "species"};
    points.write = [lon_deg](RowSink& sink) {
      sink.add(std::vector<Value>{encode(Position{lon_deg, 0}), from(1), "B1", from(1), from(1),
                                  "Vitex pinnata"});
    };
    changes.derived = {points};
    return changes;
  };
  store->apply(points_at(100));
  store->apply(points_at(101));
  EXPECT_EQ(extent(path_, "seedlings"), (std::vector<double>{101, 0, 101, 0}));
}

// A GIS may add a spatial index; its triggers call ST_ functions, and once made every later save
// fail.
TEST_F(File, StillSavesAfterAGisAddedASpatialIndex) {
  const std::string uid = with_one_site();
  ASSERT_EQ(std::system(("ogrinfo -q -update '" + path_ +
                         "' -sql \"SELECT CreateSpatialIndex('sites', 'geom')\" >&2")
                            .c_str()),
            0);
  {
    const auto store = open();
    store->apply(act({RowChange::update("sites", uid, 1, {{"geom", square(10, 10)}}),
                      RowChange::insert("sites", site("B", 20, 20))}));
  }
  EXPECT_EQ(validated(path_), 0);
  Connection file(path_, Connection::Mode::read_only);
  EXPECT_EQ(file.ask("SELECT count(*) FROM rtree_sites_geom WHERE minx >= 9.9 AND maxx <= 20.1"),
            Value(std::int64_t{2}));
}

// ---- closing, and folders that cannot be written to

TEST_F(File, IsOneFileAfterACleanClose) {
  with_one_site();
  std::size_t files = 0;
  for ([[maybe_unused]] const auto& entry : std::filesystem::directory_iterator(folder_.path()))
    ++files;
  EXPECT_EQ(files, 1U);
  EXPECT_EQ(read_file(path_)[18], 1);  // byte 18 of the header: 1 = no write-ahead log
}

TEST_F(File, IsWrittenWithFullSynchronisation) {
  const auto store = create();
  EXPECT_EQ(read_file(path_)[18], 2);  // 2 = write-ahead log, while it is open
}

int count_sites_as_nobody(const std::string& path) {
  if (::geteuid() == 0 && (::setgid(65534) != 0 || ::setuid(65534) != 0)) return 90;
  Rehearsal outside{Seed{1}};
  const auto store = open_file(path, OpenMode::read_only, outside);
  return static_cast<int>(store->count("sites"));
}

TEST_F(File, OpensFromAWriteProtectedFolder) {
  with_one_site();
  ::chmod(path_.c_str(), 0444);
  ::chmod(folder_.path().c_str(), 0555);
  EXPECT_EQ(in_child([&] { return count_sites_as_nobody(path_); }), 1);
}

TEST_F(File, SaysThatAWriteProtectedFileCannotBeChanged) {
  with_one_site();
  ::chmod(path_.c_str(), 0444);
  ::chmod(folder_.path().c_str(), 0555);
  const int code = in_child([&] {
    if (::geteuid() == 0 && (::setgid(65534) != 0 || ::setuid(65534) != 0)) return 90;
    return refusal([&] { open(); }) == "store.cannot_open_for_writing" ? 0 : 1;
  });
  EXPECT_EQ(code, 0);
}

TEST_F(File, SaysWhatToDoWithAnUncleanFileOnAWriteProtectedStick) {
  with_one_site();
  std::ofstream(path_ + "-wal") << "left over";
  ::chmod(folder_.path().c_str(), 0555);
  const int code = in_child([&] {
    if (::geteuid() == 0 && (::setgid(65534) != 0 || ::setuid(65534) != 0)) return 90;
    return opening(path_) == "store.not_closed_cleanly" ? 0 : 1;
  });
  EXPECT_EQ(code, 0);
}

TEST_F(File, LeavesEveryByteWhenOpenedForReading) {
  with_one_site();
  const std::string before = read_file(path_);
  {
    const auto store = open(OpenMode::read_only);
    EXPECT_EQ(refusal([&] { store->apply(act({})); }), "store.read_only");
    EXPECT_EQ(store->count("sites"), 1);
  }
  EXPECT_EQ(read_file(path_), before);
}

TEST_F(File, CanBeReadWhileItIsWrittenTo) {
  const auto writer = create();
  const auto reader = open(OpenMode::read_only);
  writer->apply(act({RowChange::insert("sites", site("A"))}));
  EXPECT_EQ(reader->count("sites"), 1);
  EXPECT_EQ(reader->data_version(), writer->data_version());
}

TEST_F(File, KeepsLogAndRowsFromOneOpeningToTheNext) {
  const std::string uid = with_one_site();
  const auto store = open();
  const auto sets = store->change_sets();
  ASSERT_EQ(sets.size(), 1U);
  store->undo(sets[0].uid, "Sari", "page");
  EXPECT_FALSE(store->row("sites", uid));
}

// ---- the lock

TEST_F(File, NamesTheMachineAndProcessThatHasItOpen) {
  const auto store = create();
  try {
    open();
    FAIL() << "two writers";
  } catch (const Error& error) {
    EXPECT_EQ(error.message().key, "store.locked");
    EXPECT_EQ(std::get<std::string>(error.message().arguments.at("process")),
              std::to_string(::getpid()));
    EXPECT_FALSE(std::get<std::string>(error.message().arguments.at("machine")).empty());
  }
}

TEST_F(File, IsLockedForAnotherNameOfTheSameFile) {
  const auto store = create();
  std::filesystem::create_symlink(path_, folder_.file("other.gpkg"));
  EXPECT_EQ(opening(folder_.file("other.gpkg"), OpenMode::read_write), "store.locked");
}

TEST_F(File, OpensAfterAProcessThatDiedWithTheLock) {
  create();
  const int code = in_child([&] {
    auto store = open();
    static_cast<void>(store.release());  // dies without closing
    return 0;
  });
  ASSERT_EQ(code, 0);
  EXPECT_TRUE(std::filesystem::exists(path_ + ".lock"));
  EXPECT_EQ(opening(path_, OpenMode::read_write), "");
}

// ---- what is no programme

TEST_F(File, RefusesWhatIsNoProgramme) {
  const auto write = [&](const char* name, const std::string& bytes) {
    write_file(folder_.file(name), bytes);
    return folder_.file(name);
  };
  EXPECT_EQ(opening(folder_.file("none.gpkg")), "base.file_missing");
  EXPECT_EQ(opening(folder_.path().string()), "base.file_is_folder");
  EXPECT_EQ(opening(write("empty.gpkg", "")), "store.not_a_programme");
  EXPECT_EQ(opening(write("text.gpkg", "date,rain_mm\n2026-01-01,3\n" + std::string(200, ' '))),
            "store.not_a_programme");
  EXPECT_EQ(opening(write("short.gpkg", "SQLite format 3")), "store.not_a_programme");
}

TEST_F(File, RefusesAnotherSqliteDatabaseAndAnotherGeoPackage) {
  const std::string plain = folder_.file("plain.db");
  const std::string gis = folder_.file("gis.gpkg");
  Connection(plain, Connection::Mode::create).run("CREATE TABLE schema_versions (version INTEGER)");
  Connection(gis, Connection::Mode::create)
      .run("PRAGMA application_id=0x47504B47; CREATE TABLE parcels (id INTEGER)");
  EXPECT_EQ(opening(plain), "store.not_a_programme");
  EXPECT_EQ(opening(gis), "store.not_a_programme");
  EXPECT_EQ(opening(gis, OpenMode::read_write), "store.not_a_programme");
}

TEST_F(File, LeavesAFileThatIsNoProgrammeUntouched) {
  const std::string gis = folder_.file("gis.gpkg");
  Connection(gis, Connection::Mode::create)
      .run("PRAGMA application_id=0x47504B47; CREATE TABLE parcels (id INTEGER)");
  const std::string before = read_file(gis);
  opening(gis, OpenMode::read_write);
  EXPECT_EQ(read_file(gis), before);
  EXPECT_FALSE(std::filesystem::exists(gis + ".lock"));
}

TEST_F(File, SaysThatADamagedFileIsDamaged) {
  with_one_site();
  std::string bytes = read_file(path_);
  for (std::size_t i = 100; i < bytes.size(); ++i) bytes[i] = '\x5a';
  write_file(path_, bytes);
  EXPECT_EQ(opening(path_), "store.damaged");
}

TEST_F(File, FindsDamageInAPageOfData) {
  with_one_site();
  std::string bytes = read_file(path_);
  for (std::size_t i = bytes.size() - 8192; i < bytes.size(); ++i) bytes[i] = '\x5a';
  write_file(path_, bytes);
  std::size_t found = 0;
  try {
    found = open(OpenMode::read_only)->damage().size();
  } catch (const Error& error) {
    EXPECT_EQ(error.message().key, "store.damaged");
    found = 1;
  }
  EXPECT_GT(found, 0U);
}

TEST_F(File, IsNotMadeOverAFileThatExists) {
  write_file(path_, "precious");
  EXPECT_EQ(refusal([&] { create(); }), "base.file_exists");
  EXPECT_EQ(read_file(path_), "precious");
}

TEST_F(File, LeavesNothingBehindWhenItCannotBeMade) {
  EXPECT_EQ(refusal([&] { create_file(folder_.file("no/such/folder.gpkg"), outside_); }),
            "base.file_not_written");
  EXPECT_TRUE(std::filesystem::is_empty(folder_.path()));
}

// ---- versions

Schema next_version() {
  Schema schema = shipped_schema();
  TableDef census{"censuses", "Censuses", "tests"};
  census.columns = {{"day", ColumnType::date, "", "day", false}};
  schema.push_back({newest_version(schema) + 1,
                    "Censuses",
                    {AddTable{census},
                     AddColumn{"sites", {"owner_note", ColumnType::text, "", "a test", true}}}});
  return schema;
}

TEST_F(File, BringsAnOlderFileUpToDateAndKeepsACopy) {
  const std::string uid = with_one_site();
  const Schema schema = next_version();
  const auto store = open_file(path_, OpenMode::read_write, outside_, schema);
  EXPECT_EQ(store->schema_version(), newest_version(schema));
  ASSERT_EQ(store->findings().size(), 1U);
  EXPECT_EQ(store->findings()[0].message.key, "store.migrated");
  store->apply(act({RowChange::insert("censuses", {{"day", "2026-01-01"}}),
                    RowChange::update("sites", uid, 1, {{"owner_note", "x"}})}));
  EXPECT_EQ(text_of(store->row("sites", uid).value(), "owner_note"), "x");
  const auto copy =
      open_file(folder_.file("demo.before-version-3.gpkg"), OpenMode::read_only, outside_);
  EXPECT_EQ(copy->schema_version(), newest_version(shipped_schema()));
  EXPECT_EQ(copy->count("sites"), 1);
}

TEST_F(File, StaysAValidGeoPackageAfterAMigration) {
  with_one_site();
  const Schema schema = next_version();
  open_file(path_, OpenMode::read_write, outside_, schema);
  EXPECT_EQ(validated(path_), 0);
}

TEST_F(File, UndoesWhatAnOlderVersionLogged) {
  const std::string uid = with_one_site();
  std::string removal;
  {
    const auto store = open();
    removal = store->apply(act({RowChange::remove("sites", uid, 1)})).uid;
  }
  const Schema schema = next_version();
  const auto store = open_file(path_, OpenMode::read_write, outside_, schema);
  store->undo(removal, "Sari", "page");
  EXPECT_TRUE(is_null(store->row("sites", uid).value(), "owner_note"));
}

TEST_F(File, ReadsAnOlderFileWithoutChangingIt) {
  const std::string uid = with_one_site();
  const std::string before = read_file(path_);
  const Schema schema = next_version();
  {
    const auto store = open_file(path_, OpenMode::read_only, outside_, schema);
    EXPECT_TRUE(is_null(store->row("sites", uid).value(), "owner_note"));
    EXPECT_EQ(store->count("sites", Filter{}.with("owner_note", Compare::null)), 1);
    EXPECT_TRUE(store->rows("censuses").empty());
  }
  EXPECT_EQ(read_file(path_), before);
}

TEST_F(File, OpensANewerFileForReadingOnlyAndSaysSo) {
  const Schema schema = next_version();
  create_file(path_, outside_, schema)->apply(act({RowChange::insert("sites", site("A"))}));
  const auto store = open();
  EXPECT_TRUE(store->read_only());
  EXPECT_EQ(store->findings().at(0).message.key, "store.newer");
  EXPECT_EQ(store->count("sites"), 1);
  EXPECT_EQ(refusal([&] { store->apply(act({})); }), "store.read_only");
}

// ---- a disk that fails

// A limit on file size stands for the full disk: the same write calls fail.
TEST_F(File, KeepsTheProgrammeWhenTheDiskIsFull) {
  with_one_site();
  const int code = in_child([&] {
    const auto store = open();
    const auto before = content(*store, true);
    ::signal(SIGXFSZ, SIG_IGN);
    const rlimit limit{400'000, 400'000};
    ::setrlimit(RLIMIT_FSIZE, &limit);
    ChangeSet changes = act({RowChange::insert("sites", site("B"))});
    for (int i = 0; i < 500; ++i) {
      changes.rows.push_back(RowChange::insert(
          "settings", {{"key", std::to_string(i)}, {"value", std::string(2000, 'x')}}));
    }
    try {
      store->apply(changes);
      return 1;
    } catch (const Error& error) {
      if (error.kind() != ErrorKind::io) return 2;
    }
    if (content(*store, true) != before) return 3;
    store->apply(act({RowChange::insert("sites", site("C"))}));  // a small change still fits
    return 0;
  });
  EXPECT_EQ(code, 0);
  const auto store = open();
  EXPECT_TRUE(store->damage().empty());
  EXPECT_EQ(store->count("sites"), 2);
}

TEST_F(File, CallsAFullDiskFull) {
  Connection file(folder_.file("full.db"), Connection::Mode::create);
  file.run("CREATE TABLE t (x BLOB); PRAGMA max_page_count=4");
  EXPECT_EQ(refusal([&] { file.run("INSERT INTO t VALUES (zeroblob(100000))"); }),
            "store.disk_full");
}

TEST_F(File, LeavesTheOldCopyWhenANewOneDoesNotFit) {
  with_one_site();
  const std::string copy = folder_.file("copy.gpkg");
  write_file(copy, "old copy");
  const int code = in_child([&] {
    const auto store = open(OpenMode::read_only);
    ::signal(SIGXFSZ, SIG_IGN);
    const rlimit limit{20'000, 20'000};
    ::setrlimit(RLIMIT_FSIZE, &limit);
    return refusal([&] { store->backup_to(copy, true); }).empty() ? 1 : 0;
  });
  EXPECT_EQ(code, 0);
  EXPECT_EQ(read_file(copy), "old copy");
  EXPECT_EQ(std::distance(std::filesystem::directory_iterator(folder_.path()), {}), 2);
}

TEST_F(File, EverySentenceOfTheStoreExistsInBothLanguages) {
  const Words en(Language::en);
  const Words id(Language::id);
  for (const char* key :
       {"store.locked", "store.disk_full", "store.newer", "store.undo_refused", "store.damaged"}) {
    EXPECT_TRUE(en.has(key)) << key;
    EXPECT_EQ(en.argument_names(key), id.argument_names(key)) << key;
  }
}

}  // namespace
}  // namespace wildling::store
