#include <algorithm>
#include <cmath>

#include "base/error.hpp"
#include "mix/notes.hpp"
#include "mix/problem.hpp"

namespace wildling::mix {
namespace {

GroundResult ground_result(const Problem& p, std::size_t g, const std::vector<int>& planted,
                           const SurvivalRow& row) {
  GroundResult r{.needed_living = p.need[g], .places = p.places[g]};
  for (std::size_t i = 0; i < p.candidates; ++i) {
    const int x = planted[i];
    r.planted += x;
    r.pioneers += p.pioneer[i] ? x : 0;
    r.species += x > 0 ? 1 : 0;
    r.expected_living += x * row.of_candidate[i].share;
    r.living_low += x * row.of_candidate[i].low;
    r.living_high += x * row.of_candidate[i].high;
  }
  return r;
}

int species_in(const Counts& planted, std::size_t candidates) {
  int n = 0;
  for (std::size_t i = 0; i < candidates; ++i) {
    const bool used =
        std::any_of(planted.begin(), planted.end(), [&](const auto& row) { return row[i] > 0; });
    n += used ? 1 : 0;
  }
  return n;
}

// Everything that follows from the counts alone, in a fixed order of summing.
void fill_results(const Problem& p, std::span<const SurvivalRow> survival, Choice& choice) {
  choice.grounds.clear();
  choice.total = 0;
  for (std::size_t g = 0; g < p.grounds; ++g) {
    choice.grounds.push_back(ground_result(p, g, choice.planted[g], survival[g]));
    choice.total += choice.grounds.back().planted;
  }
  choice.species = species_in(choice.planted, p.candidates);
  const double cost = cost_of(p, choice.planted);
  choice.cost.reset();
  if (p.any_price) choice.cost = cost;
  choice.spread_charge = spread_charge_of(p, choice.planted);
  choice.objective = cost + choice.spread_charge;
}

void take_solution(const Problem& p, const Model& model, const Solution& solution, Choice& choice) {
  choice.verdict = Verdict::found;
  choice.planted = counts_of(model, p, solution);
  choice.repeatable = !solution.met_clock;
}

void set_gap(const Problem& p, const Solution& solution, Choice& choice) {
  choice.bound = std::min(solution.bound, choice.objective);
  choice.gap = choice.objective > 0 ? (choice.objective - choice.bound) / choice.objective : 0;
  constexpr double kRounding = 1e-9;
  choice.proven =
      solution.status == SolveStatus::optimal && choice.gap <= p.demands.gap + kRounding;
}

Choice empty_choice(const Problem& p) {
  Choice choice;
  choice.planted.assign(p.grounds, std::vector<int>(p.candidates, 0));
  choice.suitability = p.suitability;
  choice.price_used = p.price;
  return choice;
}

void hold_to_demands(std::span<const GroundNeed> grounds,
                     std::span<const species::Candidate> candidates,
                     std::span<const SurvivalRow> survival, const Demands& demands,
                     const Choice& choice) {
  const auto broken = broken_demands(grounds, candidates, survival, demands, choice.planted);
  if (!broken.empty()) throw Error(ErrorKind::internal, "mix", broken.front());
}

// True when a ground that needs trees has no species that may stand there: nothing to solve.
bool lacks_species(const Problem& p) {
  for (std::size_t g = 0; g < p.grounds; ++g) {
    bool any = !p.planted(g);
    for (std::size_t i = 0; i < p.candidates; ++i) any = any || p.may(g, i);
    if (!any) return true;
  }
  return false;
}

}  // namespace

Choice choose(std::span<const GroundNeed> grounds, std::span<const species::Candidate> candidates,
              std::span<const SurvivalRow> survival, const Demands& demands,
              const Progress& progress) {
  check_stop(progress);
  const Problem p = make_problem(grounds, candidates, survival, demands);
  Choice choice = empty_choice(p);
  Solution solution;
  if (!p.anything()) {
    choice.verdict = Verdict::found;
    solution.status = SolveStatus::optimal;
  } else if (lacks_species(p)) {
    choice.verdict = Verdict::none_exists;
  } else {
    const Model model = make_model(p, {});
    solution = solve_staged(model.linear, limits_of(demands), progress.stop);
    if (!solution.values.empty()) take_solution(p, model, solution, choice);
    if (solution.status == SolveStatus::infeasible) choice.verdict = Verdict::none_exists;
    choice.repeatable = !solution.met_clock;
  }
  fill_results(p, survival, choice);
  if (choice.verdict == Verdict::found) {
    set_gap(p, solution, choice);
    hold_to_demands(grounds, candidates, survival, demands, choice);
  }
  if (choice.verdict == Verdict::none_exists)
    explain_clashes(p, grounds, candidates, choice, progress);
  choice.notes = notes_of(p, grounds, candidates, survival, choice);
  return choice;
}

}  // namespace wildling::mix
