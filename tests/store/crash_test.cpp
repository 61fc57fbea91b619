// A process that dies at any moment while it saves loses nothing that it had reported as saved, and
// leaves no half change. kill -9 ends the process, not the machine: what a power cut adds is
// SQLite's own promise for synchronous FULL.
#include <cstdlib>
#include <random>
#include <thread>

#include <gtest/gtest.h>
#include <signal.h>
#include <sys/wait.h>

#include "helpers.hpp"

namespace wildling::store {
namespace {

constexpr int kRowsPerSet = 3;

DerivedRows bytes_of(int round) {
  DerivedRows rows;
  rows.table = "plan_blocks";
  rows.columns = {"plan_uid", "block_uid", "block_code",   "grid",
                  "species",  "places",    "species_bytes"};
  rows.write = [round](RowSink& sink) {
    const Blob bytes(200'000, static_cast<std::uint8_t>(round));
    sink.add(std::vector<Value>{"p", "b", "B", "{}", "[]", from(200'000), bytes});
  };
  return rows;
}

/// Saves for ever, opens and closes now and then; writes one byte for each set that apply()
/// returned from.
[[noreturn]] void save_until_killed(const std::string& path, int acknowledge) {
  Machine outside;
  for (int round = 0;; ++round) {
    const auto store = open_file(path, OpenMode::read_write, outside);
    for (int i = 0; i < 15; ++i) {
      ChangeSet changes = act({});
      for (int k = 0; k < kRowsPerSet; ++k) {
        changes.rows.push_back(RowChange::insert("sites", site(store->new_uid())));
      }
      if (i % 5 == 0) changes.derived = {bytes_of(round)};
      store->apply(changes);
      if (::write(acknowledge, "+", 1) != 1) ::_exit(3);
    }
  }
}

std::int64_t count_acknowledged(int pipe) {
  std::array<char, 4096> buffer{};
  std::int64_t total = 0;
  for (ssize_t n = 0; (n = ::read(pipe, buffer.data(), buffer.size())) > 0;) total += n;
  return total;
}

/// @return number of sets acknowledged before the kill
std::int64_t save_and_kill(const std::string& path, std::chrono::microseconds after) {
  std::array<int, 2> pipe{};
  if (::pipe(pipe.data()) != 0) throw std::runtime_error("no pipe");
  const pid_t child = ::fork();
  if (child == 0) {
    ::close(pipe[0]);
    try {
      save_until_killed(path, pipe[1]);
    } catch (const std::exception& error) {
      std::fprintf(stderr, "child: %s\n", error.what());
      ::_exit(2);
    }
  }
  ::close(pipe[1]);
  std::this_thread::sleep_for(after);
  ::kill(child, SIGKILL);
  int status = 0;
  ::waitpid(child, &status, 0);
  EXPECT_TRUE(WIFSIGNALED(status)) << "the writer ended by itself";
  const std::int64_t acknowledged = count_acknowledged(pipe[0]);
  ::close(pipe[0]);
  return acknowledged;
}

int rounds() {
  const char* asked = std::getenv("WILDLING_CRASH_ROUNDS");
  return asked == nullptr ? 20 : std::atoi(asked);
}

TEST(Crash, LosesNothingThatWasAcknowledged) {
  const Folder folder;
  const std::string path = folder.file("demo.gpkg");
  Machine outside;
  create_file(path, outside);
  std::mt19937 luck(20261125);
  std::int64_t promised = 0;
  std::int64_t held = 0;
  for (int round = 0; round < rounds(); ++round) {
    SCOPED_TRACE(round);
    promised = held + save_and_kill(path, std::chrono::microseconds(5'000 + luck() % 120'000));
    const auto store = open_file(path, OpenMode::read_write, outside);
    ASSERT_TRUE(store->damage().empty());
    const std::int64_t rows = store->count("sites");
    held = store->count("change_sets");
    ASSERT_EQ(rows, held * kRowsPerSet) << "half a change set";
    ASSERT_EQ(store->data_version(), held);
    ASSERT_GE(held, promised) << "an acknowledged change is lost";
    ASSERT_LE(held, promised + 1) << "more than the one that was being saved";
  }
  EXPECT_GT(promised, rounds() / 4) << "the writer hardly wrote; the test shows nothing";
  EXPECT_EQ(
      std::system(
          ("/usr/bin/python3 -m osgeo_utils.samples.validate_gpkg '" + path + "' >&2").c_str()),
      0);
}

}  // namespace
}  // namespace wildling::store
