#include "plan/jobs/job_rows.hpp"

#include <nlohmann/json.hpp>

#include "plan/jobs/problem_json.hpp"
#include "plan/message_json.hpp"

namespace wildling::plan {
namespace {

using store::Filter;
using store::Row;
using store::text_of;
using store::Value;

Value text_or_null(const std::string& text) {
  return text.empty() ? Value{} : Value{text};
}

// What the column `outcome` holds: {"result": ...} or {"error": ...}.
std::string outcome_text(const Job& job) {
  if (job.problem) return nlohmann::json{{"error", problem_json(*job.problem)}}.dump();
  if (job.state != JobState::done) return "";
  return "{\"result\":" + (job.outcome.empty() ? std::string("null") : job.outcome) + "}";
}

void put_outcome(Job& job, const std::string& text) {
  if (text.empty()) return;
  const auto json = nlohmann::json::parse(text);
  if (json.contains("result")) job.outcome = json.at("result").dump();
  if (json.contains("error")) job.problem = problem_from(json.at("error"));
}

Job job_from(const Row& row) {
  Job job;
  job.id = text_of(row, "uid");
  job.kind = text_of(row, "kind");
  job.asked = text_of(row, "asked");
  job.state = parse_job_state(text_of(row, "state")).value_or(JobState::interrupted);
  job.who = text_of(row, "who");
  job.started_utc = text_of(row, "started_utc");
  job.ended_utc = text_of(row, "ended_utc");
  job.share = job.state == JobState::done ? 1 : 0;
  put_outcome(job, text_of(row, "outcome"));
  return job;
}

}  // namespace

store::DerivedRows job_row(const Job& job) {
  store::DerivedRows rows;
  rows.table = "jobs";
  rows.columns = {"uid", "kind", "asked", "state", "who", "started_utc", "ended_utc", "outcome"};
  rows.replaces = Filter{}.with("uid", Value{job.id});
  rows.write = [job](store::RowSink& sink) {
    sink.add(std::vector<Value>{job.id, job.kind, job.asked, std::string(job_state_name(job.state)),
                                job.who, text_or_null(job.started_utc), text_or_null(job.ended_utc),
                                text_or_null(outcome_text(job))});
  };
  return rows;
}

std::vector<Job> kept_jobs(const store::Store& store, std::size_t at_most) {
  Filter filter = Filter{}.by("started_utc", true);
  filter.at_most = at_most;
  std::vector<Job> jobs;
  for (const Row& row : store.rows("jobs", filter)) jobs.push_back(job_from(row));
  return jobs;
}

}  // namespace wildling::plan
