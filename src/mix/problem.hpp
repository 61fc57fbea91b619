#pragma once
#include <optional>
#include <span>
#include <vector>

#include "mix/mix.hpp"
#include "mix/solver.hpp"

/// Inside of the room: the checked question in numbers, and its linear model.
namespace wildling::mix {

using Counts = std::vector<std::vector<int>>;

struct Problem {
  std::size_t grounds = 0;
  std::size_t candidates = 0;
  Demands demands;
  std::vector<std::vector<Suits>> suitability;  // [g][i]
  std::vector<std::vector<double>> survival;    // [g][i]
  std::vector<double> need;                     // living stems, [g]
  std::vector<long long> places;                // [g]
  std::vector<bool> open;                       // [g]
  std::vector<double> even;                     // E_g; 0 where nothing is planted
  std::vector<std::optional<long long>> stock;  // [i]; empty: unknown
  std::vector<double> price;                    // [i]
  std::vector<bool> price_known;
  std::vector<bool> pioneer;
  bool any_price = false;
  double spread_price = 0;  // w

  [[nodiscard]] bool planted(std::size_t g) const { return need[g] > 0; }

  [[nodiscard]] bool may(std::size_t g, std::size_t i) const {
    return planted(g) && suitability[g][i] == Suits::yes;
  }

  [[nodiscard]] bool anything() const;
  [[nodiscard]] bool may_anywhere(std::size_t i) const;
};

/// @throws Error{input}, Error{usage} as choose()
Problem make_problem(std::span<const GroundNeed> grounds,
                     std::span<const species::Candidate> candidates,
                     std::span<const SurvivalRow> survival, const Demands& demands);

/// A demand that may give in the elastic model; ground is kAll for demands of the whole order.
constexpr std::size_t kAll = static_cast<std::size_t>(-1);

struct Elastic {
  DemandKind kind = DemandKind::living;
  std::size_t ground = kAll;
  double weight = 1;  // cost of one unit of slack
};

struct Model {
  LinearModel linear;
  std::vector<std::vector<int>> x;      // column of x[g][i]; -1 when not suitable
  std::vector<int> y;                   // column of y[i]; -1 when nowhere suitable
  std::vector<std::vector<int>> slack;  // per elastic demand: its columns
};

/// The model of mix.hpp. With `elastic` demands their slack is minimised; cost, at a ten-thousandth
/// of its size as a part of the whole cost, only decides between mixes that give equally little.
Model make_model(const Problem& problem, std::span<const Elastic> elastic);

Counts counts_of(const Model& model, const Problem& problem, const Solution& solution);

/// Mean expected survival of a ground's suitable species; 0 when there is none.
double mean_survival(const Problem& problem, std::size_t g);

/// Seedlings the whole order takes at mean survival: a scale, not a result.
double order_of(const Problem& problem);

/// Cost at the prices used, and the charge for crowding, of given counts.
double cost_of(const Problem& problem, const Counts& planted);
double spread_charge_of(const Problem& problem, const Counts& planted);

/// Fills clashes, alone and nearest of a choice that has no mix.
void explain_clashes(const Problem& problem, std::span<const GroundNeed> grounds,
                     std::span<const species::Candidate> candidates, Choice& choice,
                     const Progress& progress);

SolveLimits limits_of(const Demands& demands);

}  // namespace wildling::mix
