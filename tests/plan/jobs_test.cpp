// Long work: one at a time, stopped at once, nothing half done, and a kill that is not forgotten.
#include "plan/jobs/jobs.hpp"

#include <atomic>
#include <csignal>
#include <filesystem>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>
#include <sys/wait.h>
#include <unistd.h>

#include "base/files.hpp"
#include "invented_programme.hpp"
#include "plan/jobs/job_rows.hpp"
#include "plan/jobs/problem_json.hpp"
#include "plan/jobs/work.hpp"
#include "plan/keep.hpp"

namespace wildling::plan {
namespace {

using namespace std::chrono_literals;

class Folder {
 public:
  Folder() {
    std::string name = (std::filesystem::temp_directory_path() / "wildling-jobs-XXXXXX").string();
    path_ = ::mkdtemp(name.data());
  }

  ~Folder() { std::filesystem::remove_all(path_); }

  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;

  [[nodiscard]] std::string file(const std::string& name) const { return path_ + "/" + name; }

 private:
  std::string path_;
};

// The invented programme as a file.
std::string programme_in(const Folder& folder) {
  Rehearsal outside(Seed{4});
  const auto store = invented_programme(outside);
  take_answers(*store, "", all_open(), kTester);
  const std::string path = folder.file("test.gpkg");
  store->backup_to(path);
  return path;
}

Job wait_for_end(const Jobs& jobs, const std::string& id) {
  for (int i = 0; i < 6000; ++i) {
    const auto job = jobs.find(id);
    if (job && has_ended(job->state)) return *job;
    std::this_thread::sleep_for(10ms);
  }
  return *jobs.find(id);
}

JobWork work_of(std::function<Outcome(const Progress&, const Ending&)> run, bool changes = false) {
  JobWork work;
  work.kind = "plan";
  work.actor = kTester;
  work.changes_programme = changes;
  work.run = std::move(run);
  return work;
}

Outcome until_stopped(const Progress& progress, const Ending&) {
  progress.say(0.5, say("plan.step.mix"));
  for (;;) {
    check_stop(progress);
    std::this_thread::sleep_for(1ms);
  }
}

PlanOptions some_day() {
  PlanOptions options;
  options.seed = Seed{7};
  options.today = make_date(2025, 2, 1);
  options.program_version = "test";
  return options;
}

struct InMemory {
  Rehearsal outside{Seed{5}};
  std::unique_ptr<store::Store> store = invented_programme(outside);
  Machine machine;
  StoreAccess access{*store};
  Jobs jobs{access, machine};

  InMemory() { take_answers(*store, "", all_open(), kTester); }
};

TEST(Jobs, APlanIsMadeAndKeptWithItsRow) {
  InMemory page;
  const Job started = page.jobs.start(plan_work(page.access, some_day(), kTester));
  const Job ended = wait_for_end(page.jobs, started.id);
  ASSERT_EQ(ended.state, JobState::done) << (ended.problem ? ended.problem->message.key : "");
  EXPECT_EQ(nlohmann::json::parse(ended.outcome).at("number"), 1);
  EXPECT_EQ(page.store->count("plans"), 1);
  const auto kept = kept_jobs(*page.store, 10);
  ASSERT_EQ(kept.size(), 1U);
  EXPECT_EQ(kept.front().state, JobState::done);
  EXPECT_EQ(kept.front().outcome, ended.outcome);
}

TEST(Jobs, TheSamePlanAgainIsSaidToBeTheSame) {
  InMemory page;
  wait_for_end(page.jobs, page.jobs.start(plan_work(page.access, some_day(), kTester)).id);
  const Job again =
      wait_for_end(page.jobs, page.jobs.start(plan_work(page.access, some_day(), kTester)).id);
  EXPECT_EQ(nlohmann::json::parse(again.outcome).at("same_as_before"), true);
  EXPECT_EQ(page.store->count("plans"), 1);
  EXPECT_EQ(kept_jobs(*page.store, 10).front().state, JobState::done);
}

TEST(Jobs, AReadyPlanIsTheSameWhetherAJobOrTheCommandLineMakesIt) {
  InMemory page;
  wait_for_end(page.jobs, page.jobs.start(plan_work(page.access, some_day(), kTester)).id);
  Rehearsal outside(Seed{5});
  const auto other = invented_programme(outside);
  take_answers(*other, "", all_open(), kTester);
  keep_plan(*other, some_day(), kTester);
  EXPECT_EQ(plan_text(*page.store), plan_text(*other));
}

TEST(Jobs, OneRunsAtATimeInTheOrderTheyWereAskedFor) {
  InMemory page;
  std::atomic<int> running = 0, most = 0;
  std::string order;
  std::vector<std::string> ids;
  for (const char name : {'a', 'b', 'c'}) {
    ids.push_back(page.jobs
                      .start(work_of([&, name](const Progress&, const Ending&) {
                        most = std::max(most.load(), ++running);
                        std::this_thread::sleep_for(5ms);
                        order += name;
                        --running;
                        return Outcome{};
                      }))
                      .id);
  }
  for (const std::string& id : ids) wait_for_end(page.jobs, id);
  EXPECT_EQ(order, "abc");
  EXPECT_EQ(most, 1);
}

TEST(Jobs, ProgressCanBeLookedAt) {
  InMemory page;
  const std::string id = page.jobs.start(work_of(until_stopped)).id;
  for (int i = 0; i < 500 && page.jobs.find(id)->share < 0.5; ++i) std::this_thread::sleep_for(5ms);
  EXPECT_EQ(page.jobs.find(id)->share, 0.5);
  EXPECT_EQ(page.jobs.find(id)->step.key, "plan.step.mix");
  EXPECT_EQ(page.jobs.current()->id, id);
  page.jobs.cancel(id);
}

TEST(Jobs, ACancelledJobEndsAtOnceAndTheNextOneRuns) {
  InMemory page;
  const std::string first = page.jobs.start(work_of(until_stopped)).id;
  const std::string second =
      page.jobs.start(work_of([](const Progress&, const Ending&) { return Outcome{}; })).id;
  EXPECT_EQ(page.jobs.cancel(first)->state, JobState::cancelled);
  EXPECT_EQ(wait_for_end(page.jobs, second).state, JobState::done);
}

TEST(Jobs, OneThatWaitsCanBeCancelled) {
  InMemory page;
  const std::string first = page.jobs.start(work_of(until_stopped)).id;
  std::atomic<bool> ran = false;
  const std::string second = page.jobs
                                 .start(work_of([&](const Progress&, const Ending&) {
                                   ran = true;
                                   return Outcome{};
                                 }))
                                 .id;
  EXPECT_EQ(page.jobs.cancel(second)->state, JobState::cancelled);
  page.jobs.cancel(first);
  EXPECT_FALSE(ran);
}

TEST(Jobs, APlanCancelledWhileItIsKeptLeavesNothing) {
  InMemory page;
  PlanOptions options = some_day();
  PlanResult result = compute_plan(*page.store, options);
  std::stop_source stop;
  stop.request_stop();
  Progress progress;
  progress.stop = stop.get_token();
  EXPECT_THROW(commit_plan(*page.store, std::move(result), kTester, progress), Cancelled);
  EXPECT_EQ(page.store->count("plans"), 0);
  EXPECT_EQ(page.store->count("workings"), 0);
}

TEST(Jobs, AFailureIsASentence) {
  InMemory page;
  const auto failing = [&](auto thrown) {
    const auto run = [thrown](const Progress&, const Ending&) -> Outcome { throw thrown; };
    return wait_for_end(page.jobs, page.jobs.start(work_of(run)).id);
  };
  const Job input = failing(Error(ErrorKind::input, "block B3", say("plan.no_species")));
  EXPECT_EQ(input.state, JobState::failed);
  EXPECT_EQ(input.problem->where, "block B3");
  EXPECT_EQ(failing(std::bad_alloc()).problem->message.key, "plan.job.no_memory");
  EXPECT_EQ(failing(std::runtime_error("x")).problem->kind, ErrorKind::internal);
}

TEST(Jobs, TooManyWaitingAreRefused) {
  InMemory page;
  const std::string first = page.jobs.start(work_of(until_stopped)).id;
  EXPECT_THROW(
      {
        for (int i = 0; i < 30; ++i) page.jobs.start(work_of(until_stopped));
      },
      Error);
}

TEST(Jobs, AnUnknownJobIsNobody) {
  InMemory page;
  EXPECT_FALSE(page.jobs.find("x"));
  EXPECT_FALSE(page.jobs.cancel("x"));
}

TEST(Jobs, ClosingStopsTheRunningJobWhichThenShowsAsInterrupted) {
  const Folder folder;
  const std::string path = programme_in(folder);
  Machine machine;
  {
    FileAccess access(path, machine);
    Jobs jobs(access, machine);
    jobs.start(work_of(until_stopped, true));
    for (int i = 0; i < 500 && jobs.current()->share < 0.5; ++i) std::this_thread::sleep_for(5ms);
  }
  FileAccess access(path, machine);
  const Jobs jobs(access, machine);
  EXPECT_EQ(jobs.current()->state, JobState::interrupted);
}

// The child keeps a plan, tells that it is in the middle of the act, and is killed there.
[[noreturn]] void keep_and_hang(const std::string& path, int bell) {
  static Machine machine;
  static FileAccess access(path, machine);
  static Jobs jobs(access, machine);
  jobs.start(work_of(
      [bell](const Progress&, const Ending& ending) {
        access.write(
            [&](store::Store& store) {
              store::DerivedRows middle = ending("{\"number\":1}");
              const auto write = middle.write;
              middle.write = [write, bell](store::RowSink& sink) {
                write(sink);
                [[maybe_unused]] const auto told = ::write(bell, "x", 1);
                for (;;) ::pause();
              };
              commit_plan(store, compute_plan(store, some_day()), kTester, {}, {middle});
            },
            5s, {});
        return Outcome{};
      },
      true));
  for (;;) ::pause();
}

TEST(Jobs, AKillInTheMiddleOfKeepingLosesOnlyThePlanAndIsNotForgotten) {
  const Folder folder;
  const std::string path = programme_in(folder);
  int bell[2];
  ASSERT_EQ(::pipe(bell), 0);
  const pid_t child = ::fork();
  if (child == 0) keep_and_hang(path, bell[1]);
  char byte = 0;
  ASSERT_EQ(::read(bell[0], &byte, 1), 1);
  ::kill(child, SIGKILL);
  ::waitpid(child, nullptr, 0);
  Machine machine;
  FileAccess access(path, machine);
  Jobs jobs(access, machine);
  EXPECT_EQ(jobs.current()->state, JobState::interrupted);
  access.read([](const store::Store& store) {
    EXPECT_EQ(store.count("plans"), 0);
    EXPECT_EQ(store.count("blocks"), 4);
    EXPECT_TRUE(store.damage().empty());
  });
  const Job again = wait_for_end(jobs, jobs.start(plan_work(access, some_day(), kTester)).id);
  EXPECT_EQ(again.state, JobState::done);
}

TEST(FileAccess, AnotherProgramCanWriteWhileOursIsOpen) {
  const Folder folder;
  const std::string path = programme_in(folder);
  Machine machine;
  FileAccess access(path, machine);
  std::int64_t before = 0, after = 0;
  access.read([&](const store::Store& store) { before = store.data_version(); });
  {
    const auto other = store::open_file(path, store::OpenMode::read_write, machine);
    take_parameter(*other, "layout.spacing", 3, Origin::told, "x", kTester);
    // Ours can read meanwhile.
    access.read([&](const store::Store& store) { after = store.data_version(); });
  }
  EXPECT_GT(after, before);
}

TEST(FileAccess, OursWaitsForAnotherThatWritesAndThenSaysWho) {
  const Folder folder;
  const std::string path = programme_in(folder);
  Machine machine;
  FileAccess access(path, machine);
  const auto other = store::open_file(path, store::OpenMode::read_write, machine);
  try {
    access.write([](store::Store&) {}, 60ms, {});
    FAIL();
  } catch (const Error& error) {
    EXPECT_EQ(error.message().key, "store.locked");
  }
}

TEST(FileAccess, ClosingLeavesOneFileThatNeedsNoLog) {
  const Folder folder;
  const std::string path = programme_in(folder);
  Machine machine;
  {
    FileAccess access(path, machine);
    access.read([](const store::Store&) {});
    access.write(
        [](store::Store& store) {
          take_parameter(store, "layout.spacing", 3, Origin::told, "x", kTester);
        },
        1s, {});
    access.read([](const store::Store&) {});
  }
  int files = 0;
  for ([[maybe_unused]] const auto& each : std::filesystem::directory_iterator(folder.file("")))
    ++files;
  EXPECT_EQ(files, 1);
  const std::string head = read_file(path).substr(18, 2);
  EXPECT_EQ(head, std::string("\x01\x01", 2));
}

}  // namespace
}  // namespace wildling::plan
