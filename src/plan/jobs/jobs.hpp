#pragma once
/// Long work of one open programme: a queue, one job at a time on a thread of its own. A job
/// computes in memory and keeps its result in one act; cancelled or killed it leaves nothing. Jobs
/// that change the programme have a row in its table `jobs`, so that one that a kill ended shows as
/// interrupted when the programme is opened next.
#include <condition_variable>
#include <cstdint>
#include <deque>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <thread>
#include <vector>

#include "base/error.hpp"
#include "base/outside.hpp"
#include "base/progress.hpp"
#include "plan/jobs/access.hpp"
#include "plan/take.hpp"

namespace wildling::plan {

enum class JobState { waiting, running, done, failed, cancelled, interrupted };

std::string_view job_state_name(JobState state);  ///< "waiting" ...
std::optional<JobState> parse_job_state(std::string_view name);
/// True when it will not change any more.
bool has_ended(JobState state);

/// What went wrong, as Error has it.
struct Problem {
  ErrorKind kind = ErrorKind::internal;
  std::string where = {};
  Message message = {};
};

/// A job as it stands now.
struct Job {
  std::string id = {};
  std::string kind = {};   ///< "plan" or "reply"
  std::string asked = {};  ///< JSON object of what was asked for
  JobState state = JobState::waiting;
  double share = 0;   ///< done, 0 to 1
  Message step = {};  ///< what it does now; no key before the first step
  std::optional<Problem> problem = {};
  std::string outcome = {};                        ///< JSON; empty until done
  std::shared_ptr<const std::string> result = {};  ///< text too long for the outcome
  std::string who = {}, started_utc = {}, ended_utc = {};
};

/// What a job came to.
struct Outcome {
  std::string json = "null";
  std::shared_ptr<const std::string> result = {};
  bool row_kept = false;  ///< the rows of `ending` went into the job's own act
};

/// Gives the rows that say the job has ended well with this outcome: to be kept in the same act as
/// the result.
using Ending = std::function<store::DerivedRows(const std::string& outcome)>;

struct JobWork {
  std::string kind = {};
  std::string asked = "{}";
  Actor actor = {};
  bool changes_programme = false;  ///< it gets a row
  std::function<Outcome(const Progress&, const Ending&)> run = {};
};

class Jobs {
 public:
  /// Marks jobs that a kill ended as interrupted.
  Jobs(Access& access, Outside& outside);
  /// Stops the running job; it and those that wait show as interrupted.
  ~Jobs();
  Jobs(const Jobs&) = delete;
  Jobs& operator=(const Jobs&) = delete;

  /// @throws Error{usage} when the work changes a programme that can only be read, or too many wait
  Job start(JobWork work);

  [[nodiscard]] std::optional<Job> find(const std::string& id) const;
  /// Newest first.
  [[nodiscard]] std::vector<Job> newest(std::size_t at_most) const;
  /// The one that runs or waits longest, else the newest.
  [[nodiscard]] std::optional<Job> current() const;

  /// Asks it to stop and waits up to `patience` until it has. @return empty when there is no such
  /// job
  std::optional<Job> cancel(const std::string& id,
                            std::chrono::milliseconds patience = std::chrono::milliseconds(500));

 private:
  struct Entry {
    Job job;
    JobWork work;
    std::stop_source stop;
  };

  void work_off(const std::stop_token& closing);
  void run(Entry& entry);
  void run_guarded(Entry& entry, const Progress& progress);
  void end(Entry& entry, JobState state, const std::optional<Problem>& problem, Outcome outcome);
  void keep_row(const Job& job);
  [[nodiscard]] store::DerivedRows row_of(const Job& job) const;
  void mark_interrupted();
  void forget_old();

  Access& access_;
  Outside& outside_;
  mutable std::mutex mutex_;
  std::condition_variable_any changed_;
  std::deque<std::shared_ptr<Entry>> entries_;  ///< oldest first
  bool closing_ = false;
  std::jthread thread_;
};

}  // namespace wildling::plan
