#include "mix/solver.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#if defined(__GNUC__)
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wconversion"
#pragma GCC diagnostic ignored "-Wsign-conversion"
#pragma GCC diagnostic ignored "-Wold-style-cast"
#pragma GCC diagnostic ignored "-Wshadow"
#pragma GCC diagnostic ignored "-Wpedantic"
#pragma GCC diagnostic ignored "-Wextra"
#endif
#include <CbcEventHandler.hpp>
#include <CbcModel.hpp>
#include <CbcSolver.hpp>
#include <CoinPackedMatrix.hpp>
#include <OsiClpSolverInterface.hpp>
#if defined(__GNUC__)
#pragma GCC diagnostic pop
#endif

#include "base/progress.hpp"

namespace wildling::mix {
namespace {

/// Ends the search when the caller asks for it.
class StopHandler : public CbcEventHandler {
 public:
  explicit StopHandler(std::stop_token token) : token_(std::move(token)) {}

  CbcAction event(CbcEvent) override { return token_.stop_requested() ? stop : noAction; }

  CbcAction event(CbcEvent which, void*) override { return event(which); }

  [[nodiscard]] CbcEventHandler* clone() const override { return new StopHandler(*this); }

 private:
  std::stop_token token_;
};

void load(const LinearModel& model, OsiClpSolverInterface& solver) {
  const int columns = static_cast<int>(model.columns.size());
  CoinPackedMatrix matrix(false, 0, 0);
  matrix.setDimensions(0, columns);
  std::vector<double> row_lower;
  std::vector<double> row_upper;
  for (const LinearRow& row : model.rows) {
    CoinPackedVector terms;
    for (const auto& term : row.terms) {
      if (term.second != 0) terms.insert(term.first, term.second);
    }
    matrix.appendRow(terms);
    row_lower.push_back(row.lower);
    row_upper.push_back(row.upper);
  }
  std::vector<double> lower;
  std::vector<double> upper;
  std::vector<double> cost;
  for (const LinearColumn& column : model.columns) {
    lower.push_back(column.lower);
    upper.push_back(column.upper);
    cost.push_back(column.cost);
  }
  solver.loadProblem(matrix, lower.data(), upper.data(), cost.data(), row_lower.data(),
                     row_upper.data());
  for (int j = 0; j < columns; ++j) {
    if (model.columns[static_cast<std::size_t>(j)].whole) solver.setInteger(j);
  }
}

// CBC declares its arguments without const and does not change them.
const char** arguments_data(const std::vector<const char*>& arguments) {
  return const_cast<const char**>(arguments.data());
}

void run(CbcModel& model, const SolveLimits& limits, const std::stop_token& token) {
  StopHandler handler(token);
  model.passInEventHandler(&handler);
  CbcSolverUsefulData data;
  CbcMain0(model, data);
  data.noPrinting_ = true;
  data.useSignalHandler_ = false;
  const std::string gap = fmt::format("{}", limits.gap);
  const std::string nodes = fmt::format("{}", limits.nodes);
  const std::string seconds = fmt::format("{}", limits.seconds);
  // CBC's own heuristics and preprocessing are off: with them CBC 2.10.8 can end the program by a
  // failed assertion of its simplex (seen on 1 of 1,000 to 1 of 30,000 random small questions: a
  // heuristic leaves bounds behind that cross). solve_staged() finds the first mix instead.
  const std::vector<const char*> arguments = {
      "mix",  "-log",          "0",        "-ratio", gap.c_str(), "-maxN", nodes.c_str(),
      "-sec", seconds.c_str(), "-threads", "0",      "-heur",     "off",   "-preprocess",
      "off",  "-solve",        "-quit"};
  CbcMain1(
      static_cast<int>(arguments.size()), arguments_data(arguments), model,
      [](CbcModel*, int) { return 0; }, data);
}

Solution read(const CbcModel& cbc, const LinearModel& model) {
  Solution solution;
  solution.met_clock = cbc.isSecondsLimitReached();
  const double* values = cbc.bestSolution();
  if (values == nullptr) {
    solution.status = cbc.isProvenInfeasible() ? SolveStatus::infeasible : SolveStatus::unknown;
    return solution;
  }
  solution.status = cbc.isProvenOptimal() ? SolveStatus::optimal : SolveStatus::feasible;
  solution.values.assign(values, values + model.columns.size());
  for (std::size_t j = 0; j < model.columns.size(); ++j) {
    if (model.columns[j].whole) solution.values[j] = std::round(solution.values[j]);
    solution.objective += model.columns[j].cost * solution.values[j];
  }
  solution.bound = std::min(cbc.getBestPossibleObjValue(), solution.objective);
  return solution;
}

}  // namespace

Solution solve(const LinearModel& model, const SolveLimits& limits, std::stop_token stop) {
  if (stop.stop_requested()) throw Cancelled{};
  OsiClpSolverInterface solver;
  solver.messageHandler()->setLogLevel(0);
  load(model, solver);
  CbcModel cbc(solver);
  cbc.messageHandler()->setLogLevel(0);
  run(cbc, limits, stop);
  if (stop.stop_requested()) throw Cancelled{};
  return read(cbc, model);
}

}  // namespace wildling::mix
