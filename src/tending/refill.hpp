#pragma once
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "base/message.hpp"
#include "base/parameters.hpp"

namespace wildling::tending {

enum class PlaceState : std::uint8_t { not_looked_at, alive, dead };

/// A count of a block by place: rows in order, each with its places in order. Rows may differ in
/// length.
using PlaceRows = std::vector<std::vector<PlaceState>>;

enum class RefillVerdict { refill, wait, find_the_cause, cannot_tell };

std::string_view verdict_name(RefillVerdict verdict);

struct RefillAdvice {
  RefillVerdict verdict = RefillVerdict::cannot_tell;
  int looked_at = 0, dead = 0;
  double dead_share = 0, share_low = 0, share_high = 0;  ///< Wilson 95 %
  int in_gaps =
      0;  ///< dead with at least tending.refill.dead_neighbours dead among the neighbours: before
          ///< and after in the row, and the nearest in the rows on both sides
  std::vector<int> gaps_by_row;  ///< same order as the rows: what the refill order says per row
  Message first_line;
  std::vector<Message> notes;
};

/// ILO (1993) section 6.6: refill only when more than 2 in 10 are dead and they stand together (two
/// neighbours dead), count at the end of the first dry season, after two refills stop and find the
/// cause. Cannot tell: nothing looked at, or the interval of the dead share holds the limit and
/// fewer than all places were looked at. Places in neighbouring rows are matched by their share of
/// the row's length.
RefillAdvice refill_advice(const PlaceRows& rows, int refills_before, const Parameters& parameters);

/// Money of a refill per tree of it that lives, against the loss of waiting.
struct RefillCost {
  double per_planted = 0;  ///< work and seedling
  double per_living = 0;   ///< per_planted over the survival expected of a refill
  double all = 0;
};

/// @param survival  expected of the refill cohort, in (0, 1]
RefillCost refill_cost(int trees, double survival, const Parameters& parameters);

}  // namespace wildling::tending
