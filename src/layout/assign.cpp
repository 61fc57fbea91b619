#include "layout/assign.hpp"

#include <algorithm>

#include "base/error.hpp"
#include "layout/bound.hpp"
#include "layout/neighbours.hpp"
#include "layout/repair.hpp"
#include "layout/sweep.hpp"

namespace wildling::layout {
namespace {

constexpr Purpose kPurpose{"layout.assign"};
constexpr std::size_t kLookAhead = 512;
constexpr std::size_t kStopEvery = 1U << 16U;

std::int64_t checked_sum(std::span<const int> counts) {
  if (counts.size() > kMostSpecies) {
    throw Error(
        ErrorKind::usage, "counts",
        say("layout.too_many_species", {{"species", static_cast<std::int64_t>(counts.size())},
                                        {"most", static_cast<std::int64_t>(kMostSpecies)}}));
  }
  std::int64_t sum = 0;
  for (const int count : counts) {
    if (count < 0) {
      throw Error(ErrorKind::usage, "counts",
                  say("layout.negative_count", {{"count", std::int64_t{count}}}));
    }
    sum += count;
  }
  return sum;
}

std::vector<std::uint8_t> shuffled(std::span<const int> counts, std::int64_t sum, Stream& stream) {
  std::vector<std::uint8_t> queue;
  queue.reserve(static_cast<std::size_t>(sum));
  for (std::size_t s = 0; s < counts.size(); ++s) {
    queue.insert(queue.end(), static_cast<std::size_t>(counts[s]), static_cast<std::uint8_t>(s));
  }
  for (std::size_t i = queue.size(); i > 1; --i) {  // Fisher-Yates
    std::swap(queue[i - 1], queue[stream.below(static_cast<std::uint32_t>(i))]);
  }
  return queue;
}

struct Laid {
  std::vector<std::uint8_t> species;
  std::vector<std::size_t> unlucky;  // places whose species equals an earlier neighbour's
};

Laid lay(const Places& places, const std::vector<bool>& used, std::vector<std::uint8_t> queue,
         Neighbours neighbours, const Progress& progress) {
  Laid out;
  out.species.assign(places.size(), kEmptyPlace);
  const bool all = used.empty();
  std::size_t next = 0;
  Sweep sweep(places, neighbours);
  sweep.run([&](std::size_t place, std::uint8_t left, const std::uint8_t* across, int n) {
    if (!all && !used[place]) return kEmptyPlace;
    if (next % kStopEvery == 0) check_stop(progress);
    const auto clashes = [&](std::uint8_t s) {
      bool clash = s == left;
      for (int i = 0; i < n; ++i) clash = clash || s == across[i];
      return clash;
    };
    std::size_t take = next;
    const std::size_t end = std::min(queue.size(), next + kLookAhead);
    while (take < end && clashes(queue[take])) ++take;
    if (take == end) {
      take = next;
      out.unlucky.push_back(place);
    }
    std::swap(queue[next], queue[take]);
    return out.species[place] = queue[next++];
  });
  return out;
}

}  // namespace

std::vector<bool> spread_evenly(const Places& places, std::int64_t planted) {
  const auto n = static_cast<std::int64_t>(places.size());
  if (planted < 0 || planted > n) {
    throw Error(ErrorKind::infeasible, "block",
                say("layout.more_seedlings_than_places", {{"seedlings", planted}, {"places", n}}));
  }
  std::vector<bool> used(places.size(), planted == n);
  if (planted == n || planted == 0) return used;
  std::vector<std::uint64_t> rank(places.size());  // key in the upper half, place in the lower
  for (const Row& row : places.rows) {
    // 2^32 divided by g and by g^2, g = 1.32471795724474602596, the real root of g^3 = g + 1
    // (Roberts 2018)
    const std::uint32_t of_row = static_cast<std::uint32_t>(row.lattice) * 3242174889U;
    for (std::uint32_t i = row.first_run; i < row.first_run + row.runs; ++i) {
      const Run& run = places.runs[i];
      for (std::uint32_t c = 0; c < run.count; ++c) {
        const std::uint32_t key =
            of_row + (static_cast<std::uint32_t>(run.column) + c) * 2447445414U;
        rank[run.first + c] = (std::uint64_t{key} << 32U) | (run.first + c);
      }
    }
  }
  const auto cut = rank.begin() + static_cast<std::ptrdiff_t>(planted);
  std::nth_element(rank.begin(), cut, rank.end());
  for (auto it = rank.begin(); it != cut; ++it) used[static_cast<std::uint32_t>(*it)] = true;
  return used;
}

Assignment assign(const Places& places, std::span<const int> counts, Seed seed,
                  std::uint64_t block_index, Neighbours neighbours, const Progress& progress) {
  const std::int64_t planted = checked_sum(counts);
  const auto n = static_cast<std::int64_t>(places.size());
  std::vector<bool> used;  // empty = all
  if (planted != n) used = spread_evenly(places, planted);
  Stream stream(seed, kPurpose, block_index);
  Laid laid = lay(places, used, shuffled(counts, planted, stream), neighbours, progress);
  Assignment out;
  out.species = std::move(laid.species);
  out.planted = planted;
  out.empty = n - planted;
  out.most_without_pairs = most_without_pairs(places, out.species, neighbours);
  for (std::size_t s = 0; s < counts.size(); ++s) {
    if (counts[s] <= out.most_without_pairs) continue;
    out.too_many.push_back(static_cast<int>(s));
    out.fewest_like_pairs += counts[s] - out.most_without_pairs;
  }
  if (!laid.unlucky.empty()) {
    repair(places, out.species, laid.unlucky, out.fewest_like_pairs, neighbours, stream, progress);
    out.like_pairs = count_like_pairs(places, out.species, neighbours);
  }
  return out;
}

std::vector<Message> messages_of(const Assignment& assignment, std::span<const int> counts) {
  std::vector<Message> out = {say("layout.pairs_left", {{"pairs", assignment.like_pairs}})};
  for (const int s : assignment.too_many) {
    const std::int64_t count = counts[static_cast<std::size_t>(s)];
    out.push_back(
        say("layout.pairs_cannot_be_avoided", {{"pairs", count - assignment.most_without_pairs},
                                               {"count", count},
                                               {"most", assignment.most_without_pairs}}));
  }
  out.push_back(say("layout.neighbours_across_blocks"));
  return out;
}

std::int64_t count_like_pairs(const Places& places, std::span<const std::uint8_t> species,
                              Neighbours neighbours) {
  std::int64_t pairs = 0;
  Sweep sweep(places, neighbours);
  sweep.run([&](std::size_t place, std::uint8_t left, const std::uint8_t* across, int n) {
    const std::uint8_t s = species[place];
    if (s == kEmptyPlace) return s;
    pairs += s == left ? 1 : 0;
    for (int i = 0; i < n; ++i) pairs += s == across[i] ? 1 : 0;
    return s;
  });
  return pairs;
}

std::vector<int> counts_in_row(const Places& places, std::span<const std::uint8_t> assigned,
                               std::size_t row, std::size_t species) {
  std::vector<int> counts(species, 0);
  const Row& r = places.rows.at(row);
  for (std::uint32_t i = r.first; i < r.first + r.count; ++i) {
    if (assigned[i] < species) ++counts[assigned[i]];
  }
  return counts;
}

}  // namespace wildling::layout
