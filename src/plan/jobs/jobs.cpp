#include "plan/jobs/jobs.hpp"

#include <algorithm>
#include <array>

#include <malloc.h>

#include "plan/jobs/job_rows.hpp"

namespace wildling::plan {
namespace {

constexpr std::size_t kRemembered = 40;   // jobs with their results
constexpr std::size_t kMostWaiting = 20;  // in the queue

constexpr std::array<std::pair<JobState, std::string_view>, 6> kStates = {{
    {JobState::waiting, "waiting"},
    {JobState::running, "running"},
    {JobState::done, "done"},
    {JobState::failed, "failed"},
    {JobState::cancelled, "cancelled"},
    {JobState::interrupted, "interrupted"},
}};

}  // namespace

std::string_view job_state_name(JobState state) {
  for (const auto& pair : kStates) {
    if (pair.first == state) return pair.second;
  }
  return "";
}

std::optional<JobState> parse_job_state(std::string_view name) {
  for (const auto& pair : kStates) {
    if (pair.second == name) return pair.first;
  }
  return {};
}

bool has_ended(JobState state) {
  return state != JobState::waiting && state != JobState::running;
}

Jobs::Jobs(Access& access, Outside& outside) : access_(access), outside_(outside) {
  mark_interrupted();
  thread_ = std::jthread([this](const std::stop_token& closing) { work_off(closing); });
}

Jobs::~Jobs() {
  {
    const std::scoped_lock lock(mutex_);
    closing_ = true;
    for (const auto& entry : entries_) entry->stop.request_stop();
  }
  thread_.request_stop();
  changed_.notify_all();
  thread_.join();
}

void Jobs::mark_interrupted() {
  std::vector<Job> kept;
  access_.read([&](const store::Store& store) { kept = kept_jobs(store, kRemembered); });
  std::reverse(kept.begin(), kept.end());
  for (Job& job : kept) {
    if (!has_ended(job.state) && access_.writable()) {
      job.state = JobState::interrupted;
      job.ended_utc.clear();
      keep_row(job);
    }
    auto entry = std::make_shared<Entry>();
    entry->job = std::move(job);
    entries_.push_back(std::move(entry));
  }
}

Job Jobs::start(JobWork work) {
  if (work.changes_programme && !access_.writable())
    throw Error(ErrorKind::usage, "", say("store.read_only"));
  auto entry = std::make_shared<Entry>();
  entry->job.id = outside_.new_uid();
  entry->job.kind = work.kind;
  entry->job.asked = work.asked;
  entry->job.who = work.actor.who;
  entry->work = std::move(work);
  const std::scoped_lock lock(mutex_);
  const auto waiting = std::count_if(entries_.begin(), entries_.end(), [](const auto& other) {
    return other->job.state == JobState::waiting;
  });
  if (static_cast<std::size_t>(waiting) >= kMostWaiting)
    throw Error(ErrorKind::usage, "",
                say("plan.job.too_many", {{"most", std::int64_t{kMostWaiting}}}));
  entries_.push_back(entry);
  forget_old();
  changed_.notify_all();
  return entry->job;
}

void Jobs::forget_old() {
  while (entries_.size() > kRemembered && has_ended(entries_.front()->job.state))
    entries_.pop_front();
}

std::optional<Job> Jobs::find(const std::string& id) const {
  const std::scoped_lock lock(mutex_);
  for (const auto& entry : entries_) {
    if (entry->job.id == id) return entry->job;
  }
  return {};
}

std::vector<Job> Jobs::newest(std::size_t at_most) const {
  const std::scoped_lock lock(mutex_);
  std::vector<Job> jobs;
  for (auto it = entries_.rbegin(); it != entries_.rend() && jobs.size() < at_most; ++it)
    jobs.push_back((*it)->job);
  return jobs;
}

std::optional<Job> Jobs::current() const {
  const std::scoped_lock lock(mutex_);
  for (const auto& entry : entries_) {
    if (!has_ended(entry->job.state)) return entry->job;
  }
  return entries_.empty() ? std::nullopt : std::optional<Job>(entries_.back()->job);
}

std::optional<Job> Jobs::cancel(const std::string& id, std::chrono::milliseconds patience) {
  std::unique_lock lock(mutex_);
  const auto found = std::find_if(entries_.begin(), entries_.end(),
                                  [&](const auto& entry) { return entry->job.id == id; });
  if (found == entries_.end()) return {};
  const std::shared_ptr<Entry> entry = *found;
  entry->stop.request_stop();
  // One that waits has nothing to unwind.
  if (entry->job.state == JobState::waiting) {
    entry->job.state = JobState::cancelled;
    entry->job.ended_utc = outside_.now_utc();
  }
  changed_.wait_for(lock, patience, [&] { return has_ended(entry->job.state); });
  return entry->job;
}

void Jobs::work_off(const std::stop_token& closing) {
  for (;;) {
    std::shared_ptr<Entry> next;
    {
      std::unique_lock lock(mutex_);
      const auto first_waiting = [&] {
        const auto it = std::find_if(entries_.begin(), entries_.end(), [](const auto& entry) {
          return entry->job.state == JobState::waiting;
        });
        next = it == entries_.end() ? nullptr : *it;
        return next != nullptr;
      };
      if (!changed_.wait(lock, closing, first_waiting) || closing_) return;
      next->job.state = JobState::running;
      next->job.started_utc = outside_.now_utc();
    }
    run(*next);
    // A big plan's memory goes back to the machine: the program stays open all day.
    ::malloc_trim(0);
  }
}

void Jobs::run(Entry& entry) {
  Progress progress;
  progress.stop = entry.stop.get_token();
  progress.report = [this, &entry](double share, const Message& step) {
    const std::scoped_lock lock(mutex_);
    entry.job.share = std::clamp(share, 0.0, 1.0);
    entry.job.step = step;
  };
  try {
    run_guarded(entry, progress);
  } catch (const Cancelled&) {
    bool closing = false;
    {
      const std::scoped_lock lock(mutex_);
      closing = closing_;
    }
    end(entry, closing ? JobState::interrupted : JobState::cancelled, {}, {});
  } catch (const Error& error) {
    end(entry, JobState::failed, Problem{error.kind(), error.where(), error.message()}, {});
  } catch (const std::bad_alloc&) {
    end(entry, JobState::failed, Problem{ErrorKind::io, "", say("plan.job.no_memory")}, {});
  } catch (const std::exception& fault) {
    end(entry, JobState::failed,
        Problem{ErrorKind::internal, "",
                say("plan.job.fault", {{"what", std::string(fault.what())}})},
        {});
  }
}

void Jobs::run_guarded(Entry& entry, const Progress& progress) {
  if (entry.work.changes_programme) keep_row(*find(entry.job.id));
  const Ending ending = [this, &entry](const std::string& outcome) {
    Job ended = *find(entry.job.id);
    ended.state = JobState::done;
    ended.share = 1;
    ended.outcome = outcome;
    ended.ended_utc = outside_.now_utc();
    return row_of(ended);
  };
  end(entry, JobState::done, {}, entry.work.run(progress, ending));
}

void Jobs::end(Entry& entry, JobState state, const std::optional<Problem>& problem,
               Outcome outcome) {
  Job ended;
  {
    const std::scoped_lock lock(mutex_);
    ended = entry.job;
  }
  ended.state = state;
  ended.problem = problem;
  ended.ended_utc = outside_.now_utc();
  if (state == JobState::done) {
    ended.share = 1;
    ended.outcome = outcome.json;
    ended.result = std::move(outcome.result);
  }
  // People see the end at once; the row follows, and a row that cannot be kept changes nothing
  // else.
  {
    const std::scoped_lock lock(mutex_);
    entry.job = ended;
    entry.work.run = {};
  }
  changed_.notify_all();
  if (!entry.work.changes_programme || outcome.row_kept) return;
  try {
    keep_row(ended);
  } catch (const std::exception&) {
    return;  // the next opening shows it as interrupted
  }
}

void Jobs::keep_row(const Job& job) {
  store::ChangeSet act;
  act.who = job.who.empty() ? "wildling" : job.who;
  act.face = "page";
  act.why = "job " + job.kind + ": " + std::string(job_state_name(job.state));
  act.derived = {row_of(job)};
  access_.write([&](store::Store& store) { store.apply(act); });
}

store::DerivedRows Jobs::row_of(const Job& job) const {
  return job_row(job);
}

}  // namespace wildling::plan
