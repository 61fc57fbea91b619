#pragma once
#include <cstdint>
#include <span>
#include <vector>

#include "base/message.hpp"
#include "base/progress.hpp"
#include "base/random.hpp"
#include "layout/places.hpp"

namespace wildling::layout {

constexpr std::uint8_t kEmptyPlace = 255;  ///< no seedling: a natural tree stands for it
constexpr std::size_t kMostSpecies = 255;  ///< bytes 0 to 254

/// Which places of a square grid are neighbours. On a triangular grid it is always the six nearest.
enum class Neighbours { sides /* 4 */, sides_and_corners /* 8 */ };

/// Which species stands where in one block.
struct Assignment {
  std::vector<std::uint8_t> species;  ///< per place: index into `counts`, or kEmptyPlace
  std::int64_t planted = 0;
  std::int64_t empty = 0;
  std::int64_t like_pairs = 0;  ///< neighbouring places that hold the same species, each pair once
  std::int64_t most_without_pairs =
      0;  ///< no species can have more seedlings than this here without a like pair
  std::int64_t fewest_like_pairs =
      0;  ///< no arrangement of these counts has fewer than this (a lower bound)
  std::vector<int> too_many;  ///< species whose count exceeds most_without_pairs
};

/// Which `planted` of the places are used, spread evenly: places are ranked by the fractional part
/// of row x 0.7549 + column x 0.5698 (the two-dimensional golden ratio: Roberts 2018, The
/// unreasonable effectiveness of quasirandom sequences), in 32-bit whole numbers; those with the
/// lowest rank are used. No chance is involved.
/// @throws Error{infeasible} when planted > places
std::vector<bool> spread_evenly(const Places& places, std::int64_t planted);

/// Exact counts of each species on the places, like neighbours avoided.
///
/// Places beyond the sum of `counts` are left empty, spread evenly. The species bytes are shuffled
/// (Fisher and Yates) by the stream of (seed, "layout.assign", block_index), then laid in order of
/// places; where the next one equals a neighbour already laid, the first that fits is taken from
/// further down the queue; what is left is repaired by random swaps that never raise the number of
/// like pairs. Neighbours are those of the real, ragged rows; a place left empty is nobody's
/// neighbour. Neighbours in other blocks are not looked at. The bound: places are covered with
/// tiles in which all are neighbours of each other (2, 3 or 4 places); a species can have at most
/// one seedling per tile. On full ground this is 1/2 (four neighbours), 1/3 (six), 1/4 (eight) of
/// the places.
///
/// @param counts  seedlings per species, none negative, at most 255 species
/// @throws Error{usage} for a negative count or more than 255 species; Error{infeasible} when there
/// are more seedlings
///         than places; Cancelled
Assignment assign(const Places& places, std::span<const int> counts, Seed seed,
                  std::uint64_t block_index, Neighbours neighbours = Neighbours::sides,
                  const Progress& progress = {});

/// What a person should know about an assignment: like pairs left, the species that is too many for
/// none to be left, and that neighbours in other blocks were not looked at. The first is the
/// answer.
/// @param counts  as given to assign
std::vector<Message> messages_of(const Assignment& assignment, std::span<const int> counts);

/// Pairs of neighbouring places with the same species, each once.
std::int64_t count_like_pairs(const Places& places, std::span<const std::uint8_t> species,
                              Neighbours neighbours);

/// Seedlings per species of a row (0-based index into places.rows); `species` = number of species.
std::vector<int> counts_in_row(const Places& places, std::span<const std::uint8_t> assigned,
                               std::size_t row, std::size_t species);

}  // namespace wildling::layout
