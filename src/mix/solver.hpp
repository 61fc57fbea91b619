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

}  // namespace wildling::mix
