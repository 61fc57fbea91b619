#pragma once
#include <vector>

#include "plan/jobs/jobs.hpp"
#include "store/store.hpp"

namespace wildling::plan {

/// The row of table `jobs` that takes the place of the job's old one.
store::DerivedRows job_row(const Job& job);

/// The newest jobs that have rows, newest first.
std::vector<Job> kept_jobs(const store::Store& store, std::size_t at_most);

}  // namespace wildling::plan
