#pragma once
#include <span>
#include <string>
#include <vector>

#include "base/parameters.hpp"
#include "nursery/order.hpp"
#include "stat/yield_chain.hpp"

namespace wildling::nursery {

/// One stage as it is used, and where its two numbers come from.
struct StageUsed {
  StageName stage = StageName::germination;
  double mean = 1;
  double correlation = 0;
  Origin mean_origin = Origin::assumed;
  Origin correlation_origin = Origin::assumed;
  std::string mean_source, mean_note, correlation_source, correlation_note;
};

/// The stages from seed (or from the lifted wildling seedling) to the planting pit.
/// The book value of data/parameters/nursery.csv gives way to the species' documented germination,
/// and both to what was told or counted. A documented range of germination is read as mean +- 2
/// standard deviations of batches; its correlation is never below the parameter's. Shares of 1 are
/// taken as nursery.stage.most.
/// @throws Error{input} when a told share is outside (0, 1]
std::vector<StageUsed> stages_from_seed(const Order& order, const Parameters& parameters);
std::vector<StageUsed> stages_from_wildlings(const Order& order, const Parameters& parameters);
/// Hardening off, grading out, transport: what seedlings that are ready still have to pass.
std::vector<StageUsed> stages_of_ready(const Order& order, const Parameters& parameters);

std::vector<stat::Stage> plain(std::span<const StageUsed> stages);

/// Product of the means: the share that passes on average.
double mean_yield(std::span<const StageUsed> stages);

/// One batch of the programme's own nursery at one stage.
struct BatchRecord {
  long long in = 0;
  long long out = 0;  ///< 0 <= out <= in
};

/// Own record beats the book after the first season: the mean of the batches and of the book, each
/// batch with the weight n/(1 + (n - 1) r) that a batch of n has when its units share their luck
/// with correlation r, the book with the weight of nursery.record.book_batches large batches (1/r
/// each). The correlation is raised by r times the book's and record's remaining uncertainty of the
/// mean, 1/(1/r (batches + book)) so that few batches stay uncertain.
/// @throws Error{input} when out > in or a batch is empty
ToldStage stage_from_record(StageName stage, std::span<const BatchRecord> batches,
                            const Parameters& parameters, std::string source);

}  // namespace wildling::nursery
