#include "nursery/stages.hpp"

#include <algorithm>
#include <array>

#include "base/error.hpp"

namespace wildling::nursery {
namespace {

constexpr std::array<std::string_view, 8> kWords = {"sound",        "germination", "recovery",
                                                    "pricking_out", "growing_on",  "hardening",
                                                    "grading",      "transport"};

std::string key_of(StageName stage, std::string_view what) {
  return "nursery.stage." + std::string(stage_word(stage)) + "." + std::string(what);
}

StageUsed from_book(StageName stage, const Parameters& parameters) {
  const Parameter& mean = parameters.at(key_of(stage, "mean"));
  const Parameter& correlation = parameters.at(key_of(stage, "correlation"));
  return {stage,       mean.value, correlation.value,  mean.origin,     correlation.origin,
          mean.source, mean.note,  correlation.source, correlation.note};
}

/// The species' germination from the library or the programme's table.
void apply_germination(StageUsed& used, const species::Species& facts,
                       const Parameters& parameters) {
  const auto& low = facts.germination_low_pct;
  const auto& high = facts.germination_high_pct;
  if (!low && !high) return;
  const double most = parameters.value("nursery.stage.most");
  const double a = low.value_or(high.value_or(0)) / 100;
  const double b = high.value_or(low.value_or(0)) / 100;
  used.mean = std::clamp(0.5 * (a + b), 0.005, most);
  const species::Basis* basis =
      facts.basis(low ? "germination_percent_low" : "germination_percent_high");
  used.mean_origin = basis != nullptr ? basis->origin : Origin::told;
  used.mean_source = basis != nullptr ? basis->source : "";
  used.mean_note = "";
  const double sd = 0.25 * std::max(0.0, b - a);
  const double from_range = sd * sd / (used.mean * (1 - used.mean));
  if (from_range > used.correlation) {
    used.correlation = std::min(0.5, from_range);
    used.correlation_origin = used.mean_origin;
    used.correlation_source = used.mean_source;
    used.correlation_note = "";
  }
}

void apply_told(StageUsed& used, const Order& order) {
  for (const ToldStage& told : order.told) {
    if (told.stage != used.stage) continue;
    const bool possible = told.mean > 0 && told.mean <= 1 && told.correlation.value_or(0) >= 0 &&
                          told.correlation.value_or(0) < 1;
    if (!possible) {
      throw Error(
          ErrorKind::input, order.species,
          say("nursery.told_share_impossible",
              {{"stage", std::string(stage_word(told.stage))}, {"percent", told.mean * 100}}));
    }
    used.mean = told.mean;
    used.mean_origin = told.origin;
    used.mean_source = told.source;
    used.mean_note = "";
    if (told.correlation) {
      used.correlation = *told.correlation;
      used.correlation_origin = told.origin;
      used.correlation_source = told.source;
      used.correlation_note = "";
    }
  }
}

std::vector<StageUsed> chain(std::span<const StageName> names, const Order& order,
                             const Parameters& parameters) {
  std::vector<StageUsed> stages;
  for (const StageName name : names) {
    StageUsed used = from_book(name, parameters);
    if (name == StageName::germination && order.facts != nullptr) {
      apply_germination(used, *order.facts, parameters);
    }
    apply_told(used, order);
    stages.push_back(std::move(used));
  }
  return stages;
}

}  // namespace

std::string_view stage_word(StageName stage) {
  return kWords[static_cast<std::size_t>(stage)];
}

std::vector<StageUsed> stages_from_seed(const Order& order, const Parameters& parameters) {
  using enum StageName;
  constexpr std::array kNames = {sound,     germination, pricking_out, growing_on,
                                 hardening, grading,     transport};
  return chain(kNames, order, parameters);
}

std::vector<StageUsed> stages_from_wildlings(const Order& order, const Parameters& parameters) {
  using enum StageName;
  constexpr std::array kNames = {recovery, growing_on, hardening, grading, transport};
  return chain(kNames, order, parameters);
}

std::vector<StageUsed> stages_of_ready(const Order& order, const Parameters& parameters) {
  using enum StageName;
  constexpr std::array kNames = {hardening, grading, transport};
  return chain(kNames, order, parameters);
}

std::vector<stat::Stage> plain(std::span<const StageUsed> stages) {
  std::vector<stat::Stage> result;
  for (const StageUsed& used : stages) result.push_back({used.mean, used.correlation});
  return result;
}

double mean_yield(std::span<const StageUsed> stages) {
  double product = 1;
  for (const StageUsed& used : stages) product *= used.mean;
  return product;
}

ToldStage stage_from_record(StageName stage, std::span<const BatchRecord> batches,
                            const Parameters& parameters, std::string source) {
  const StageUsed book = from_book(stage, parameters);
  const double r = std::max(book.correlation, 1e-6);
  const double book_weight = parameters.value("nursery.record.book_batches") / r;
  double weights = book_weight;
  double sum = book_weight * book.mean;
  for (const BatchRecord& batch : batches) {
    if (batch.in <= 0 || batch.out < 0 || batch.out > batch.in) {
      throw Error(ErrorKind::input, source,
                  say("nursery.batch_impossible", {{"stage", std::string(stage_word(stage))},
                                                   {"out", static_cast<std::int64_t>(batch.out)},
                                                   {"in", static_cast<std::int64_t>(batch.in)}}));
    }
    const auto n = static_cast<double>(batch.in);
    const double weight = n / (1 + (n - 1) * r);
    weights += weight;
    sum += weight * static_cast<double>(batch.out) / n;
  }
  const double mean = std::clamp(sum / weights, 1e-4, parameters.value("nursery.stage.most"));
  return {stage, mean, std::min(0.5, r + 1 / weights), Origin::measured, std::move(source)};
}

}  // namespace wildling::nursery
