#include "stat/yield_chain.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "base/error.hpp"
#include "base/exact_math.hpp"
#include "stat/binomial.hpp"

namespace wildling::stat {
namespace {

constexpr double kStep = 1.0 / 128;           // of ln T
constexpr std::size_t kMostCells = 64 * 128;  // ln T down to -64
constexpr double kTail = 1e-12;

void check(const Stage& stage) {
  if (!(stage.mean > 0) || !(stage.mean <= 1) || !(stage.correlation >= 0) ||
      !(stage.correlation < 1)) {
    throw Error(
        ErrorKind::input, "",
        say("stat.stage_impossible", {{"mean", stage.mean}, {"correlation", stage.correlation}}));
  }
}

/// Mass of -ln X in the cells [i, i + 1) steps, X a beta; the rest of the tail lies in the last
/// cell.
std::vector<double> cells_of(const Stage& stage) {
  const double both = 1 / stage.correlation - 1;
  const double a = stage.mean * both;
  const double b = both - a;
  std::vector<double> mass;
  double above = 1;  // P(X <= upper edge of the cell)
  while (mass.size() + 1 < kMostCells) {
    const double below = beta_cdf(exact_exp(-kStep * static_cast<double>(mass.size() + 1)), a, b);
    mass.push_back(above - below);
    above = below;
    if (below < kTail) break;
  }
  mass.push_back(above);
  return mass;
}

std::vector<double> convolved(const std::vector<double>& a, const std::vector<double>& b) {
  std::vector<double> sum(std::min(a.size() + b.size() - 1, kMostCells), 0.0);
  for (std::size_t i = 0; i < a.size(); ++i) {
    if (a[i] == 0) continue;
    for (std::size_t j = 0; j < b.size(); ++j) sum[std::min(i + j, kMostCells - 1)] += a[i] * b[j];
  }
  return sum;
}

void cut_tails(std::vector<double>& mass, double& offset_steps) {
  double cut = 0;
  while (mass.size() > 1 && cut + mass.back() < kTail) {
    cut += mass.back();
    mass.pop_back();
  }
  mass.back() += cut;
  std::size_t first = 0;
  cut = 0;
  while (first + 1 < mass.size() && cut + mass[first] < kTail) cut += mass[first++];
  mass[first] += cut;
  mass.erase(mass.begin(), mass.begin() + static_cast<std::ptrdiff_t>(first));
  offset_steps += static_cast<double>(first);
}

/// P(Bin(n, T) >= need) averaged over one cell. Inside a cell wider than the binomial's own spread
/// the step of the tail is followed by equal parts.
double chance_in_cell(double need, double n, double low, double high, const BinomialTail& tail) {
  const double middle = 0.5 * (low + high);
  const double sd_of_rate = std::sqrt(std::max(middle * (1 - middle), 1e-300) / n);
  constexpr double kSure =
      9;  // standard deviations: beyond them the chance is under 1e-18 (normal)
  const double rate = (need - 0.5) / n;
  if (low - rate > kSure * sd_of_rate && n * middle > 200) return 1;
  if (rate - high > kSure * sd_of_rate && n * middle > 200) return 0;
  const int parts = std::clamp(static_cast<int>(std::ceil(2 * (high - low) / sd_of_rate)), 1, 64);
  double sum = 0;
  for (int i = 0; i < parts; ++i) sum += tail(low + (high - low) * (i + 0.5) / parts);
  return sum / parts;
}

}  // namespace

double YieldDistribution::mean() const {
  double sum = 0;
  for (std::size_t i = 0; i < cells(); ++i) sum += mass[i] * 0.5 * (low[i] + high[i]);
  return sum;
}

double YieldDistribution::quantile(double chance) const {
  double below = 0;
  for (std::size_t i = 0; i < cells(); ++i) {
    if (below + mass[i] >= chance && mass[i] > 0) {
      return low[i] + (high[i] - low[i]) * std::clamp((chance - below) / mass[i], 0.0, 1.0);
    }
    below += mass[i];
  }
  return high.back();
}

YieldDistribution product_of_stages(std::span<const Stage> stages) {
  std::vector<double> mass = {1.0};
  double offset_steps = 0;  // of the first cell's middle, in steps of -ln T
  double exact = 0;         // -ln of the stages without spread
  for (const Stage& stage : stages) {
    check(stage);
    if (stage.mean == 1.0) continue;
    if (stage.correlation == 0) {
      exact -= exact_log(stage.mean);
      continue;
    }
    mass = convolved(mass, cells_of(stage));
    offset_steps += 0.5;
    cut_tails(mass, offset_steps);
  }
  YieldDistribution yield;
  const bool spread = mass.size() > 1;
  for (std::size_t i = mass.size(); i-- > 0;) {
    const double middle = exact + kStep * (offset_steps + static_cast<double>(i));
    const double half = spread ? 0.5 * kStep : 0;
    yield.low.push_back(exact_exp(-middle - half));
    yield.high.push_back(std::min(1.0, exact_exp(-middle + half)));
    yield.mass.push_back(mass[i]);
  }
  return yield;
}

YieldDistribution mean_of_lots(std::span<const YieldDistribution> parts,
                               std::span<const double> weights) {
  constexpr std::size_t kCells = 2048;
  double largest = 0;
  for (std::size_t j = 0; j < parts.size(); ++j) largest += weights[j] * parts[j].high.back();
  const double step = largest / kCells;
  std::vector<double> sum = {1.0};
  for (std::size_t j = 0; j < parts.size(); ++j) {
    std::vector<double> nodes(kCells + 2, 0.0);
    for (std::size_t i = 0; i < parts[j].cells(); ++i) {
      const double at = weights[j] * 0.5 * (parts[j].low[i] + parts[j].high[i]) / step;
      const auto node = static_cast<std::size_t>(at);
      nodes[node] += parts[j].mass[i] * (1 - (at - static_cast<double>(node)));
      nodes[node + 1] += parts[j].mass[i] * (at - static_cast<double>(node));
    }
    while (nodes.size() > 1 && nodes.back() == 0) nodes.pop_back();
    sum = convolved(sum, nodes);
  }
  YieldDistribution yield;
  for (std::size_t i = 0; i < sum.size(); ++i) {
    if (sum[i] < 1e-15) continue;
    const double middle = step * static_cast<double>(i);
    yield.low.push_back(std::max(0.0, middle - 0.5 * step));
    yield.high.push_back(std::min(1.0, middle + 0.5 * step));
    yield.mass.push_back(sum[i]);
  }
  return yield;
}

double chance_of_enough(long long need, long long n, const YieldDistribution& yield) {
  if (need <= 0) return 1;
  if (n < need) return 0;
  const BinomialTail tail(need, n);
  double sum = 0;
  for (std::size_t i = yield.cells(); i-- > 0;) {
    sum += yield.mass[i] * chance_in_cell(static_cast<double>(need), static_cast<double>(n),
                                          yield.low[i], yield.high[i], tail);
  }
  return sum;
}

InHand arriving(long long units, const YieldDistribution& yield) {
  if (units <= 0) return {};
  constexpr std::array<double, 25> kEdges = {0,    .0005, .001, .002, .004, .007, .012, .02, .03,
                                             .045, .065,  .09,  .125, .17,  .22,  .28,  .35, .43,
                                             .52,  .61,   .7,   .79,  .87,  .94,  1};
  InHand in_hand;
  for (std::size_t i = 0; i + 1 < kEdges.size(); ++i) {
    long long low = i == 0 ? 0 : in_hand.count.back();  // P(arrive >= low) >= 1 - edge
    long long high = i == 0 ? 1 : units + 1;
    while (high - low > 1) {
      const long long middle = low + (high - low) / 2;
      (chance_of_enough(middle, units, yield) >= 1 - kEdges[i] ? low : high) = middle;
    }
    in_hand.count.push_back(low);
    in_hand.mass.push_back(kEdges[i + 1] - kEdges[i]);
  }
  return in_hand;
}

double chance_of_enough(long long need, long long n, const YieldDistribution& yield,
                        const InHand& in_hand) {
  if (in_hand.count.empty()) return chance_of_enough(need, n, yield);
  double sum = 0;
  for (std::size_t i = 0; i < in_hand.count.size(); ++i) {
    sum += in_hand.mass[i] * chance_of_enough(need - in_hand.count[i], n, yield);
  }
  return sum;
}

namespace {

/// Smallest n in (low, high] that is enough, when low is not and high is.
long long bisected(long long need, const YieldDistribution& yield, double confidence,
                   const InHand& in_hand, long long low, long long high) {
  while (high - low > 1) {
    const long long middle = low + (high - low) / 2;
    (chance_of_enough(need, middle, yield, in_hand) < confidence ? low : high) = middle;
  }
  return high;
}

}  // namespace

long long smallest_count(long long need, const YieldDistribution& yield, double confidence,
                         const InHand& in_hand) {
  constexpr long long kMost = 2'000'000'000;
  if (need <= 0 || chance_of_enough(need, 0, yield, in_hand) >= confidence) return 0;
  long long low = 0;
  long long high = std::max(16LL, need);
  if (!in_hand.count.empty()) {  // between the answers for the most and the least that arrives
    const auto [least, most] = std::minmax_element(in_hand.count.begin(), in_hand.count.end());
    low = std::max(0LL, smallest_count(need - *most, yield, confidence) - 1);
    high = smallest_count(need - *least, yield, confidence);
  }
  while (chance_of_enough(need, high, yield, in_hand) < confidence) {
    low = high;
    high = std::max(16LL, 2 * high);
    if (high > kMost) {
      throw Error(ErrorKind::infeasible, "",
                  say("stat.no_count_is_enough", {{"need", static_cast<std::int64_t>(need)}}));
    }
  }
  return bisected(need, yield, confidence, in_hand, low, high);
}

}  // namespace wildling::stat
