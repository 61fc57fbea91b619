#include "layout/repair.hpp"

#include <algorithm>

#include "layout/neighbours.hpp"

namespace wildling::layout {
namespace {

constexpr std::int64_t kTriesPerPlace = 10;
constexpr std::int64_t kTriesMore = 50'000;
constexpr int kTriesPerVisit = 200;

class Repairer {
 public:
  Repairer(const Places& places, std::vector<std::uint8_t>& species, Neighbours neighbours,
           Stream& stream)
      : places_(places), species_(species), neighbours_(neighbours), stream_(stream) {
    for (std::size_t i = 0; i < species.size(); ++i) planted_ += species[i] != kEmptyPlace ? 1 : 0;
    budget_ = kTriesPerPlace * planted_ + kTriesMore;
  }

  [[nodiscard]] bool tired() const { return budget_ <= 0; }

  /// Like neighbours of a place.
  [[nodiscard]] int like(std::size_t place) const {
    int n = 0;
    for (const std::size_t other : neighbours_of(places_, place, neighbours_)) {
      n += species_[other] == species_[place] ? 1 : 0;
    }
    return n;
  }

  /// Tries partners until a swap lowers the pairs; else makes the last swap seen that leaves them
  /// as they are, so that the fault can wander to where it can be mended. Adds to `suspects` what
  /// may now be at fault.
  void visit(std::size_t place, std::vector<std::size_t>& suspects) {
    std::size_t level = place;
    for (int t = 0; t < kTriesPerVisit && budget_ > 0; ++t) {
      const std::size_t other = stream_.below(static_cast<std::uint32_t>(species_.size()));
      --budget_;
      if (species_[other] == kEmptyPlace || species_[other] == species_[place]) continue;
      const int change = swap_and_compare(place, other);
      if (change < 0) {
        if (like(place) > 0) suspects.push_back(place);
        if (like(other) > 0) suspects.push_back(other);
        return;
      }
      std::swap(species_[place], species_[other]);
      if (change == 0) level = other;
    }
    --budget_;
    if (level != place) {
      std::swap(species_[place], species_[level]);
      suspects.push_back(level);
      add_like_neighbours(level, suspects);
    }
    suspects.push_back(place);
    add_like_neighbours(place, suspects);
  }

 private:
  int swap_and_compare(std::size_t a, std::size_t b) {
    const int before = like(a) + like(b);  // a and b are unlike: no pair is counted twice
    std::swap(species_[a], species_[b]);
    return like(a) + like(b) - before;
  }

  void add_like_neighbours(std::size_t place, std::vector<std::size_t>& suspects) const {
    for (const std::size_t other : neighbours_of(places_, place, neighbours_)) {
      if (species_[other] == species_[place]) suspects.push_back(other);
    }
  }

  const Places& places_;
  std::vector<std::uint8_t>& species_;
  Neighbours neighbours_;
  Stream& stream_;
  std::int64_t planted_ = 0;
  std::int64_t budget_ = 0;
};

}  // namespace

void repair(const Places& places, std::vector<std::uint8_t>& species,
            std::vector<std::size_t> suspects, std::int64_t fewest, Neighbours neighbours,
            Stream& stream, const Progress& progress) {
  Repairer repairer(places, species, neighbours, stream);
  const bool may_reach_fewest = fewest > 0;
  while (!suspects.empty() && !repairer.tired()) {
    check_stop(progress);
    std::sort(suspects.begin(), suspects.end());
    suspects.erase(std::unique(suspects.begin(), suspects.end()), suspects.end());
    std::vector<std::size_t> next;
    for (const std::size_t place : suspects) {
      if (repairer.tired()) break;
      if (repairer.like(place) > 0) repairer.visit(place, next);
    }
    if (may_reach_fewest && count_like_pairs(places, species, neighbours) <= fewest) return;
    suspects = std::move(next);
  }
}

}  // namespace wildling::layout
