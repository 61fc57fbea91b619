#include "mix/share.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numeric>

#include "base/error.hpp"

namespace wildling::mix {
namespace {

using Row = std::vector<int>;

void check(long long seedlings, std::span<const BlockRoom> blocks) {
  long long places = 0;
  for (const BlockRoom& block : blocks) {
    if (!(block.weight >= 0 && block.weight <= 1e15) || block.places < 0) {
      throw Error(ErrorKind::input, "",
                  say("mix.bad_block", {{"weight", block.weight},
                                        {"places", static_cast<std::int64_t>(block.places)}}));
    }
    if (block.weight > 0) places += block.places;
  }
  if (seedlings < 0)
    throw Error(ErrorKind::input, "", say("mix.bad_count", {{"value", double(seedlings)}}));
  if (seedlings > places) {
    throw Error(ErrorKind::infeasible, "",
                say("mix.blocks_too_small", {{"seedlings", static_cast<std::int64_t>(seedlings)},
                                             {"places", static_cast<std::int64_t>(places)}}));
  }
}

// Blocks whose share would pass their places are filled and leave the sharing; repeats until none
// is.
std::vector<double> quotas(long long seedlings, std::span<const BlockRoom> blocks) {
  std::vector<double> quota(blocks.size(), 0);
  std::vector<bool> full(blocks.size(), false);
  double left = static_cast<double>(seedlings);
  for (bool again = true; again;) {
    again = false;
    double weights = 0;
    for (std::size_t b = 0; b < blocks.size(); ++b) weights += full[b] ? 0 : blocks[b].weight;
    if (weights <= 0) break;
    const double each = left / weights;
    for (std::size_t b = 0; b < blocks.size(); ++b) {
      const double places = static_cast<double>(blocks[b].places);
      if (full[b] || each * blocks[b].weight < places) continue;
      full[b] = true;
      quota[b] = places;
      left -= places;
      again = true;
    }
    for (std::size_t b = 0; b < blocks.size(); ++b) {
      if (!full[b]) quota[b] = each * blocks[b].weight;
    }
  }
  return quota;
}

// Finds the 0/1 table with given margins inside `may`: augmenting paths from blocks to species and
// back.
class Ones {
 public:
  Ones(std::vector<Row> may, std::vector<long long> column_left)
      : may_(std::move(may)),
        left_(std::move(column_left)),
        set_(may_.size(), Row(left_.size(), 0)) {}

  bool place_one(std::size_t block) {
    seen_.assign(left_.size(), false);
    return augment(block);
  }

  [[nodiscard]] int at(std::size_t b, std::size_t s) const { return set_[b][s]; }

 private:
  bool augment(std::size_t b) {
    for (std::size_t s = 0; s < left_.size(); ++s) {
      if (may_[b][s] == 0 || set_[b][s] == 1 || seen_[s]) continue;
      seen_[s] = true;
      if (left_[s] > 0) {
        --left_[s];
        set_[b][s] = 1;
        return true;
      }
      if (move_another_off(b, s)) return true;
    }
    return false;
  }

  bool move_another_off(std::size_t b, std::size_t s) {
    for (std::size_t other = 0; other < may_.size(); ++other) {
      if (other == b || set_[other][s] == 0) continue;
      if (augment(other)) {
        set_[other][s] = 0;
        set_[b][s] = 1;
        return true;
      }
    }
    return false;
  }

  std::vector<Row> may_;
  std::vector<long long> left_;
  std::vector<Row> set_;
  std::vector<bool> seen_;
};

}  // namespace

std::vector<long long> seedlings_per_block(long long seedlings, std::span<const BlockRoom> blocks) {
  check(seedlings, blocks);
  const std::vector<double> quota = quotas(seedlings, blocks);
  std::vector<long long> counts(blocks.size(), 0);
  std::vector<std::size_t> order(blocks.size());
  std::iota(order.begin(), order.end(), 0U);
  long long given = 0;
  for (std::size_t b = 0; b < blocks.size(); ++b) {
    counts[b] = std::min(blocks[b].places, static_cast<long long>(std::floor(quota[b])));
    given += counts[b];
  }
  const auto rest = [&](std::size_t b) { return quota[b] - std::floor(quota[b]); };
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return rest(a) > rest(b); });
  while (given < seedlings) {
    for (const std::size_t b : order) {
      if (given == seedlings || blocks[b].weight <= 0 || counts[b] >= blocks[b].places) continue;
      ++counts[b];
      ++given;
    }
  }
  return counts;
}

std::vector<std::vector<int>> share_among_blocks(std::span<const int> species_counts,
                                                 std::span<const BlockRoom> blocks) {
  std::int64_t total = 0;
  for (const int n : species_counts) {
    if (n < 0) throw Error(ErrorKind::input, "", say("mix.bad_count", {{"value", double(n)}}));
    total += n;
  }
  const std::vector<long long> rows = seedlings_per_block(total, blocks);
  std::vector<Row> table(blocks.size(), Row(species_counts.size(), 0));
  if (total == 0) return table;
  std::vector<Row> may = table;
  std::vector<long long> column_left(species_counts.begin(), species_counts.end());
  std::vector<long long> row_left = rows;
  for (std::size_t b = 0; b < blocks.size(); ++b) {
    for (std::size_t s = 0; s < species_counts.size(); ++s) {
      const std::int64_t product = rows[b] * std::int64_t{species_counts[s]};
      table[b][s] = static_cast<int>(product / total);
      may[b][s] = product % total > 0 ? 1 : 0;
      column_left[s] -= table[b][s];
      row_left[b] -= table[b][s];
    }
  }
  Ones ones(std::move(may), std::move(column_left));
  for (std::size_t b = 0; b < blocks.size(); ++b) {
    for (; row_left[b] > 0; --row_left[b]) {
      if (!ones.place_one(b)) throw Error(ErrorKind::internal, "mix", say("mix.share_failed"));
    }
  }
  for (std::size_t b = 0; b < blocks.size(); ++b) {
    for (std::size_t s = 0; s < species_counts.size(); ++s) table[b][s] += ones.at(b, s);
  }
  return table;
}

}  // namespace wildling::mix
