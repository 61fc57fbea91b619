#pragma once
#include <stop_token>
#include <utility>
#include <vector>

/// A mixed-integer linear programme in plain structs; CBC stays behind this header.
namespace wildling::mix {

struct LinearColumn {
  double lower = 0;
  double upper = 0;
  double cost = 0;
  bool whole = false;
};

struct LinearRow {
  double lower = 0;
  double upper = 0;
  std::vector<std::pair<int, double>> terms;  ///< (column, coefficient), each column once
};

struct LinearModel {
  std::vector<LinearColumn> columns;
  std::vector<LinearRow> rows;

  int add(LinearColumn column) {
    columns.push_back(column);
    return static_cast<int>(columns.size()) - 1;
  }
};

constexpr double kInfinity = 1e30;

enum class SolveStatus { optimal, feasible, infeasible, unknown };

struct SolveLimits {
  double gap = 0;
  int nodes = 20000;
  double seconds = 60;
};

struct Solution {
  SolveStatus status = SolveStatus::unknown;
  std::vector<double> values;  ///< whole columns rounded; empty unless optimal or feasible
  double objective = 0;
  double bound = 0;
  bool met_clock = false;
};

/// Minimises. @throws Cancelled when asked to stop
Solution solve(const LinearModel& model, const SolveLimits& limits, std::stop_token stop);

/// The same in up to three steps, for models whose whole numbers are large counts beside a few 0/1
/// columns. 1 Counts as real numbers: its bound holds for whole counts, and if it is infeasible so
/// is the model. 2 Counts as real numbers with every row tightened by half its coefficients, so
/// that rounding each count
///   to the nearest whole number cannot break a row: a solution, if there is one.
/// 3 When 2 is not within the gap of 1: the model itself; the better solution and the better bound
/// are kept. With a gap of 0 only step 3.
/// @throws Cancelled when asked to stop
Solution solve_staged(const LinearModel& model, const SolveLimits& limits, std::stop_token stop);

}  // namespace wildling::mix
