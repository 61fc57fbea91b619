#pragma once
#include "mix/problem.hpp"

namespace wildling::mix {

/// What is unknown or was assumed behind a choice, the weightiest first.
std::vector<Message> notes_of(const Problem& problem, std::span<const GroundNeed> grounds,
                              std::span<const species::Candidate> candidates,
                              std::span<const SurvivalRow> survival, const Choice& choice);

/// "a, b, c and more": the first six names.
std::string names_list(const std::vector<std::string>& names);

}  // namespace wildling::mix
