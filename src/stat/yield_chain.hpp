#pragma once
#include <cstddef>
#include <span>
#include <vector>

namespace wildling::stat {

/// One stage that thins a batch: each unit passes with the same chance, and that chance is drawn
/// once per batch from a beta distribution.
struct Stage {
  double mean = 1;         ///< share that passes, in (0, 1]
  double correlation = 0;  ///< within-batch correlation of two units' fates, in [0, 1): 1/(a + b +
                           ///< 1) of the beta; 0 = every batch has the same chance
};

/// Distribution of the share T that passes a whole chain, as a histogram: cell i holds `mass[i]`,
/// spread evenly over [low[i], high[i]]. Masses sum to 1 within 1e-12.
struct YieldDistribution {
  std::vector<double> low, high, mass;

  [[nodiscard]] std::size_t cells() const { return mass.size(); }

  [[nodiscard]] double mean() const;
  /// Share not reached in `chance` of the batches, e.g. 0.05: linear inside a cell.
  [[nodiscard]] double quantile(double chance) const;
};

/// Distribution of T, the product of independent betas: if each stage's rate is drawn once per
/// batch, thinning in a row is one binomial, final | rates ~ Bin(N, T).
///
/// Method: ln T on a grid of step 1/128, one convolution per stage; the midpoints of the cells
/// shift by half a step per convolution and are put back. A stage without correlation moves the
/// grid exactly. Tails below 1e-12 are cut, and no stage reaches below exp(-64). Accuracy: the mean
/// of T within 1e-4 relative of the product of the means.
/// @throws Error{input} when a mean is outside (0, 1] or a correlation outside [0, 1)
YieldDistribution product_of_stages(std::span<const Stage> stages);

/// Distribution of the mean rate of several lots whose rates are independent: sum of weight_j T_j.
/// @param weights  >= 0, same length as parts, sum 1 within 1e-9
/// Method: convolution on 2,048 even cells from 0 to the largest sum, mass split so that means are
/// kept. Use with Bin(N, mean rate): the true count is less spread (Hoeffding 1956, Ann. Math.
/// Stat. 27:713), so counts come out on the safe side.
YieldDistribution mean_of_lots(std::span<const YieldDistribution> parts,
                               std::span<const double> weights);

/// P(at least `need` of n units pass) = E[P(Bin(n, T) >= need)].
double chance_of_enough(long long need, long long n, const YieldDistribution& yield);

/// A number already in hand with its own luck: `count[i]` units arrive with chance `mass[i]`.
struct InHand {
  std::vector<long long> count;
  std::vector<double> mass;
};

/// What arrives of `units` that still have to pass a chain: 24 classes, narrow where few arrive,
/// each taken at its lower end, so that chances computed from it are never above the true ones.
InHand arriving(long long units, const YieldDistribution& yield);

/// P(enough) when some are in hand already.
double chance_of_enough(long long need, long long n, const YieldDistribution& yield,
                        const InHand& in_hand);

/// Smallest n with chance_of_enough(need, n, yield, in_hand) >= confidence, by bisection; 0 when
/// what is in hand does.
/// @param confidence  in (0, 1)
/// @param in_hand     empty = nothing
/// @throws Error{infeasible} when more than 2e9 would be needed
long long smallest_count(long long need, const YieldDistribution& yield, double confidence,
                         const InHand& in_hand = {});

}  // namespace wildling::stat
