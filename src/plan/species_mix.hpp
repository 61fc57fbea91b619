#pragma once
#include "base/progress.hpp"
#include "mix/mix.hpp"
#include "plan/land.hpp"
#include "species/survival.hpp"

namespace wildling::plan {

/// Ground types of blocks that are open, or of those on hold, with the blocks of each.
struct Grounds {
  std::vector<mix::GroundNeed> needs;
  std::vector<std::vector<std::size_t>> blocks;  ///< indices into Land::blocks
};

Grounds grounds_of(const Land& land, const Programme& programme, bool open);

/// A solved mix and what it was solved with.
struct SolvedMix {
  Grounds grounds;
  std::vector<mix::SurvivalRow> survival;
  mix::Demands demands;
  mix::Choice choice;
  std::vector<Message> eased;
  std::vector<Message> granted;  ///< demands that had to give, for a draft; empty otherwise
};

/// @param draft  when no mix meets the demands: take the nearest one and say what it grants
/// @throws Error{infeasible} naming the demands that clash
SolvedMix solve_mix(Grounds grounds, const std::vector<species::Candidate>& candidates, bool draft,
                    const Parameters& parameters, const Progress& progress);

/// Candidates with what `used` takes from their stock.
std::vector<species::Candidate> stock_left(const std::vector<species::Candidate>& candidates,
                                           const mix::Choice& used);

/// Shares the mix out to the blocks: fills BlockPart::counts and planted.
void share_out(const SolvedMix& mix, const Programme& programme, Land& land);

std::vector<GroundPart> ground_parts(const SolvedMix& mix, bool open);

}  // namespace wildling::plan
