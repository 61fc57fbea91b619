#pragma once
#include <cstddef>
#include <span>
#include <vector>

#include "mix/mix.hpp"

/// Which unknown, if somebody looked, could change the mix.
namespace wildling::mix {

enum class BlankKind {
  survival_open,   ///< nobody counted how many of this species live in the open here
  survival_cover,  ///< nor under cover
  flood            ///< not known whether it stands floods
};

/// One blank and what the mix becomes at both ends of what it could be.
struct Blank {
  std::size_t candidate = 0;
  BlankKind kind = BlankKind::survival_open;
  double low = 0;  ///< survival tried, as a share; 0 and 1 (no, yes) for flood
  double high = 0;
  bool mix_at_low = false;  ///< a mix was found there
  bool mix_at_high = false;
  long long seedlings_low = 0;  ///< the whole order there; 0 without a mix
  long long seedlings_high = 0;
  bool other_species = false;  ///< the list of species planted differs from the choice's
  double weight =
      0;  ///< larger of the two changes of the objective, as a part of it; 1 without a mix
  Message message;
};

/// Solves again with each blank at its published low and high, for at most `most` blanks of each
/// kind: survival of the species that carry most of the expected living trees and have no own
/// count, and species kept off flooded ground because nobody knows. One blank at a time; together
/// they may do more. Weightiest first.
/// @param choice  found by choose() with the same arguments; empty result when it has no mix
/// @throws Cancelled
std::vector<Blank> blanks_that_matter(std::span<const GroundNeed> grounds,
                                      std::span<const species::Candidate> candidates,
                                      std::span<const SurvivalRow> survival, const Demands& demands,
                                      const Choice& choice, std::size_t most,
                                      const Progress& progress = {});

}  // namespace wildling::mix
