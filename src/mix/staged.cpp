#include <algorithm>
#include <cmath>

#include "mix/solver.hpp"

namespace wildling::mix {
namespace {

bool is_count(const LinearColumn& column) {
  return column.whole && column.upper > 1;
}

LinearModel with_real_counts(LinearModel model) {
  for (LinearColumn& column : model.columns) {
    if (is_count(column)) column.whole = false;
  }
  return model;
}

struct RowKind {
  double margin = 0;     // the most that rounding each count by up to 1/2 can move the row
  int switch_term = -1;  // place of its 0/1 column, if it has one
  bool adjusts = false;  // has a continuous column that can follow the rounding
};

RowKind kind_of(const LinearRow& row, const LinearModel& model) {
  RowKind kind;
  for (std::size_t t = 0; t < row.terms.size(); ++t) {
    const LinearColumn& column = model.columns[static_cast<std::size_t>(row.terms[t].first)];
    if (is_count(column)) {
      kind.margin += std::abs(row.terms[t].second) / 2;
    } else if (column.whole) {
      kind.switch_term = static_cast<int>(t);
    } else {
      kind.adjusts = true;
    }
  }
  return kind;
}

// In a row with a switch y the margin applies only when y = 1: its counts are 0 otherwise.
void tighten(LinearRow& row, const LinearModel& model) {
  const RowKind kind = kind_of(row, model);
  if (kind.adjusts || kind.margin == 0) return;
  if (kind.switch_term >= 0) {
    double& coefficient = row.terms[static_cast<std::size_t>(kind.switch_term)].second;
    coefficient += row.upper < kInfinity ? kind.margin : -kind.margin;
    return;
  }
  if (row.lower > -kInfinity) row.lower += kind.margin;
  if (row.upper < kInfinity) row.upper -= kind.margin;
}

LinearModel tightened(const LinearModel& model) {
  LinearModel result = with_real_counts(model);
  for (LinearRow& row : result.rows) tighten(row, model);
  return result;
}

bool row_holds(const LinearRow& row, const std::vector<double>& values) {
  double sum = 0;
  for (const auto& term : row.terms)
    sum += term.second * values[static_cast<std::size_t>(term.first)];
  const double slack = 1e-7 * std::max(1.0, std::abs(sum));
  return sum >= row.lower - slack && sum <= row.upper + slack;
}

// The least value of a row's continuous column that keeps the row, given its whole columns.
double least_follower(const LinearRow& row, double coefficient, double rest) {
  if (coefficient < 0 && row.upper < kInfinity) return (rest - row.upper) / -coefficient;
  if (coefficient > 0 && row.lower > -kInfinity) return (row.lower - rest) / coefficient;
  return 0;
}

// Counts rounded; continuous columns, which only measure an excess or a shortfall, as small as
// their rows allow.
void round_counts(const LinearModel& model, std::vector<double>& values) {
  for (std::size_t j = 0; j < values.size(); ++j) {
    values[j] = model.columns[j].whole ? std::round(values[j]) : model.columns[j].lower;
  }
  for (const LinearRow& row : model.rows) {
    const std::pair<int, double>* follower = nullptr;
    double rest = 0;
    for (const auto& term : row.terms) {
      const auto j = static_cast<std::size_t>(term.first);
      if (model.columns[j].whole) rest += term.second * values[j];
      if (!model.columns[j].whole) follower = &term;
    }
    if (follower == nullptr) continue;
    double& value = values[static_cast<std::size_t>(follower->first)];
    value = std::max(value, least_follower(row, follower->second, rest));
  }
}

bool take_rounded(const LinearModel& model, Solution& solution) {
  round_counts(model, solution.values);
  solution.objective = 0;
  for (std::size_t j = 0; j < solution.values.size(); ++j) {
    solution.objective += model.columns[j].cost * solution.values[j];
    if (solution.values[j] > model.columns[j].upper + 1e-9) return false;
  }
  return std::all_of(model.rows.begin(), model.rows.end(),
                     [&](const LinearRow& row) { return row_holds(row, solution.values); });
}

bool within_gap(const Solution& s, double gap) {
  return s.objective - s.bound <= gap * std::abs(s.objective);
}

// The better solution with the better bound.
Solution best_of(Solution a, Solution b, double gap) {
  const bool take_a = !a.values.empty() && (b.values.empty() || a.objective < b.objective);
  Solution best = take_a ? a : b;
  best.met_clock = a.met_clock || b.met_clock;
  if (best.values.empty()) return best;
  best.bound = std::min(best.objective, b.values.empty() ? a.bound : std::max(a.bound, b.bound));
  best.status = within_gap(best, gap) ? SolveStatus::optimal : SolveStatus::feasible;
  return best;
}

}  // namespace

Solution solve_staged(const LinearModel& model, const SolveLimits& limits, std::stop_token stop) {
  if (limits.gap <= 0) return solve(model, limits, stop);
  SolveLimits half = limits;
  half.gap = limits.gap / 2;
  const Solution real = solve(with_real_counts(model), half, stop);
  if (real.status == SolveStatus::infeasible) return real;
  Solution rounded;
  if (!real.values.empty()) {
    rounded = solve(tightened(model), half, stop);
    if (!rounded.values.empty() && !take_rounded(model, rounded)) rounded.values.clear();
    rounded.bound = std::min(real.bound, rounded.objective);
    rounded.met_clock = rounded.met_clock || real.met_clock;
    rounded.status = SolveStatus::optimal;
    if (!rounded.values.empty() && within_gap(rounded, limits.gap)) return rounded;
  }
  return best_of(rounded, solve(model, limits, stop), limits.gap);
}

}  // namespace wildling::mix
