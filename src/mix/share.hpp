#pragma once
#include <span>
#include <vector>

/// Shares the counts of a ground type out to its blocks.
namespace wildling::mix {

struct BlockRoom {
  double weight = 0;     ///< living trees the block still needs, or its area; >= 0
  long long places = 0;  ///< planting places in the block
};

/// How many seedlings each block gets: in proportion to weight by largest remainders, never more
/// than its places; what a full block cannot take goes to the others in proportion. Ties go to the
/// earlier block.
/// @throws Error{infeasible} when all places together are too few, Error{input} for weights or
/// counts that
///         cannot be (negative, NaN, all zero with seedlings to share)
std::vector<long long> seedlings_per_block(long long seedlings, std::span<const BlockRoom> blocks);

/// Whole numbers [block][species] whose sums over blocks are exactly `species_counts` and over
/// species exactly seedlings_per_block: each entry is the proportional share rounded down or up.
///
/// Method: controlled rounding (Cox 1987, J. Am. Stat. Assoc. 82:520-524; that a table of margins R
/// and C always has one: Bacharach 1966): the table R_b C_s / T is floored and the rest, a 0/1
/// table with known margins, is a flow found by augmenting paths. Exact integer arithmetic; same
/// result on every machine.
std::vector<std::vector<int>> share_among_blocks(std::span<const int> species_counts,
                                                 std::span<const BlockRoom> blocks);

}  // namespace wildling::mix
